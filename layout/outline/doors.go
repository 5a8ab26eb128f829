package outline

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

// door is what the front door's shut lines share with what stands beside them: its front edge, and its rear edge where it is the only one.
type door struct{ frontTop, frontLow, rearTop, rearLow point }

// doorFoot is the height at which the doors end, above the sill.
func (b *body) doorFoot() geom.Wheels { return b.sillLine() + min(b.shape.Rocker, .14) }

// frontDoor places the front door: its leading edge stands nearly upright, behind the arch and no farther forward than the glass.
func (b *body) frontDoor() door {
	low, lean := b.doorFoot(), b.shape.DoorLean.Tan()
	clear := b.FrontArch() + .13 + geom.Wheels(.6*float64(b.shape.Cladding))
	glass := b.glassFront().X
	x := max(glass-.02, clear+geom.Wheels(lean*float64(b.BeltAt(1)-low)))
	if b.isOpen() {
		x = max(b.PillarFoot().X+frameFoot+.02, x)
	}
	top := b.onBelt(x)
	if x < glass+.01 { // on the wing, ahead of the glass
		top.Y = min(top.Y, b.skinOver(x)-.05)
	}
	const underSkin geom.Wheels = .004
	under := func(p point) point {
		if b.isOpen() { // under the cockpit's edge, which lies a bow below the belt
			return p.Add(point{Y: -cockpitBow - underSkin})
		}
		return point{X: p.X, Y: min(p.Y, b.skinOver(p.X)-underSkin)}
	}
	top = under(top)
	d := door{frontTop: top, frontLow: point{X: x - geom.Wheels(lean*float64(top.Y-low)), Y: low}}
	if b.shape.Doors == 2 {
		end := min(geom.Wheels(float64(b.Wheelbase())*b.shape.DoorEnd), b.Wheelbase()-b.RearArch()-.07-b.shape.Cladding)
		back := geom.Wheels(.03)
		if b.Profile.Form == segments.Fastback || b.isOpen() {
			back = .06
		}
		if b.Profile.HasLoadBox() {
			end = min(b.GlassEnd()+.05, end)
		}
		d.rearTop = under(b.onBelt(end))
		d.rearLow = point{X: end - back, Y: low}
	}
	return d
}

// doors returns the shut lines: the quietest hints of the outline.
func (b *body) doors() layout.Path {
	if b.shape.Doors == 0 {
		return nil
	}
	d := b.frontDoor()
	if b.shape.Doors == 2 {
		path := openPath(geom.Blend([]quad{
			geom.Bowed(d.frontTop, d.frontLow, 0), geom.Bowed(d.frontLow, d.rearLow, 0), geom.Bowed(d.rearLow, d.rearTop, 0),
		}, []segments.Fillet{{Before: .22, After: .16}, {Before: .12, After: .16}}))
		return append(path, b.cargoDoor(d)...)
	}
	behind := slices.DeleteFunc(slices.Clone(b.shape.Pillars), func(p segments.Pillar) bool { return p.At <= 0 })
	middle := geom.Wheels(.55 * float64(b.Wheelbase()))
	if len(behind) > 0 {
		middle = b.pillarAt(behind[0].At)
	}
	middle = min(middle, b.Wheelbase()-b.RearArch()-b.shape.Cladding-.06)
	end := min(geom.Wheels(float64(b.Wheelbase())*b.shape.DoorEnd), b.GlassEnd()-.10)
	switch {
	case b.Profile.Form == segments.Bed:
		end = b.GlassEnd() - .02
	case len(behind) > 1:
		end = b.pillarAt(behind[1].At)
	}
	path := layout.Path{}.Move(b.onBelt(middle)).Line(point{X: middle + .01, Y: b.doorFoot()})
	return append(path, b.rearDoor(d, end)...)
}

// rearDoor is the line from the front door's leading edge along the rocker, round the rear arch and up to the belt at end.
func (b *body) rearDoor(d door, end geom.Wheels) layout.Path {
	low, arch := b.doorFoot(), b.rearArch()
	arch.Radius += .09 + b.shape.Cladding
	rise := float64(low - arch.Centre.Y)
	// Where the circle is at the doors' foot.
	reach := arch.Centre.X - geom.Wheels(math.Sqrt(math.Max(0, float64(arch.Radius*arch.Radius)-rise*rise)))
	if b.Profile.Form == segments.Bed && end < reach+.14 {
		end = min(end, reach-.02)
	}
	front := []quad{geom.Bowed(d.frontTop, d.frontLow, 0), geom.Bowed(d.frontLow, point{X: min(end, reach-.10), Y: low}, 0)}
	if end <= reach {
		end = min(end, arch.Centre.X-b.RearArch()-b.shape.Cladding-.03)
		front = append(front, geom.Bowed(point{X: end, Y: low}, b.onBelt(end), 0))
		return openPath(geom.Blend(front, []segments.Fillet{{Before: .22, After: .16}, {Before: .12, After: .16}}))
	}
	end = min(end, arch.Centre.X-geom.Wheels(.30*float64(arch.Radius)))
	path := openPath(geom.Blend(front, []segments.Fillet{{Before: .22, After: .16}}))
	from, ok := b.roundArch(arch, end)
	if !ok {
		return path
	}
	path = join(path, lineEnd(d.frontLow, front[1][2], front[1][2]), from.start)
	path = path.Arc(arch.Radius, false, false, from.end.At)
	path = join(path, from.end, geom.EndCondition[geom.Wheels]{At: from.up, Dir: point{Y: 1}})
	if top := b.onBelt(end); top.Y > from.up.Y+.005 {
		path = path.Line(top)
	}
	return path
}

// archRun is the piece of a circle round a wheel that a shut line follows, rearwards and up, and where it stands upright above that.
type archRun struct {
	start, end geom.EndCondition[geom.Wheels]
	up         point
}

// roundArch looks for the longest piece of a circle round the rear wheel from which a line can turn upright at x.
func (b *body) roundArch(circle Arch, x geom.Wheels) (archRun, bool) {
	on := func(t float64) geom.EndCondition[geom.Wheels] { // clockwise
		e := circle.end(t)
		e.Dir, e.Curvature = e.Dir.Times(-1), -e.Curvature
		return e
	}
	r := float64(circle.Radius)
	join := math.Pi
	if off := float64(circle.Centre.X - x); off < r {
		join = math.Pi - math.Acos(off/r)
	}
	foot := math.Pi - circle.angle(b.doorFoot())
	room := foot - join
	if room <= 0 {
		return archRun{}, false
	}
	from := foot - math.Min(.12/r, .3*room)
	top := circle.Centre.Y + geom.Wheels(r*math.Sin(join))
	for _, share := range [6]float64{.6, .5, .4, .3, .2, .1} {
		to := join + share*room
		if to >= from {
			continue
		}
		for _, rise := range [5]geom.Wheels{.42, .34, .26, .18, .10} {
			up := point{X: x, Y: min(top+rise, b.BeltAt(x)-.04)}
			c, ok := geom.Corner(on(to), geom.EndCondition[geom.Wheels]{At: up, Dir: point{Y: 1}})
			if ok && b.clearsArch(c) {
				return archRun{on(from), on(to), up}, true
			}
		}
	}
	return archRun{}, false
}

// clearsArch reports whether a curve keeps off the rear arch.
func (b *body) clearsArch(c cubic) bool {
	const clear, steps = .03, 8
	wheel := point{X: b.Wheelbase(), Y: b.RearRadius()}
	for i := range steps + 1 {
		if c.At(float64(i)/steps).Sub(wheel).Len() < b.RearArch()+b.shape.Cladding+clear {
			return false
		}
	}
	return true
}

// cargoDoor is the sliding door of a load box, as high as the cab's glass.
func (b *body) cargoDoor(d door) layout.Path {
	if !b.Profile.HasLoadBox() {
		return nil
	}
	const soft geom.Wheels = .10
	top := geom.BoundsOf(b.sideGlass().line).Max.Y
	from, to := b.cargoSpan(d)
	a, c := point{X: from, Y: d.frontLow.Y}, point{X: to, Y: top}
	round := segments.Fillet{Before: soft, After: soft}
	return closedPath(geom.Blend([]quad{
		geom.Bowed(a, point{X: a.X, Y: c.Y}, 0), geom.Bowed(point{X: a.X, Y: c.Y}, c, 0),
		geom.Bowed(c, point{X: c.X, Y: a.Y}, 0), geom.Bowed(point{X: c.X, Y: a.Y}, a, 0),
	}, []segments.Fillet{round, round, round, round}))
}

// cargoSpan is the sliding door's place along x: behind the cab's door, as wide as the rear arch leaves room.
func (b *body) cargoSpan(d door) (from, to geom.Wheels) {
	const wide geom.Wheels = 1.35
	from = d.rearTop.X + .05
	return from, min(from+wide, b.Wheelbase()-b.RearArch()-.12)
}

// slide returns the rail of a sliding door.
func (b *body) slide(rear lens) layout.Path {
	if b.shape.Slide == (segments.Range{}) {
		return nil
	}
	if b.Profile.HasLoadBox() {
		_, x := b.cargoSpan(b.frontDoor())
		y := b.BeltAt(x) - .33
		return layout.Path{}.Move(point{X: x, Y: y}).Line(point{X: min(x+1.25, rear.highInner.X-.15), Y: y})
	}
	y := min(b.BeltAt(b.Wheelbase())-.20, rear.highInner.Y-.03)
	share := float64((rear.highInner.Y - y) / max(.01, rear.highInner.Y-rear.lowInner.Y))
	end := rear.highInner.Lerp(rear.lowInner, share).X
	return layout.Path{}.Move(point{X: geom.Wheels(b.shape.Slide.Lo * float64(b.Wheelbase())), Y: y}).Line(point{X: end, Y: y})
}

// intake returns the air intake behind the only door.
func (b *body) intake() layout.Path {
	if !b.shape.Intake || b.shape.Doors != 2 { // it stands behind the only door
		return nil
	}
	d := b.frontDoor()
	on := func(y geom.Wheels) point {
		return d.rearLow.Lerp(d.rearTop, float64((y-d.rearLow.Y)/(d.rearTop.Y-d.rearLow.Y)))
	}
	high, low := on(d.rearTop.Y-.10), on(d.rearLow.Y+.22)
	reach := high.X + .34
	r := b.RearArch() + .06
	if over := high.Y - .02 - b.RearRadius(); abs(over) < r {
		reach = min(reach, b.Wheelbase()-geom.Wheels(math.Sqrt(float64(r*r)-float64(over*over))))
	}
	back := point{X: reach, Y: high.Y - .01}
	return closedPath(geom.Blend(
		[]quad{geom.Bowed(high, back, 0), geom.Bowed(back, low, -.03), geom.Bowed(low, high, 0)},
		[]segments.Fillet{{Before: .05, After: .06}, {Before: .02, After: .02}, {Before: .02, After: .02}}))
}
