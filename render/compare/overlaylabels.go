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
		words := coloured(k, draft.Name("A-pillar, "+o.names[k]+" "), draft.Value(draft.FormatAngle(p.PillarRake())))
		d.PillarCallout(draft.NewLabel(words))
	}
}

// key explains the line styles, in the corner above the vehicles.
func (o *overlayPage) key(b *draft.Surface) {
	x, y := o.canvas.Space.Min.X, o.canvas.Space.Min.Y+2
	line := func(i int, k draft.LineStyle, word draft.Word) {
		at := y + keyPitch*geom.MM(i)
		b.Line(k.For("labels", ""), draft.Pt(x, at), draft.Pt(x+keyLong, at))
		left := x + keyLong + 3
		if o.keys != nil && i < len(o.keys) {
			b.Write("labels", draft.OneLine(coloured(i, draft.Value(o.keys[i]))...).MiddleAt(left, at, render.Start))
			left += 4
		}
		word = draft.Truncated(word, o.canvas.Space.Max.X-left)
		b.Write("labels", draft.OneLine(word).MiddleAt(left, at, render.Start))
	}
	for k, name := range fullNames(o.plans) {
		line(k, variantLine(k), coloured(k, draft.Name(name))[0])
	}
	line(len(o.plans), counting.GuideLine(), draft.Note("shared by all, drawn once"))
}

// titleBlock returns the words of the title block.
func (o *overlayPage) titleBlock(wheel geom.MM) (draft.Caption, [][]draft.Fact) {
	var titles []string
	for _, p := range o.plans {
		if !slices.Contains(titles, p.Profile.Title) {
			titles = append(titles, p.Profile.Title)
		}
	}
	title := draft.Caption{Heading: strings.Join(titles, ", "), Sub: "overlay of " + strings.Join(o.names, " and ")}
	if o.keys != nil {
		title.Sub = fmt.Sprintf("overlay of %d vehicles", len(o.plans))
	}
	if o.Setting.Title != "" {
		title = draft.Caption{Heading: o.Setting.Title, Sub: title.Heading + ", " + title.Sub}
	}
	own := counting.Facts(o.plans[0], wheel, o.Setting.Units)
	second := []draft.Fact{own[0][1], own[1][0]} // scale and tyre
	if slices.ContainsFunc(o.plans, func(p layout.Plan) bool { return p.OnVehicle(1) != o.plans[0].OnVehicle(1) }) {
		second = []draft.Fact{{Name: "scale", Value: "by each wheel"}, {Name: "wheels", Value: "see the table"}}
	}
	return title, [][]draft.Fact{
		{{Name: "wheel on paper", Value: draft.FormatMM(wheel)}, {Name: draft.LengthsIn, Value: counting.UnitName(o.Setting.Units)}},
		second,
	}
}
