package counting

import (
	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
)

// Broken draws a dimension from lo to hi at the page's height y, broken for its words; where they find no room it stays whole.
func (d *Drawing) Broken(id string, lo, hi, y geom.MM, labels ...draft.Label) {
	a, b := draft.Point{X: lo, Y: y}, draft.Point{X: hi, Y: y}
	path := render.Path{}.Move(a).Line(b)
	for _, l := range labels {
		words := l.Box((lo+hi)/2, y-l.Lift(), render.Middle)
		if words.Min.X-1.5 < lo+2 || words.Max.X+1.5 > hi-2 {
			continue
		}
		d.Write("labels", l, (lo+hi)/2, y-l.Lift(), render.Middle)
		path = render.Path{}.Move(a).Line(draft.Point{X: words.Min.X - 1.5, Y: y}).Move(draft.Point{X: words.Max.X + 1.5, Y: y}).Line(b)
		break
	}
	d.Curve("widths", id, draft.TickLine(), path, 1)
	for _, end := range []draft.Point{a, b} {
		d.Line("widths", "", draft.TickLine(), end.Add(draft.Point{Y: -1.5}), end.Add(draft.Point{Y: 1.5}))
	}
}

// Measured is a figure's words for a dimension: with how it is meant and its length in the other unit, or without.
func (d *Drawing) Measured(what string, l geom.Wheels, how string) []draft.Label {
	short := []draft.Word{draft.Name(what + " "), draft.Value(d.InUnits(l))}
	out := []draft.Label{draft.NewLabel(short), draft.NewLabel([]draft.Word{draft.Value(d.InUnits(l))})}
	if d.Style.Notes {
		out = append([]draft.Label{draft.NewLabel(append(short[:2:2], draft.Note("  "+d.InOtherUnit(l)+how)))}, out...)
	}
	return out
}
