package sheet

import (
	"fmt"
	"math"
	"slices"

	"hubrule/geom"
	"hubrule/layout/view"
	"hubrule/render"
)

// levels draws a rule in tenths on the outer upright of the box, and beside it where roof, belt, axle and sill lie.
func (d *perspective) levels(written bool) {
	foot, head, side := d.outer()
	at := func(y geom.Wheels) point {
		return d.at(foot.Mix(head, float64(y/(head.Y-foot.Y))))
	}
	for i := 0; geom.Wheels(i)/10 <= head.Y+1e-9; i++ {
		long := geom.MM(1.2)
		switch {
		case i%10 == 0:
			long = 3.2
		case i%5 == 0:
			long = 2.2
		}
		p := at(geom.Wheels(i) / 10)
		d.hairline("heights", "", tickLine(), p, p.Add(point{X: long * side}))
	}
	if !written {
		return
	}
	type level struct {
		name string
		y    geom.Wheels
	}
	all := []level{{"roof", d.plan.Height}, {"belt", d.plan.Belt}, {"axle", .5}, {"sill", d.plan.Sill}}
	// A level in the eye's own height is a line with the horizon: it gives way.
	const apart geom.MM = 2
	if d.hasHorizon() {
		all = slices.DeleteFunc(all, func(l level) bool { return math.Abs(float64(at(l.y).Y-d.horizonAt())) < float64(apart) })
	}
	var labels []label
	var anchors, sizes []geom.MM
	for _, l := range all {
		w := newLabel([]word{name(l.name + " "), value(shotLength(d, l.y))})
		labels, anchors, sizes = append(labels, w), append(anchors, at(l.y).Y), append(sizes, w.height)
	}
	centres := pushApart(anchors, sizes, .8, d.space.Min.Y, d.space.Max.Y)
	anchor := render.Start
	if side < 0 {
		anchor = render.End
	}
	for i, l := range all {
		p := at(l.y)
		end := point{X: p.X + 8*side, Y: centres[i]}
		d.leader(p.Add(point{X: 3.8 * side}), point{X: p.X + 5.2*side, Y: p.Y}, point{X: p.X + 6.6*side, Y: end.Y}, point{X: p.X + 7.4*side, Y: end.Y})
		d.write("labels", labels[i], end.X, end.Y-labels[i].lift(), anchor)
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

// vanishing says at the margins of the horizon how far beyond them parallel lines meet.
func (d *perspective) vanishing() {
	if !d.hasHorizon() {
		return
	}
	for _, v := range []struct {
		words     string
		direction view.Point3
	}{{"lines across", view.Point3{Z: 1}}, {"lengthways", view.Point3{X: 1}}} {
		spot, ok := d.camera.Vanishing(v.direction)
		if !ok {
			continue
		}
		x := d.onPage(spot).X
		if x > d.space.Min.X && x < d.space.Max.X {
			c := point{X: x, Y: d.horizonAt()}
			d.circle("vanishing", "", ringLine(), ring{c, .9})
			continue
		}
		edge, side, anchor := d.space.Min.X, geom.MM(-1), render.Start
		beyond := edge - x
		if x > d.space.Max.X {
			edge, side, anchor = d.space.Max.X, 1, render.End
			beyond = x - edge
		}
		l := newLabel([]word{note(v.words)}, []word{value(fmt.Sprintf("%.0f mm", float64(beyond)*d.grow))}, []word{note("beyond")})
		tip := point{X: edge, Y: d.horizonAt()}
		for _, up := range []geom.MM{1, -1} {
			d.hairline("vanishing", "", rimLine(), tip, tip.Sub(point{X: 2.2 * side, Y: .8 * up}))
		}
		for off := geom.MM(1.2); off < 16; off++ { // over or under the horizon, the nearer the better
			if y := tip.Y + off; d.free(l.box(edge, y, anchor), .4) {
				d.write("labels", l, edge, y, anchor)
				break
			}
			if y := tip.Y - l.height - off; d.free(l.box(edge, y, anchor), .4) {
				d.write("labels", l, edge, y, anchor)
				break
			}
		}
	}
}
