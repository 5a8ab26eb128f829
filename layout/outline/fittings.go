package outline

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

// mirror returns the box of the door mirror, at the foot of the side glass.
func (b *body) mirror() geom.Box[geom.Wheels] {
	const ahead, behind, under geom.Wheels = .03, .12, .005
	high := geom.Wheels(.15)
	if b.shape.Face == segments.TallFace {
		high = .18
	}
	foot := b.glassFront()
	return geom.BoxOf(quantise(foot.Add(point{X: -ahead, Y: -under})), quantise(foot.Add(point{X: behind, Y: high - under})))
}

// hasTailgate reports whether the rear opens up to the roof, all at once.
func (b *body) hasTailgate() bool {
	form := b.Profile.Form
	return (form == segments.TwoBox || form == segments.OneBox) && !b.Profile.HasLoadBox()
}

// spoiler returns the ends of a roof spoiler's lower edge: at the rear glass, and ahead of it on the side, clear of the side glass.
func (b *body) spoiler() (ends [2]point) {
	const under, rise, clear geom.Wheels = .13, .02, .06
	if b.shape.Spoiler == 0 || !b.hasTailgate() {
		return ends
	}
	upper, y := spline(b.upper), b.roofEnd(b.foot).Y-under
	ends[0] = upper.At(upper.Find(float64(len(upper)), b.cowlOn(upper), func(at, _ point) bool { return at.Y >= y }))
	_, glass := extentAt(geom.Polyline(b.sideGlass().line, chords), ends[0].Y)
	ends[1] = point{X: max(ends[0].X-b.shape.Spoiler, glass+clear), Y: ends[0].Y + rise}
	if ends[1].X > ends[0].X-clear || ends[1].Y > b.skinOver(ends[1].X)-clear {
		return [2]point{}
	}
	return [2]point{quantise(ends[0]), quantise(ends[1])}
}

// spoilerEdge returns what the side shows of it: its lower edge, and its front end up to the roof.
func (b *body) spoilerEdge() layout.Path {
	const leans geom.Wheels = .05
	ends := b.spoiler()
	if ends[0] == ends[1] {
		return nil
	}
	up := point{X: ends[1].X - leans}
	up.Y = b.skinOver(up.X)
	return layout.Path{}.Move(ends[0]).Line(ends[1]).Line(up)
}

// chord is the straight line between two points, nothing where they are one.
func chord(ends [2]point) layout.Path {
	if ends[0] == ends[1] {
		return nil
	}
	return layout.Path{}.Move(ends[0]).Line(ends[1])
}

// rearCladding returns the ends of the line up to which the rear bumper of a clad vehicle is clad.
func (b *body) rearCladding() (ends [2]point) {
	const high = .5 // of the bumper
	if b.shape.Cladding == 0 || b.shape.Tail.Block {
		return ends
	}
	ends[0] = spline(b.upper).At(b.skinAt(b.TailLow()+geom.Wheels(high*float64(b.rearBumper[0].Y-b.TailLow())), false))
	ends[1] = b.breakFrom(ends[0], false)
	return [2]point{quantise(ends[0]), quantise(ends[1])}
}

// rails returns the x of the ends of the roof rails.
func (b *body) rails() (ends [2]geom.Wheels) {
	const ahead, behind, least geom.Wheels = .30, .16, .6
	from, to := b.screenTop().X+ahead, b.roofEnd(b.foot).X-behind
	if b.shape.RoofRails == 0 || !b.hasTailgate() || to < from+least {
		return ends
	}
	return [2]geom.Wheels{layout.Quantise(from), layout.Quantise(to)}
}

// railsEdge returns the lower edge of the near rail, from the roof and back to it.
func (b *body) railsEdge() layout.Path {
	const ramp, over geom.Wheels = .10, .006
	ends := b.rails()
	if ends[0] == ends[1] {
		return nil
	}
	under := func(x, drop geom.Wheels) point { return point{X: x, Y: b.skinOver(x) - drop} }
	drop := b.shape.RoofRails + over
	from, to := under(ends[0]+ramp, drop), under(ends[1]-ramp, drop)
	bow := under((from.X+to.X)/2, drop).Y - (from.Y+to.Y)/2
	return openPath(geom.Blend([]quad{geom.Bowed(under(ends[0], 0), from, 0), geom.Bowed(from, to, bow), geom.Bowed(to, under(ends[1], 0), 0)},
		[]segments.Fillet{{Before: .06, After: .10}, {Before: .10, After: .06}}))
}
