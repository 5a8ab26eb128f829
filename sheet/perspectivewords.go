package sheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render"
)

// levels draws a rule in tenths on the outer upright of the box, and beside it where roof, belt, axle and sill lie.
func (d *perspective) levels(written bool) {
	foot, head, side := d.outer()
	at := func(y geom.Wheels) point {
		return d.at(foot.Lerp(head, float64(y/(head.Y-foot.Y))))
	}
	for i := 0; geom.Wheels(i)/10 <= head.Y+1e-9; i++ {
		p := at(geom.Wheels(i) / 10)
		d.hairline("heights", "", tickLine(), p, p.Add(point{X: tickLength(i) * side}))
	}
	if !written {
		return
	}
	d.levelWords(at, side)
	for k := 1; geom.Wheels(k) < head.Y; k++ {
		d.wholeNumber(k, at(geom.Wheels(k)), side)
	}
}

// level is a height beside the rule.
type level struct {
	name string
	y    geom.Wheels
}

// levelWords writes the levels in height order, those over the horizon over it and those under it under it.
func (d *perspective) levelWords(at func(geom.Wheels) point, side geom.MM) {
	const apart, clear geom.MM = 2, 1
	all := []level{{"roof", d.plan.Height()}, {"belt", d.plan.Belt()}, {"axle", .5}, {"sill", d.plan.Sill()}}
	slices.SortStableFunc(all, func(a, b level) int { return cmp.Compare(b.y, a.y) })
	if !d.hasHorizon() {
		d.levelLane(all, at, side, d.space.Min.Y, d.space.Max.Y)
		return
	}
	h := d.horizonAt()
	// A level in the eye's own height is a line with the horizon: it gives way.
	all = slices.DeleteFunc(all, func(l level) bool { return math.Abs(float64(at(l.y).Y-h)) < float64(apart) })
	over := 0
	for over < len(all) && at(all[over].y).Y < h {
		over++
	}
	d.levelLane(all[:over], at, side, d.space.Min.Y, h-clear)
	d.levelLane(all[over:], at, side, h+clear, d.space.Max.Y)
}

// levelLane writes levels between two heights of the page, each with a leader from the rule; where they find no room none is written.
func (d *perspective) levelLane(all []level, at func(geom.Wheels) point, side, lo, hi geom.MM) {
	var labels []label
	var anchors, sizes []geom.MM
	for _, l := range all {
		w := newLabel([]word{name(l.name + " "), value(shotLength(d, l.y))})
		labels, anchors, sizes = append(labels, w), append(anchors, at(l.y).Y), append(sizes, w.height)
	}
	anchor := render.Start
	if side < 0 {
		anchor = render.End
	}
	for i, y := range pushApart(anchors, sizes, .8, lo, hi) {
		p := at(all[i].y)
		end := point{X: p.X + 8*side, Y: y}
		d.leader(p.Add(point{X: 3.8 * side}), point{X: p.X + 5.2*side, Y: p.Y}, point{X: p.X + 6.6*side, Y: end.Y}, point{X: p.X + 7.4*side, Y: end.Y})
		d.write("labels", labels[i], end.X, end.Y-labels[i].lift(), anchor)
	}
}

// wholeNumber writes a count of wheels beside the rule's tick at p, on the outer side or the inner one, where it is free.
func (d *perspective) wholeNumber(k int, p point, side geom.MM) {
	l := newLabel([]word{count(fmt.Sprint(k))})
	outer, inner := render.Start, render.End
	if side < 0 {
		outer, inner = inner, outer
	}
	for _, place := range []struct {
		x      geom.MM
		anchor render.Anchor
	}{{p.X + (wholeTick+.6)*side, outer}, {p.X - side, inner}} {
		if y := p.Y - l.lift(); d.free(l.box(place.x, y, place.anchor), .3) {
			d.write("labels", l, place.x, y, place.anchor)
			return
		}
	}
}

// shotLength prints a length in the sheet's unit.
func shotLength(d *perspective, w geom.Wheels) string {
	return (&drawing{plan: d.plan, units: d.units}).length(w)
}

// numerals counts the wheels between the tyres, each in the free place nearest to the middle of its ellipse.
func (d *perspective) numerals() {
	for k, e := range d.countedWheels() {
		for _, height := range []geom.MM{medium, small} {
			l := newLabel([]word{{text: fmt.Sprint(k + 1), height: height, weight: render.Medium, role: words}})
			if d.inEllipse(e, l) {
				break
			}
		}
	}
}

// inEllipse writes l in the free place nearest to the middle of e's upper half.
func (d *perspective) inEllipse(e geom.Ellipse[geom.MM], l label) bool {
	best, found := math.Inf(1), point{}
	wanted := e.Centre.Sub(point{Y: e.Half.Y * .3})
	for dx := -e.Half.X * .7; dx <= e.Half.X*.7; dx += e.Half.X * .1 {
		for dy := -e.Half.Y * .7; dy <= e.Half.Y*.7; dy += e.Half.Y * .1 {
			c := e.Centre.Add(point{X: dx, Y: dy})
			at := point{X: c.X, Y: c.Y - l.height/2}
			if far := float64(c.Sub(wanted).Len()); far < best && d.free(l.box(at.X, at.Y, render.Middle), .5) {
				best, found = far, at
			}
		}
	}
	if math.IsInf(best, 1) {
		return false
	}
	d.write("labels", l, found.X, found.Y, render.Middle)
	return true
}

// wheelWords says under each near wheel how round its ellipse is: templates carry that number.
func (d *perspective) wheelWords() {
	for _, w := range d.wheels[:2] {
		l := newLabel([]word{note("ellipse "), value(fixed(float64(w.Outer.Degrees()), 0) + "°")})
		e := d.shape(w.Outer)
		for y := e.Centre.Y + e.Half.Y + 2; y < d.space.Max.Y-l.height; y++ {
			if d.free(l.box(e.Centre.X, y, render.Middle), .6) {
				d.write("labels", l, e.Centre.X, y, render.Middle)
				break
			}
		}
	}
}

// vanishing says at the margins of the horizon how far beyond them parallel lines meet; of a horizon that is off the page, also how far.
func (d *perspective) vanishing() {
	for _, v := range []struct {
		words     string
		direction view.Point3
	}{{"lines across", view.Point3{Z: 1}}, {"lengthways", view.Point3{X: 1}}} {
		spot, ok := d.camera.Vanishing(v.direction)
		if !ok {
			continue
		}
		at := d.onPage(spot)
		switch {
		case at.X < d.space.Min.X:
			d.beyond(v.words, at, d.space.Min.X)
		case at.X > d.space.Max.X:
			d.beyond(v.words, at, d.space.Max.X)
		case d.hasHorizon():
			d.circle("vanishing", "", ringLine(), ring{at, .9})
		}
	}
}

// beyond says at a margin how far beyond it lines meet, over or under the horizon, the nearer the better.
func (d *perspective) beyond(what string, at point, margin geom.MM) {
	side, anchor := geom.MM(-1), render.Start
	if at.X > margin {
		side, anchor = 1, render.End
	}
	far := func(l geom.MM) word { return value(fmt.Sprintf("%.0f mm", math.Abs(float64(l))*d.grow)) }
	lines := [][]word{{note(what)}, {far(at.X - margin)}, {note("beyond")}}
	tip := point{X: margin, Y: min(max(at.Y, d.space.Min.Y), d.space.Max.Y)}
	switch {
	case d.hasHorizon():
		for _, up := range []geom.MM{1, -1} {
			d.hairline("vanishing", "", rimLine(), tip, tip.Sub(point{X: 2.2 * side, Y: .8 * up}))
		}
	case at.Y < d.space.Min.Y:
		lines[2] = []word{note("beyond, "), far(tip.Y - at.Y), note(" above")}
	default:
		lines[2] = []word{note("beyond, "), far(at.Y - tip.Y), note(" below")}
	}
	l := newLabel(lines...)
	for off := geom.MM(1.2); off < 16; off++ {
		for _, y := range []geom.MM{tip.Y + off, tip.Y - l.height - off} {
			b := l.box(margin, y, anchor)
			if b.Min.Y >= d.space.Min.Y && b.Max.Y <= d.space.Max.Y && d.free(b, .4) {
				d.write("labels", l, margin, y, anchor)
				return
			}
		}
	}
}
