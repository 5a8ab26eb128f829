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
	"hubrule/segments"
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
	for k := 1; geom.Wheels(k) < head.Y; k++ { // outside the tick if that is free, else inside
		p, outer, inner := at(geom.Wheels(k)), render.Start, render.End
		if side < 0 {
			outer, inner = inner, outer
		}
		l := draft.NewLabel([]draft.Word{draft.Count(fmt.Sprint(k))})
		d.writeFirst(.3, l.MiddleAt(p.X+(counting.WholeTick+.6)*side, p.Y, outer), l.MiddleAt(p.X-side, p.Y, inner))
	}
}

// writeFirst writes the first of some labels that keeps clear of everything drawn by a gap; false if none does.
func (d *drawing) writeFirst(gap geom.MM, labels ...draft.PlacedLabel) bool {
	i := slices.IndexFunc(labels, func(l draft.PlacedLabel) bool { return d.Free(l.Box(), gap) })
	if i >= 0 {
		d.Write("labels", labels[i])
	}
	return i >= 0
}

// level is a height beside the rule: its label, and where it meets the rule.
type level struct {
	draft.Label
	at draft.Point
}

// levelLabels labels the levels from the top down, those above the horizon above it and those below below.
func (d *drawing) levelLabels(at func(geom.Wheels) draft.Point, side geom.MM) {
	const apart, clear geom.MM = 2, 1
	var above, below []level
	bottom, horizon := d.Space.Max.Y, d.Space.Max.Y
	h, split := d.horizonAt()
	if split {
		bottom, horizon = h-clear, h
	}
	for _, l := range []struct {
		name, key string
		y         geom.Wheels
	}{{"roof", segments.Height.String(), d.plan.Height()}, {"belt", segments.Belt.String(), d.plan.Belt()}, {"axle", "", .5},
		{"sill", segments.Sill.String(), d.plan.Sill()}} {
		label := draft.NewLabel([]draft.Word{draft.Name(l.name + " "), draft.Value(d.formatLength(l.y)).For(l.key)})
		switch p := at(l.y); {
		case split && math.Abs(float64(p.Y-horizon)) < float64(apart): // it coincides with the horizon
		case split && p.Y >= horizon:
			below = append(below, level{label, p})
		default:
			above = append(above, level{label, p})
		}
	}
	d.levelLane(above, side, d.Space.Min.Y, bottom)
	d.levelLane(below, side, horizon+clear, d.Space.Max.Y)
}

// levelLane labels levels between two heights of the page, each with a leader from the rule; without room it labels none.
func (d *drawing) levelLane(levels []level, side, lo, hi geom.MM) {
	anchor := render.Start
	if side < 0 {
		anchor = render.End
	}
	measure := func(l level) (anchor, size geom.MM) { return l.at.Y, l.Height }
	_, centres := draft.Distribute(levels, draft.Lane{Lo: lo, Hi: hi, Gap: .8}, measure)
	for i, y := range centres {
		p := levels[i].at
		d.Leader(p.Add(draft.Pt(3.8*side, 0)), draft.Pt(p.X+5.2*side, p.Y), draft.Pt(p.X+6.6*side, y), draft.Pt(p.X+7.4*side, y))
		d.Write("labels", levels[i].MiddleAt(p.X+8*side, y, anchor))
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

// countIn writes l at the free point nearest to the middle of e's upper half; false if there is none.
func (d *drawing) countIn(e geom.Ellipse[geom.MM], l draft.Label) bool {
	var centres []draft.Point
	for dx := -e.Half.X * .7; dx <= e.Half.X*.7; dx += e.Half.X * .1 {
		for dy := -e.Half.Y * .7; dy <= e.Half.Y*.7; dy += e.Half.Y * .1 {
			centres = append(centres, e.Centre.Add(draft.Pt(dx, dy)))
		}
	}
	wanted := e.Centre.Sub(draft.Pt(0, e.Half.Y*.3))
	slices.SortStableFunc(centres, func(a, b draft.Point) int { return cmp.Compare(a.Sub(wanted).Len(), b.Sub(wanted).Len()) })
	return slices.ContainsFunc(centres, func(c draft.Point) bool { return d.writeFirst(.5, l.TopAt(c.X, c.Y-l.Height/2, render.Middle)) })
}

// ellipseLabels writes the degrees of each near wheel's ellipse under it, as on ellipse templates.
func (d *drawing) ellipseLabels() {
	for _, w := range d.wheels[:2] {
		l := draft.NewLabel([]draft.Word{draft.Note("ellipse "), draft.Value(draft.FormatFixed(float64(w.Outer.Degrees()), 0) + "°")})
		e := d.ellipse(w.Outer)
		y := e.Centre.Y + e.Half.Y + 2
		for y < d.Space.Max.Y-l.Height && !d.writeFirst(.6, l.TopAt(e.Centre.X, y, render.Middle)) {
			y++
		}
	}
}

// vanishing labels at the margins how far beyond them parallel lines meet, and where the horizon is off the page, how far above or below.
func (d *drawing) vanishing() {
	for _, v := range []struct {
		words     string
		direction view.Point3
	}{{"lines across", view.Point3{Z: 1}}, {"lengthways", view.Point3{X: 1}}} {
		image, ok := d.camera.Vanishing(v.direction)
		if !ok {
			continue
		}
		at := d.toPage(image)
		if _, onPage := d.horizonAt(); at.X < d.Space.Min.X || at.X > d.Space.Max.X {
			d.vanishingLabel(v.words, at, min(max(at.X, d.Space.Min.X), d.Space.Max.X))
		} else if onPage {
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
	far := func(l geom.MM, word string) []draft.Word {
		if d.onScreen {
			return []draft.Word{draft.Note(word)}
		}
		return []draft.Word{draft.Value(fmt.Sprintf("%.0f mm", math.Abs(float64(l))*d.grow)), draft.Note(" " + word)}
	}
	lines := [][]draft.Word{{draft.Note(what + ":")}, {draft.Note("vanishing point")}, far(at.X-margin, "past"),
		{draft.Note("this margin")}}
	tip := draft.Pt(margin, min(max(at.Y, d.Space.Min.Y), d.Space.Max.Y))
	if _, onPage := d.horizonAt(); onPage {
		for _, up := range []geom.MM{1, -1} {
			d.Stroke(counting.RimLine().For("vanishing", ""), tip, tip.Sub(draft.Pt(2.2*side, .8*up)))
		}
	} else if at.Y < d.Space.Min.Y {
		lines[3] = append([]draft.Word{draft.Note("this margin, ")}, far(tip.Y-at.Y, "above")...)
	} else {
		lines[3] = append([]draft.Word{draft.Note("this margin, ")}, far(at.Y-tip.Y, "below")...)
	}
	if d.onScreen {
		lines = append(lines[:2], slices.Concat(lines[2], []draft.Word{draft.Note(" ")}, lines[3]))
	}
	var places []draft.PlacedLabel
	l := draft.NewLabel(lines...)
	for off := geom.MM(1.2); off < 16; off++ {
		places = append(places, l.TopAt(margin, tip.Y+off, anchor), l.TopAt(margin, tip.Y-l.Height-off, anchor))
	}
	places = slices.DeleteFunc(places, func(l draft.PlacedLabel) bool {
		return l.Top < d.Space.Min.Y || l.Box().Max.Y > d.Space.Max.Y
	})
	_ = d.writeFirst(1.6, places...) || d.writeFirst(.4, places...)
}
