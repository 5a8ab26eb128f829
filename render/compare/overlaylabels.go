package compare

import (
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/segments"
)

// coloured returns words in the colour of plan k: the accent for all but the base.
func coloured(k int, ws ...draft.Word) []draft.Word {
	for i := range ws {
		if k > 0 {
			ws[i].Role = draft.Accent
		}
	}
	return ws
}

// levelLabels lists the levels of all plans; a shared one is named once.
func (o *overlayPage) levelLabels(all *counting.Drawing) []counting.LadderEntry {
	var out []counting.LadderEntry
	for _, l := range counting.Levels() {
		if l.Underneath || !all.Wants(l.Guide) {
			continue
		}
		plans, name := o.plans, string(l.Guide)
		if !slices.ContainsFunc(plans, func(p layout.Plan) bool {
			off := all.MM(l.Height(p) - l.Height(plans[0]))
			return max(off, -off) >= mergeWithin
		}) {
			plans = plans[:1]
		}
		for k, p := range plans {
			if len(plans) > 1 {
				name = string(l.Guide) + ", " + o.names[k]
			}
			value := draft.Value(o.drawing(p, all.Place).FormatLength(l.Height(p)))
			label := draft.NewLabel(coloured(k, draft.Name(name+" "), value))
			out = append(out, counting.LadderEntry{At: l.Height(p), From: .3, Label: label})
		}
	}
	return out
}

// pillars labels the rake of every A-pillar where there is room; the table has it in any case.
func (o *overlayPage) pillars(all *counting.Drawing) {
	if !all.Wants("pillar") {
		return
	}
	written := map[string]bool{}
	for k, p := range o.plans {
		at := fmt.Sprintf("%.3f %.3f", p.PillarFoot(), p.PillarHead())
		if written[at] {
			continue
		}
		written[at] = true
		d := o.drawing(p, all.Place)
		d.Surface = all.Surface
		d.PillarCallout(draft.NewLabel(coloured(k, draft.Name("A-pillar, "+o.names[k]+" "), draft.Value(draft.FormatAngle(p.PillarRake())))))
	}
}

// key explains the line styles, in the corner above the vehicles.
func (o *overlayPage) key(b *draft.Surface) {
	x, y := o.canvas.Space.Min.X, o.canvas.Space.Min.Y+2
	line := func(i int, k draft.LineStyle, ws []draft.Word) {
		l := draft.NewLabel([]draft.Word{draft.Truncated(ws[0], o.canvas.Space.Width()-keyLong-3)})
		at := y + keyPitch*geom.MM(i)
		b.Line(k.For("labels", ""), draft.Pt(x, at), draft.Pt(x+keyLong, at))
		b.Write("labels", l.MiddleAt(x+keyLong+3, at, render.Start))
	}
	full := shortNames(o.plans, o.canvas.Space.Width())
	for k := range o.plans {
		pen := draft.LineStyle{Width: draft.Narrow, Dash: []float64{4, 2}, Role: draft.Plain}
		if k > 0 {
			pen = variantLine(k)
		}
		line(k, pen, coloured(k, draft.Name(full[k])))
	}
	line(len(o.plans), counting.GuideLine(), []draft.Word{draft.Note("shared by all, drawn once")})
}

// titleStrip returns the words of the title strip.
func (o *overlayPage) titleStrip(wheel geom.MM) (heading, sub string, columns [][]draft.Fact) {
	heading = o.plans[0].Profile.Title
	for i, p := range o.plans {
		if !slices.ContainsFunc(o.plans[:i], func(q layout.Plan) bool { return q.Profile.Title == p.Profile.Title }) && i > 0 {
			heading += ", " + p.Profile.Title
		}
	}
	sub = "overlay of " + strings.Join(shortNames(o.plans, o.canvas.Space.Width()), " and ")
	if o.Setting.Title != "" {
		heading, sub = o.Setting.Title, heading+", "+sub
	}
	first := []draft.Fact{
		{Name: "wheel on paper", Value: draft.FormatMM(wheel)}, {Name: draft.LengthsIn, Value: counting.UnitName(o.Setting.Units)},
	}
	for _, p := range o.plans {
		if p.OnVehicle(1) != o.plans[0].OnVehicle(1) {
			// Tyre and scale differ between the vehicles.
			return heading, sub, [][]draft.Fact{first, {{Name: "scale", Value: "by each wheel"}, {Name: "wheels", Value: "see the table"}}}
		}
	}
	own := counting.Facts(o.plans[0], wheel, o.Setting.Units)
	return heading, sub, [][]draft.Fact{first, {own[0][1], own[1][0]}}
}

// notInSideView reports figures that a side view does not show, and those without a number.
func notInSideView(f segments.Figure) bool {
	return f == segments.Width || f == segments.Track || f == segments.Tumblehome || f.Info().Unit == segments.AsWord
}
