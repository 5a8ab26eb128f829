package sheet

import (
	"hubrule/internal/geom"
	"hubrule/render"
)

// broken draws a dimension from lo to hi at the page's height y, broken for its words; where they find no room it stays whole.
func (d *drawing) broken(id string, lo, hi, y geom.MM, labels ...label) {
	a, b := point{X: lo, Y: y}, point{X: hi, Y: y}
	path := render.Path{}.Move(a).Line(b)
	for _, l := range labels {
		words := l.box((lo+hi)/2, y-l.lift(), render.Middle)
		if words.Min.X-1.5 < lo+2 || words.Max.X+1.5 > hi-2 {
			continue
		}
		d.write("labels", l, (lo+hi)/2, y-l.lift(), render.Middle)
		path = render.Path{}.Move(a).Line(point{X: words.Min.X - 1.5, Y: y}).Move(point{X: words.Max.X + 1.5, Y: y}).Line(b)
		break
	}
	d.curve("widths", id, tickLine(), path, 1)
	for _, end := range []point{a, b} {
		d.line("widths", "", tickLine(), end.Add(point{Y: -1.5}), end.Add(point{Y: 1.5}))
	}
}

// measured is a figure's words for a dimension: with how it is meant and its length in the other unit, or without.
func (d *drawing) measured(what string, l geom.Wheels, how string) []label {
	short := []word{name(what + " "), value(d.length(l))}
	out := []label{newLabel(short), newLabel([]word{value(d.length(l))})}
	if d.way.notes {
		out = append([]label{newLabel(append(short[:2:2], note("  "+d.otherwise(l)+how)))}, out...)
	}
	return out
}
