package perspective

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
)

// levels draws a rule in tenths on the level edge and, if labelled, roof, belt, axle and sill beside it.
func (d *drawing) levels(labelled bool) {
	foot, head, side := d.levelEdge()
	at := func(y geom.Wheels) draft.Point {
		return d.at(foot.Lerp(head, float64(y/(head.Y-foot.Y))))
	}
	for i := 0; geom.Wheels(i)/10 <= head.Y+1e-9; i++ {
		p := at(geom.Wheels(i) / 10)
		d.Stroke(draft.TickLine().For("heights", ""), p, p.Add(draft.Pt(counting.TickLength(i)*side, 0)))
	}
	if !labelled {
		return
	}
	d.levelLabels(at, side)
	for k := 1; geom.Wheels(k) < head.Y; k++ {
		d.wholeNumber(k, at(geom.Wheels(k)), side)
	}
}

// level is a height beside the rule.
type level struct {
	name string
	y    geom.Wheels
}

// levelLabels labels the levels from the top down, those above the horizon above it and those below below.
func (d *drawing) levelLabels(at func(geom.Wheels) draft.Point, side geom.MM) {
	const apart, clear geom.MM = 2, 1
	all := []level{{"roof", d.plan.Height()}, {"belt", d.plan.Belt()}, {"axle", .5}, {"sill", d.plan.Sill()}}
	slices.SortStableFunc(all, func(a, b level) int { return cmp.Compare(b.y, a.y) })
	if !d.hasHorizon() {
		d.levelLane(all, at, side, d.Space.Min.Y, d.Space.Max.Y)
		return
	}
	h := d.horizonAt()
	// A level at eye height coincides with the horizon: it is left out.
	all = slices.DeleteFunc(all, func(l level) bool { return math.Abs(float64(at(l.y).Y-h)) < float64(apart) })
	over := 0
	for over < len(all) && at(all[over].y).Y < h {
		over++
	}
	d.levelLane(all[:over], at, side, d.Space.Min.Y, h-clear)
	d.levelLane(all[over:], at, side, h+clear, d.Space.Max.Y)
}

// levelLane labels levels between two heights of the page, each with a leader from the rule; without room it labels none.
func (d *drawing) levelLane(all []level, at func(geom.Wheels) draft.Point, side, lo, hi geom.MM) {
	var labels []draft.Label
	var anchors, sizes []geom.MM
	for _, l := range all {
		w := draft.NewLabel([]draft.Word{draft.Name(l.name + " "), draft.Value(d.formatLength(l.y))})
		labels, anchors, sizes = append(labels, w), append(anchors, at(l.y).Y), append(sizes, w.Height)
	}
	anchor := render.Start
	if side < 0 {
		anchor = render.End
	}
	for i, y := range (draft.Lane{Lo: lo, Hi: hi, Gap: .8}).Centres(anchors, sizes) {
		p := at(all[i].y)
		end := draft.Pt(p.X+8*side, y)
		d.Leader(p.Add(draft.Pt(3.8*side, 0)), draft.Pt(p.X+5.2*side, p.Y),
			draft.Pt(p.X+6.6*side, end.Y), draft.Pt(p.X+7.4*side, end.Y))
		d.Write("labels", labels[i].MiddleAt(end.X, end.Y, anchor))
	}
}

// wholeNumber writes a count of wheels beside the tick at p, outside if that is free, else inside.
func (d *drawing) wholeNumber(k int, p draft.Point, side geom.MM) {
	l := draft.NewLabel([]draft.Word{draft.Count(fmt.Sprint(k))})
	outer, inner := render.Start, render.End
	if side < 0 {
		outer, inner = inner, outer
	}
	for _, place := range []struct {
		x      geom.MM
		anchor render.Anchor
	}{{p.X + (counting.WholeTick+.6)*side, outer}, {p.X - side, inner}} {
		if y := p.Y - l.CapMiddle(); d.Free(l.TopAt(place.x, y, place.anchor).Box(), .3) {
			d.Write("labels", l.TopAt(place.x, y, place.anchor))
			return
		}
	}
}

// formatLength prints a length in the sheet's unit.
func (d *drawing) formatLength(w geom.Wheels) string {
	return (&counting.Drawing{Plan: d.plan, Units: d.units}).FormatLength(w)
}

// counts numbers the counted wheels.
func (d *drawing) counts() {
	for k, e := range d.countedWheels() {
		for _, height := range []geom.MM{draft.Medium, draft.Small} {
			l := draft.NewLabel([]draft.Word{{Text: fmt.Sprint(k + 1), Height: height, Weight: render.Medium, Role: draft.Words}})
			if d.countIn(e, l) {
				break
			}
		}
	}
}

// countIn writes l in the free place nearest to the middle of e's upper half; false if there is none.
func (d *drawing) countIn(e geom.Ellipse[geom.MM], l draft.Label) bool {
	best, found := math.Inf(1), draft.Point{}
	wanted := e.Centre.Sub(draft.Pt(0, e.Half.Y*.3))
	for dx := -e.Half.X * .7; dx <= e.Half.X*.7; dx += e.Half.X * .1 {
		for dy := -e.Half.Y * .7; dy <= e.Half.Y*.7; dy += e.Half.Y * .1 {
			c := e.Centre.Add(draft.Pt(dx, dy))
			at := draft.Pt(c.X, c.Y-l.Height/2)
			if far := float64(c.Sub(wanted).Len()); far < best && d.Free(l.TopAt(at.X, at.Y, render.Middle).Box(), .5) {
				best, found = far, at
			}
		}
	}
	if math.IsInf(best, 1) {
		return false
	}
	d.Write("labels", l.TopAt(found.X, found.Y, render.Middle))
	return true
}

// ellipseLabels writes the degrees of each near wheel's ellipse under it, as on ellipse templates.
func (d *drawing) ellipseLabels() {
	for _, w := range d.wheels[:2] {
		l := draft.NewLabel([]draft.Word{draft.Note("ellipse "), draft.Value(draft.Fixed(float64(w.Outer.Degrees()), 0) + "°")})
		e := d.ellipse(w.Outer)
		for y := e.Centre.Y + e.Half.Y + 2; y < d.Space.Max.Y-l.Height; y++ {
			if d.Free(l.TopAt(e.Centre.X, y, render.Middle).Box(), .6) {
				d.Write("labels", l.TopAt(e.Centre.X, y, render.Middle))
				break
			}
		}
	}
}

// vanishing labels at the margins how far beyond them parallel lines meet, and where the horizon is off the page, how far above or below.
func (d *drawing) vanishing() {
	for _, v := range []struct {
		words     string
		direction view.Point3
	}{{"lines across", view.Point3{Z: 1}}, {"lengthways", view.Point3{X: 1}}} {
		spot, ok := d.camera.Vanishing(v.direction)
		if !ok {
			continue
		}
		at := d.toPage(spot)
		switch {
		case at.X < d.Space.Min.X:
			d.vanishingLabel(v.words, at, d.Space.Min.X)
		case at.X > d.Space.Max.X:
			d.vanishingLabel(v.words, at, d.Space.Max.X)
		case d.hasHorizon():
			d.Circle(counting.RingLine().For("vanishing", ""), draft.Circle{Centre: at, R: .9})
		}
	}
}

// vanishingLabel labels at a margin how far beyond it a vanishing point lies, as near to the horizon as there is room.
func (d *drawing) vanishingLabel(what string, at draft.Point, margin geom.MM) {
	side, anchor := geom.MM(-1), render.Start
	if at.X > margin {
		side, anchor = 1, render.End
	}
	far := func(l geom.MM) draft.Word { return draft.Value(fmt.Sprintf("%.0f mm", math.Abs(float64(l))*d.grow)) }
	lines := [][]draft.Word{{draft.Note(what)}, {far(at.X - margin)}, {draft.Note("beyond")}}
	tip := draft.Pt(margin, min(max(at.Y, d.Space.Min.Y), d.Space.Max.Y))
	switch {
	case d.hasHorizon():
		for _, up := range []geom.MM{1, -1} {
			d.Stroke(counting.RimLine().For("vanishing", ""), tip, tip.Sub(draft.Pt(2.2*side, .8*up)))
		}
	case at.Y < d.Space.Min.Y:
		lines[2] = []draft.Word{draft.Note("beyond, "), far(tip.Y - at.Y), draft.Note(" above")}
	default:
		lines[2] = []draft.Word{draft.Note("beyond, "), far(at.Y - tip.Y), draft.Note(" below")}
	}
	l := draft.NewLabel(lines...)
	for off := geom.MM(1.2); off < 16; off++ {
		for _, y := range []geom.MM{tip.Y + off, tip.Y - l.Height - off} {
			b := l.TopAt(margin, y, anchor).Box()
			if b.Min.Y >= d.Space.Min.Y && b.Max.Y <= d.Space.Max.Y && d.Free(b, .4) {
				d.Write("labels", l.TopAt(margin, y, anchor))
				return
			}
		}
	}
}
