package counting

import (
	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
)

// BrokenDimension draws a dimension from lo to hi at the page's height y, broken for its words; where they find no room it stays whole.
func (d *Drawing) BrokenDimension(id string, lo, hi, y geom.MM, labels ...draft.Label) {
	a, b := draft.Pt(lo, y), draft.Pt(hi, y)
	path := render.Path{}.Move(a).Line(b)
	for _, l := range labels {
		words := l.MiddleAt((lo+hi)/2, y, render.Middle).Box()
		if words.Min.X-1.5 < lo+2 || words.Max.X+1.5 > hi-2 {
			continue
		}
		d.Write("labels", l.MiddleAt((lo+hi)/2, y, render.Middle))
		path = render.Path{}.Move(a).Line(draft.Pt(words.Min.X-1.5, y)).Move(draft.Pt(words.Max.X+1.5, y)).Line(b)
		break
	}
	d.Curve(draft.TickLine().For("widths", id), path, 1)
	for _, end := range []draft.Point{a, b} {
		d.Line(draft.TickLine().For("widths", ""), end.Add(draft.Point{Y: -1.5}), end.Add(draft.Point{Y: 1.5}))
	}
}

// DimensionLabels is a figure's words for a dimension: with how it is meant and its length in the other unit, or without.
func (d *Drawing) DimensionLabels(what string, l geom.Wheels, how string) []draft.Label {
	short := []draft.Word{draft.Name(what + " "), draft.Value(d.FormatLength(l))}
	out := []draft.Label{draft.NewLabel(short), draft.OneLine(draft.Value(d.FormatLength(l)))}
	if d.Labels.Notes {
		out = append([]draft.Label{draft.NewLabel(append(short[:2:2], draft.Note("  "+d.FormatSecondary(l)+how)))}, out...)
	}
	return out
}
