package outline

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
)

// archSoft is what the corners take off an arch and off the lines that meet it:
// a plain circle cut to the sill looks cut out with scissors.
const archSoft geom.Wheels = .035

// Arch is the true arc of a wheel arch, from angle From up to angle To (radians, counter-clockwise).
type Arch struct {
	Centre   layout.Point
	Radius   geom.Wheels
	From, To float64
}

func (a Arch) at(t float64) point {
	r := float64(a.Radius)
	return a.Centre.Add(point{X: geom.Wheels(r * math.Cos(t)), Y: geom.Wheels(r * math.Sin(t))})
}

// end returns the arc's end for a corner: curvature is the circle's.
func (a Arch) end(t float64) geom.EndCondition[geom.Wheels] {
	return geom.EndCondition[geom.Wheels]{
		At:        a.at(t),
		Dir:       point{X: geom.Wheels(-math.Sin(t)), Y: geom.Wheels(math.Cos(t))},
		Curvature: 1 / float64(a.Radius),
	}
}

// inset returns a with the softened corners taken off both ends.
func (a Arch) inset(by geom.Wheels) Arch {
	turn := float64(by / a.Radius)
	a.From, a.To = a.From+turn, a.To-turn
	return a
}

// draw adds the arc to a path that stands at its start, in two halves that meet at the crown:
// the centre of a half circle is lost to the last digit of its ends, that of a quarter is not.
func (a Arch) draw(path layout.Path) layout.Path {
	if a.From < math.Pi/2 && a.To > math.Pi/2 {
		path = path.Arc(a.Radius, false, true, a.at(math.Pi/2))
	}
	return path.Arc(a.Radius, false, true, a.at(a.To))
}

// angle returns the angle of the arc at height y on its rearward side; a height beyond the arch stops short of its crown or foot.
func (a Arch) angle(y geom.Wheels) float64 {
	sine := float64((y - a.Centre.Y) / a.Radius)
	return math.Asin(math.Max(-.95, math.Min(.9, sine)))
}

// frontArch runs from the sill over the wheel to the lip under the nose.
func (b *body) frontArch() Arch {
	a := Arch{Centre: point{Y: .5}, Radius: b.FrontArch()}
	a.From = a.angle(b.sillLine())
	a.To = math.Pi - a.angle(b.frontLip())
	return a
}

// rearArch runs from the lip under the tail over the wheel to the sill.
func (b *body) rearArch() Arch {
	const rise geom.Wheels = .015 // of the sill towards the rear arch: a level sill looks as if it sagged
	a := Arch{Centre: point{X: b.Wheelbase(), Y: b.RearRadius()}, Radius: b.RearArch()}
	a.From = a.angle(b.rearLip())
	a.To = math.Pi - a.angle(b.sillLine()+rise)
	return a
}

// frontLip and rearLip are the heights of the body's lower edge ahead of the front and behind the rear wheel.
func (b *body) frontLip() geom.Wheels { return max(b.Clearance(), min(b.Sill()-.03, b.Chin()-.04)) }
func (b *body) rearLip() geom.Wheels  { return max(b.Clearance(), min(b.Sill(), b.TailLow()-.05)) }

// sillLine is the height of the body's lower edge between the wheels, never under the clearance.
func (b *body) sillLine() geom.Wheels { return max(b.Sill(), b.Clearance()) }

// closed returns the whole body: upper line, rear arch, sill, front arch, with softened corners between them.
func (b *body) closed() layout.Path {
	front, rear := b.frontArch().inset(archSoft), b.rearArch().inset(archSoft)
	sill := b.sill()
	path := openPath(b.upper)
	first, last := b.upper[0], b.upper[len(b.upper)-1]
	path = join(path, lineEnd(last[2], last[3], last[3]), rear.end(rear.From))
	path = rear.draw(path)
	path = join(path, rear.end(rear.To), lineEnd(sill[0], sill[3], sill[0]))
	path = path.Line(sill[3])
	path = join(path, lineEnd(sill[0], sill[3], sill[3]), front.end(front.From))
	path = front.draw(path)
	path = join(path, front.end(front.To), lineEnd(first[0], first[1], first[0]))
	return path.Close()
}

// sill returns the straight lower edge between the arches, from rear to front, without its softened ends.
func (b *body) sill() cubic {
	front, rear := b.frontArch(), b.rearArch()
	from, to := rear.at(rear.To), front.at(front.From)
	inset := to.Sub(from).Unit().Times(float64(archSoft))
	return geom.Straight(from.Add(inset), to.Sub(inset))
}

// lineEnd is an end at p of the straight line from a to b.
func lineEnd(a, b, p point) geom.EndCondition[geom.Wheels] {
	return geom.EndCondition[geom.Wheels]{At: p, Dir: b.Sub(a).Unit()}
}

// join adds the corner from one end to another, or a straight line where there is no room for one.
func join(path layout.Path, from, to geom.EndCondition[geom.Wheels]) layout.Path {
	c, ok := geom.Corner(from, to)
	if !ok {
		return path.Line(to.At)
	}
	return path.Curve(c[1], c[2], c[3])
}

// cladding returns the edges of the arches' cladding, concentric with them.
func (b *body) cladding() layout.Path {
	if b.shape.Cladding == 0 {
		return nil
	}
	var path layout.Path
	for _, a := range [2]Arch{b.frontArch(), b.rearArch()} {
		a.Radius += b.shape.Cladding
		a.From, a.To = a.From+.1, a.To-.1
		for a.Centre.X == 0 && a.at(a.To).Y < b.lowerEdgeAhead(a.at(a.To).X) && a.To > a.From+1 {
			a.To -= .02
		}
		for a.Centre.X > 0 && a.at(a.From).Y < b.lowerEdgeAt(a.at(a.From).X) && a.From < a.To-1 {
			a.From += .02
		}
		path = a.draw(path.Move(a.at(a.From)))
	}
	return path
}
