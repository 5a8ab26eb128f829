package outline

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

// archAt returns where an arch with its cladding stands at height y, ahead of the front or behind the rear wheel.
func (b *body) archAt(front bool, y geom.Wheels) point {
	r, centre, out := b.FrontArch(), point{Y: .5}, geom.Wheels(-1)
	if !front {
		r, centre, out = b.RearArch(), point{X: b.Wheelbase(), Y: b.RearRadius()}, 1
	}
	r += b.shape.Cladding
	y = min(y, centre.Y+r-.03)
	return point{X: centre.X + out*geom.Wheels(math.Sqrt(max(0, float64(r*r)-float64((y-centre.Y)*(y-centre.Y))))), Y: y}
}

// breakFrom returns where the line between bumper and body that begins at p meets the arch: a little lower, at most 8° from the level.
func (b *body) breakFrom(p point, front bool) point {
	const fall, steepest geom.Wheels = .03, .125
	top := b.archAt(front, math.MaxFloat64).Y - .13
	y := min(p.Y-fall, top)
	for range 8 {
		y = max(min(p.Y-fall, top), p.Y-geom.Wheels(float64(steepest*abs(b.archAt(front, y).X-p.X))))
	}
	return b.archAt(front, y)
}

// bumperEnds returns both ends of the lines between bumpers and body: on the skin and at the arch. A block bumper's ends level, short
// of the arch.
func (b *body) bumperEnds(front lens) (nose, tail [2]point) {
	nose[0] = b.faceFoot
	if b.isWedge() {
		nose[0] = front.lowInner
	}
	nose[1] = b.breakFrom(nose[0], true)
	tail[0] = b.panelFoot
	switch {
	case b.isRecessed():
		const datumBy geom.Wheels = .07
		datum := b.bumperDatum()
		y := geom.Clamp(b.rearBumper[0].Y-.015, datum-datumBy, datum+datumBy)
		tail[0] = spline(b.upper).At(b.skinAt(y, false))
		tail[1] = b.breakFrom(tail[0], false)
	case b.shape.Tail.Block:
		arch := b.rearArch()
		tail[1] = tail[0].Add(point{X: -min(.28, .5*(tail[0].X-arch.at(arch.From).X))})
	default:
		tail[1] = b.breakFrom(tail[0], false)
	}
	return nose, tail
}

// bumpers returns the lines between bumpers and body.
func (b *body) bumpers(front lens) layout.Path {
	nose, tail := b.bumperEnds(front)
	var path layout.Path
	if nose[1].X > nose[0].X+.05 {
		path = openPath([]cubic{geom.Bowed(nose[0], nose[1], .008).Elevate()})
	}
	switch {
	case b.shape.Tail.Block: // down to the lower edge
		low := point{X: tail[1].X + .015, Y: b.lowerEdgeAt(tail[1].X + .015)}
		path = append(path, openPath(geom.Blend([]quad{geom.Bowed(tail[0], tail[1], 0), geom.Bowed(tail[1], low, 0)},
			[]segments.Fillet{{Before: .05, After: .05}}))...)
	case tail[1].X < tail[0].X-.05:
		path = append(path, openPath([]cubic{geom.Bowed(tail[1], tail[0], .008).Elevate()})...)
	}
	return path
}

// lowerEdgeAt returns the height of the line under the tail over x.
func (b *body) lowerEdgeAt(x geom.Wheels) geom.Wheels {
	upper := spline(b.upper)
	return upper.At(upper.Find(float64(len(upper)), b.corners[b.deckCorner], func(at, _ point) bool { return at.X >= x })).Y
}

// lowerEdgeAhead returns the height of the line under the nose over x.
func (b *body) lowerEdgeAhead(x geom.Wheels) geom.Wheels {
	upper := spline(b.upper)
	return upper.At(upper.Find(0, b.corners[b.edgeCorner], func(at, _ point) bool { return at.X <= x })).Y
}

// opening returns the shut line of what opens at the rear: a boot's lid, a tailgate, or the gap between cab and bed.
func (b *body) opening(rear lens) layout.Path {
	const under, inside geom.Wheels = .055, .085
	onLens := func(by geom.Wheels) point { // a way along its upper edge
		return rear.highOuter.Lerp(rear.highInner, math.Min(1, float64(by/max(.02, rear.highOuter.X-rear.highInner.X))))
	}
	below := func(x geom.Wheels) point { return point{X: x, Y: b.skinOver(x) - under} }
	switch b.Profile.Form {
	case segments.ThreeBox, segments.Open:
		start := b.foot.X + .03
		lamp := onLens(.10)
		from, to := below(start+.08), below(lamp.X-.012)
		if to.X < from.X+.08 {
			return nil
		}
		lines := []quad{geom.Bowed(point{X: start, Y: b.skinOver(start)}, from, 0), geom.Bowed(from, to, 0)}
		fillets := []segments.Fillet{{Before: .04, After: .08}}
		if to.Y > lamp.Y+.03 {
			lines = append(lines, geom.Bowed(to, lamp, 0))
			fillets = append(fillets, segments.Fillet{Before: .07, After: .07})
		}
		return openPath(geom.Blend(lines, fillets))
	case segments.TwoBox, segments.OneBox:
		x := b.roofEnd(b.foot).X - geom.Wheels(.55*float64(inside))
		from, lamp := point{X: x, Y: b.skinOver(x)}, onLens(inside)
		mid, along := from.Lerp(lamp, .5), lamp.Sub(from).Unit()
		_, skin := extentAt(b.polyline, mid.Y)
		bow := geom.Wheels(0)
		if out := -along.Y; out > .2 {
			bow = max(-.03, min((skin-inside-mid.X)*out, .08))
		}
		return openPath([]cubic{geom.Bowed(from, lamp, bow).Elevate()})
	case segments.Bed:
		x := b.foot.X + .045
		low, r := b.sillLine()+.03, b.RearArch()+b.shape.Cladding+.012
		if dx := x - b.Wheelbase(); abs(dx) < r {
			low = max(low, b.RearRadius()+geom.Wheels(math.Sqrt(float64(r*r)-float64(dx*dx))))
		}
		return layout.Path{}.Move(point{X: x, Y: b.skinOver(x)}).Line(point{X: x, Y: low})
	}
	return nil
}

// shoulder returns the line that runs from behind the front arch towards the rear lamp. It ends before the rear arch where it would run
// into that.
func (b *body) shoulder(rear lens) layout.Path {
	s := b.shape
	slope := (b.BeltRise() + s.ShoulderWedge).Tan()
	on := func(x geom.Wheels) point {
		return point{X: x, Y: b.Belt() - s.ShoulderDrop + geom.Wheels(slope*float64(x-b.Wheelbase()/2))}
	}
	from, to := on(b.FrontArch()+.12), on(rear.highInner.X-.03)
	from.Y = min(from.Y, b.skinOver(from.X)-.10)
	to.Y = min(to.Y, rear.highOuter.Y-.01)
	line := geom.Bowed(from, to, .02)
	const steps, clear = 200, .05
	wheel, until := point{X: b.Wheelbase(), Y: b.RearRadius()}, 1.
	for i := range steps + 1 {
		if t := float64(i) / steps; line.At(t).Sub(wheel).Len() < b.RearArch()+clear {
			until = math.Max(.2, t-1./steps)
			break
		}
	}
	return openPath([]cubic{line.Cut(0, until).Elevate()})
}

// rocker returns the line under the doors that turns the body side under, from arch to arch.
func (b *body) rocker() layout.Path {
	const under, rise, clear geom.Wheels = .06, .012, .03
	y := max(b.doorFoot()-under, b.sillLine()+.035)
	reach := func(r, centre geom.Wheels) geom.Wheels {
		r += b.shape.Cladding + clear
		return geom.Wheels(math.Sqrt(max(0, float64(r*r)-float64((y-centre)*(y-centre)))))
	}
	from := point{X: reach(b.FrontArch(), .5), Y: y}
	to := point{X: b.Wheelbase() - reach(b.RearArch(), b.RearRadius()), Y: y + rise}
	return openPath([]cubic{geom.Bowed(from, to, .004).Elevate()})
}
