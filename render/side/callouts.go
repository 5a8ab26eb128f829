package side

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/segments"
)

// noseWords is how far ahead of the nose words end that look for a free place there.
const noseWords geom.MM = 9.5

// noseEntries lists arch gap and approach angle; where the leader of each starts is its x on the page.
func (d drawing) noseEntries() []counting.LadderEntry {
	if d.Labels.ValuesOnly {
		return nil
	}
	p := d.Plan
	var entries []counting.LadderEntry // From is the x on the page where the leader starts
	if d.Wants("arches") {
		l := draft.NewLabel([]draft.Word{draft.Name("arch gap").Naming(segments.ArchGap.String())}, []draft.Word{draft.Value(d.FormatLength(p.ArchGap())).For(segments.ArchGap.String())})
		entries = append(entries, counting.LadderEntry{At: 1 + p.ArchGap()/2, From: d.X(p.Nose()) - archGapAt, Label: l})
	}
	if d.Wants("checks") {
		end, _ := d.AngleEnds()
		l := draft.OneLine(draft.Name("approach "), draft.Value(draft.FormatAngle(p.Approach())))
		entries = append(entries, counting.LadderEntry{At: end.Y, From: d.X(end.X), Label: l})
	}
	return entries
}

// archGapAt is how far ahead of the nose the arch gap is measured.
const archGapAt geom.MM = 2.4

// noseLabels writes what stands on the nose side, sorted by height; each slides outwards until it is free.
func (d drawing) noseLabels() error {
	p, entries := d.Plan, d.noseEntries()
	if d.Wants("arches") {
		k, at := draft.TickLine().For("arches", ""), d.X(p.Nose())-archGapAt
		for _, y := range []geom.Wheels{1, 1 + p.ArchGap()} {
			d.Line(k, draft.Pt(d.X(0), d.Y(y)), draft.Pt(at-.8, d.Y(y)))
		}
		d.Line(k, draft.Pt(at, d.Y(1)), draft.Pt(at, d.Y(1+p.ArchGap())))
	}
	if entries == nil {
		return nil
	}
	none := counting.NoRoom("the nose's words")
	lane := d.LaneDown(d.Space.Min.Y, d.Y(0)-1, d.Apart(1))
	anchors, centres := draft.Distribute(entries, lane, func(e counting.LadderEntry) (geom.MM, geom.MM) {
		return d.Y(e.At), d.SizeOf(e.Label).Height
	})
	if centres == nil {
		return none
	}
	for i, e := range entries {
		words := d.Keyed(e.Label)
		l := words.TopAt(e.From-3, centres[i]-words.Height/2, render.End)
		for ; l.Box().Min.X < d.Space.Min.X || !d.Free(l.Box(), .9); l.X-- {
			if l.Box().Min.X < d.Space.Min.X {
				return none
			}
		}
		d.Leader(draft.Pt(e.From, anchors[i]), draft.Pt(l.X+.8, centres[i]))
		d.Write("labels", l)
	}
	return nil
}

// callout is a call-out above the figure: a post at its anchor, words beside the post's top.
type callout struct {
	x, y  geom.MM // anchor on the page
	rise  geom.MM // where the search for a free place starts, below the anchor
	label draft.Label
}

// callouts lists the call-outs, outer anchors first, so that inner ones pass over them.
func (d drawing) callouts() []callout {
	if d.Labels.ValuesOnly {
		return nil
	}
	p := d.Plan
	var out []callout
	if d.Wants("lamps") {
		rear := draft.OneLine(draft.Name("rear lamp "), draft.Value(d.FormatLength(p.RearLamp())).For(segments.RearLamp.String()))
		front := d.LabelWithNote([]draft.Word{draft.Name("front lamp "), draft.Value(d.FormatLength(p.FrontLamp())).For(segments.FrontLamp.String())},
			lampNote(p.FrontLamp()-1-p.ArchGap()))
		out = append(out,
			callout{d.X(p.Tail() - counting.RearLampLength/2), d.Y(p.RearLamp() + p.LampDepth()), -3, rear},
			callout{d.X(p.Nose() + counting.FrontLampLength*.4), d.Y(p.FrontLamp() + p.LampDepth()), -3, front})
	}
	if d.Wants("glass") {
		l := draft.OneLine(draft.Name("glass end "), draft.Note(d.glassNote()).For(segments.GlassEnd.String()))
		if d.Labels.Notes {
			l = draft.NewLabel([]draft.Word{draft.Name("side glass ends").Naming(segments.GlassEnd.String())}, []draft.Word{draft.Note(d.glassNote()).For(segments.GlassEnd.String())})
		}
		out = append(out, callout{d.X(p.GlassEnd()), d.Y(p.Height() + d.OverRoof()), 6, l})
	}
	return out
}

// lampNote describes where the front lamp starts, given its base above the arch top.
func lampNote(above geom.Wheels) string {
	switch {
	case above > .01:
		return "above the arch top"
	case above < -.01:
		return "below the arch top"
	}
	return "starts at the arch top"
}

// glassNote describes where the side glass ends, from the nearest edge of a tyre.
func (d drawing) glassNote() string {
	p := d.Plan
	end, nearest, note := p.GlassEnd(), geom.Wheels(math.Inf(1)), ""
	for _, edge := range []struct {
		at                  geom.Wheels
		ahead, over, behind string
	}{
		{-.5, "ahead of the front tyre", "over the front of the front tyre", "behind the front of the front tyre"},
		{.5, "ahead of the back of the front tyre", "over the back of the front tyre", "behind the front tyre"},
		{p.Wheelbase() - p.RearRadius(), "ahead of the rear tyre", "over the front of the rear tyre", "behind the front of the rear tyre"},
		{p.RearEdge(), "ahead of the back of the rear tyre", "over the back of the rear tyre", "behind the rear tyre"},
	} {
		behind := end - edge.at
		if max(behind, -behind) >= nearest {
			continue
		}
		switch nearest = max(behind, -behind); {
		case nearest <= .005:
			note = edge.over
		case behind > 0:
			note = d.FormatLength(behind) + " " + edge.behind
		default:
			note = d.FormatLength(-behind) + " " + edge.ahead
		}
	}
	return note
}

// pillarLabel gives the A-pillar's rake and aim.
func (d drawing) pillarLabel() draft.Label {
	p := d.Plan
	first := []draft.Word{draft.Name("A-pillar "), draft.Value(draft.FormatAngle(p.PillarRake())).For(segments.PillarRake.String())}
	aims := []draft.Word{draft.Name("aims at "), draft.Value(d.FormatLength(p.PillarAim())).For(segments.PillarAim.String())}
	if d.Labels.ValuesOnly { // two values would stand too close to be pressed
		return draft.NewLabel(first)
	}
	between := d.spacer()
	if !d.Labels.Notes {
		return draft.NewLabel(first, between, aims)
	}
	band := fmt.Sprintf("band %s to %s", d.FormatLength(geom.Wheels(p.AimRange().Lo)), d.FormatLength(geom.Wheels(p.AimRange().Hi)))
	return draft.NewLabel(first, between, append(aims, draft.Note(" on the front axle")), []draft.Word{draft.Note(band)})
}

// spacer is an empty line that sets two values apart on a screen; on paper there is none.
func (d drawing) spacer() []draft.Word {
	if !d.OnScreen {
		return nil
	}
	return []draft.Word{{Text: " ", Height: 1.25, Weight: render.Regular, Role: draft.Words}}
}

// placeCallouts sets every call-out at the free place nearest to its anchor: upwards in half millimetres, on both sides of its post.
func (d drawing) placeCallouts() error {
	for _, f := range d.callouts() {
		if !d.fitted(f.label, func(l draft.Label) bool { f.label = l; return d.placeCallout(f) }) {
			return counting.NoRoom("the call-outs")
		}
	}
	if d.Wants("pillar") && !d.fitted(d.pillarLabel(), func(l draft.Label) bool { return d.PillarCallout(l, counting.PillarReach) }) {
		return counting.NoRoom("the A-pillar's words")
	}
	return nil
}

// fitted places l, or what is left of it without notes in a loose layout, which can do without it. It reports whether the layout holds.
func (d drawing) fitted(l draft.Label, place func(draft.Label) bool) bool {
	l = d.Keyed(l)
	if place(l) {
		return true
	}
	if d.Labels.Loose {
		place(l.Short())
	}
	return d.Labels.Loose
}

func (d drawing) placeCallout(f callout) bool {
	for y := f.y + f.rise; y-f.label.Height > d.Space.Min.Y; y -= .5 {
		top := y - f.label.Height
		if d.beside(f.label.TopAt(f.x, top, render.Start), 1.3, d.Apart(.9), draft.Segment{A: draft.Pt(f.x, f.y), B: draft.Pt(f.x, top+.4)}) {
			return true
		}
	}
	return false
}

// beside places l some way to the right of its post, or else as far to the left, and reports whether there was room.
func (d drawing) beside(l draft.PlacedLabel, away, gap geom.MM, post draft.Segment) bool {
	x := l.X
	l.X = x + away
	if d.PlaceLabel(l, gap, post.A, post.B) {
		return true
	}
	l.X, l.Anchor = x-away, render.End
	return d.PlaceLabel(l, gap, post.A, post.B)
}

// calloutRow writes all call-outs in one row above the figure, posts straight up: there is always room for that row.
func (d drawing) calloutRow() error {
	callouts := d.callouts()
	if d.Wants("pillar") {
		head := d.OnPage(d.Plan.PillarHead())
		callouts = append(callouts, callout{x: head.X, y: head.Y, label: d.pillarLabel()})
	}
	lane := d.LaneAcross(d.Space.Min.X, d.Space.Max.X, 3)
	_, centres := draft.Distribute(callouts, lane, func(f callout) (geom.MM, geom.MM) { return f.x, f.label.Width })
	if centres == nil {
		return counting.NoRoom("the row of call-outs")
	}
	bend := d.Y(d.GuideTop())
	foot := bend - 4
	for i, f := range callouts {
		post := draft.Segment{A: draft.Pt(f.x, f.y), B: draft.Pt(f.x, bend)}
		slant := draft.Segment{A: post.B, B: draft.Pt(centres[i], foot+.6)}
		if foot-f.label.Height < d.Space.Min.Y || !d.ClearsLabels(post) || !d.ClearsLabels(slant) {
			return counting.NoRoom("the row of call-outs")
		}
		d.Leader(post.A, post.B, slant.B)
		d.Write("labels", f.label.TopAt(centres[i], foot-f.label.Height, render.Middle))
	}
	return nil
}

// clearanceLabel hangs the clearance from a post in the cusp between two counted wheels; bottom is where the title block begins.
func (d drawing) clearanceLabel(bottom geom.MM) {
	l := draft.OneLine(draft.Name("clearance "), draft.Value(d.FormatLength(d.Plan.Clearance())).For(segments.Clearance.String()))
	if d.Wants("checks") {
		l = draft.NewLabel(l.Lines[0], []draft.Word{draft.Name("breakover "), draft.Value(draft.FormatAngle(d.Plan.Breakover()))})
	}
	for _, x := range []geom.MM{d.X(1.5), d.X(2.5), d.X(geom.Wheels(.5 + float64(counting.WholeWheels(d.Plan.WheelsBetween()))))} {
		for top := d.Y(0) + 1.2; top+l.Height < bottom; top += .5 {
			post := draft.Segment{A: draft.Pt(x, d.Y(d.Plan.Clearance())), B: draft.Pt(x, top+l.Height-.4)}
			if d.beside(l.TopAt(x, top, render.Start), 1.2, .8, post) {
				return
			}
		}
	}
}
