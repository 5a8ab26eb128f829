package layout

import (
	"fmt"
	"math"
	"slices"

	"hubrule/segments"
)

// exactly is how near to what was asked for a pinned figure counts as met: some quanta, in its own unit.
const exactly = 1e-5

// Summary describes the plan's brief in one line, as [segments.Brief.Summary] does. A pin to which others leave no room has the number that
// is drawn.
func (p Plan) Summary() string {
	b := p.Brief
	b.Pins = slices.Clone(b.Pins)
	for i, pin := range b.Pins {
		b.Pins[i], _ = p.drawn(pin)
	}
	return b.Summary()
}

// Rounded returns a sentence for each pin that is drawn with another number, since others hold to half their last digit only so.
func (p Plan) Rounded() []string {
	var out []string
	for _, pin := range p.Brief.Pins {
		if drawn, moved := p.drawn(pin); moved {
			out = append(out, fmt.Sprintf("%s: %s %s is drawn as %s, to agree with the other pins",
				p.Profile.Name, pin.Figure, pin.Text, drawn.Text))
		}
	}
	return out
}

// drawn returns a pin with the number that is drawn, and whether that is another.
func (p Plan) drawn(pin segments.Pin) (segments.Pin, bool) {
	if pin.Figure.Info().Role == segments.Given || p.isMet(pin.Figure, pin.Value(p.Profile.Wheel.Diameter)) {
		return pin, false
	}
	return pin.At(p.Value(pin.Figure), p.Profile.Wheel.Diameter)
}

// isMet reports whether a figure is drawn as asked for.
func (p Plan) isMet(f segments.Figure, asked float64) bool {
	return math.Abs(p.figures[f]-asked) <= exactly
}
