package layout

import (
	"math"

	"hubrule/internal/geom"
)

// archSoft is the set-back of the corners between an arch and the lines that meet it:
// a plain circle cut to the sill looks cut out with scissors.
const archSoft geom.Wheels = .035

// arch is an arch's true arc round an axle, from angle from up to angle to, counter-clockwise.
type arch struct {
	centre   Point
	radius   geom.Wheels
	from, to float64 // radians
}

func (a arch) at(t float64) Point {
	r := float64(a.radius)
	return a.centre.Add(Point{X: geom.Wheels(r * math.Cos(t)), Y: geom.Wheels(r * math.Sin(t))})
}

// end returns the arc's end for a corner: curvature is the circle's.
func (a arch) end(t float64) geom.End[geom.Wheels] {
	return geom.End[geom.Wheels]{
		At:        a.at(t),
		Dir:       Point{X: geom.Wheels(-math.Sin(t)), Y: geom.Wheels(math.Cos(t))},
		Curvature: 1 / float64(a.radius),
	}
}

// inset returns a with the softened corners taken off both ends.
func (a arch) inset(by geom.Wheels) arch {
	turn := float64(by / a.radius)
	a.from, a.to = a.from+turn, a.to-turn
	return a
}

// draw adds the arc to a path that stands at its start, in two halves that meet at the crown:
// the centre of a half circle is lost to the last digit of its ends, that of a quarter is not.
func (a arch) draw(path Path) Path {
	if a.from < math.Pi/2 && a.to > math.Pi/2 {
		path = path.Arc(a.radius, false, true, a.at(math.Pi/2))
	}
	return path.Arc(a.radius, false, true, a.at(a.to))
}

// height above the axle as an angle on the rearward side; heights the arch does not reach stop short of its crown or foot.
func (a arch) angle(y geom.Wheels) float64 {
	sine := float64((y - a.centre.Y) / a.radius)
	return math.Asin(math.Max(-.95, math.Min(.9, sine)))
}

// frontArch runs from the sill over the wheel to the lip under the nose.
func (b *body) frontArch() arch {
	a := arch{centre: Point{Y: .5}, radius: b.FrontArch}
	a.from = a.angle(b.sillLine())
	a.to = math.Pi - a.angle(max(b.Clearance, b.Sill-.03))
	return a
}

// rearArch runs from the lip under the tail over the wheel to the sill.
func (b *body) rearArch() arch {
	const rise geom.Wheels = .015 // of the sill towards the rear arch: a level sill looks as if it sagged
	a := arch{centre: Point{X: b.Wheelbase, Y: b.RearRadius}, radius: b.RearArch}
	a.from = a.angle(b.sillLine())
	a.to = math.Pi - a.angle(b.sillLine()+rise)
	return a
}

// sillLine is the height of the body's lower edge between the wheels, never under the clearance.
func (b *body) sillLine() geom.Wheels { return max(b.Sill, b.Clearance) }

func (b *body) frontLip() Point {
	a := b.frontArch()
	return a.at(a.to)
}

func (b *body) rearLip() Point {
	a := b.rearArch()
	return a.at(a.from)
}

// closed returns the whole body: upper line, rear arch, sill, front arch, with softened corners between them.
func (b *body) closed() Path {
	front, rear := b.frontArch().inset(archSoft), b.rearArch().inset(archSoft)
	sill := b.sill()
	path := smooth(b.upper)
	first, last := b.upper[0], b.upper[len(b.upper)-1]
	path = join(path, lineEnd(last[2], last[3], last[3]), rear.end(rear.from))
	path = rear.draw(path)
	path = join(path, rear.end(rear.to), lineEnd(sill[0], sill[3], sill[0]))
	path = path.Line(sill[3])
	path = join(path, lineEnd(sill[0], sill[3], sill[3]), front.end(front.from))
	path = front.draw(path)
	path = join(path, front.end(front.to), lineEnd(first[0], first[1], first[0]))
	return path.Close()
}

// sill returns the straight lower edge between the arches, from rear to front, without its softened ends.
func (b *body) sill() cubic {
	front, rear := b.frontArch(), b.rearArch()
	from, to := rear.at(rear.to), front.at(front.from)
	inset := to.Sub(from).Unit().Times(float64(archSoft))
	return geom.Straight(from.Add(inset), to.Sub(inset))
}

// lineEnd is an end at p of the straight line from a to b.
func lineEnd(a, b, p Point) geom.End[geom.Wheels] {
	return geom.End[geom.Wheels]{At: p, Dir: b.Sub(a).Unit()}
}

// join adds the corner from one end to another, or a straight line where there is no room for one.
func join(path Path, from, to geom.End[geom.Wheels]) Path {
	c, ok := geom.Corner(from, to)
	if !ok {
		return path.Line(to.At)
	}
	return path.Curve(c[1], c[2], c[3])
}

// cladding returns the edges of the arches' cladding, concentric with them.
func (b *body) cladding() Path {
	if b.shape.Cladding == 0 {
		return nil
	}
	var path Path
	for _, a := range [2]arch{b.frontArch(), b.rearArch()} {
		a.radius += b.shape.Cladding
		a.from, a.to = a.from+.1, a.to-.1
		path = a.draw(path.Move(a.at(a.from)))
	}
	return path
}
