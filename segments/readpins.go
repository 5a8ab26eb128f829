package segments

import (
	"math"
	"slices"

	"hubrule/segments/strict"
)

// pin reads a derived figure: the profile fixes it, and the solve moves the figures that it follows from.
func (r *profileReader) pin(f Figure, v strict.Value) {
	p, ok := readPin(f, v, "a value alone: "+f.String()+" follows from other figures, and is pinned here")
	if !ok {
		return
	}
	if wheel := r.profile.Wheel.Diameter; wheel > 0 {
		if err := p.CheckBounds(wheel); err != nil {
			v.Problem("%v", err)
			return
		}
	}
	r.profile.Pins = append(r.profile.Pins, p)
}

// readPin reads what a figure is to be; want describes what is allowed.
func readPin(f Figure, v strict.Value, want string) (Pin, bool) {
	p, ok := parseScalar(v, want, func(text string) (Pin, error) { return ParsePin(f, text) })
	p.Origin = Origin{Place: v.Place(), InFile: true}
	return p, ok
}

// Pin returns the profile's pin of a figure.
func (p *Profile) Pin(f Figure) (Pin, bool) { return Brief{Pins: p.Pins}.Pin(f) }

// withProfilePins returns b with its profile's pins, except of figures that b pins or keeps itself.
func (b Brief) withProfilePins() Brief {
	b.Pins = slices.Clone(b.Pins)
	for _, p := range b.Profile.Pins {
		if _, pinned := b.Pin(p.Figure); !pinned {
			b.Pins = append(b.Pins, p)
		}
	}
	return b
}

// outside reports a value outside the figure's range, in the unit that the file wrote. Where the range was inherited, the message has
// the lines that widen it.
func (r *profileReader) outside(f Figure, t strict.Table, at strict.Value, e Entry) {
	span, own := t.Get("range")
	unit, written := r.unit(f, at)
	if written == "" && own {
		items, _ := span.Items(2, 2)
		unit, _ = r.unit(f, items[0])
	}
	if written == "" {
		written = r.inUnit(f, e.Value, unit, math.Round)
	}
	lo, hi := r.inUnit(f, e.Range.Lo, unit, math.Ceil), r.inUnit(f, e.Range.Hi, unit, math.Floor)
	if own {
		at.Problem("%s lies outside its own range; want %s to %s", written, lo, hi)
		return
	}
	from, to := lo, written
	if e.Value < e.Range.Lo {
		from, to = written, hi
	}
	at.Problem("%s lies outside the inherited range; want %s to %s, or a range of its own: %s: {value: %s, range: [%s, %s]}",
		written, lo, hi, f, written, from, to)
}

// unit returns the unit of a length that a file wrote, and the text; "w" and "" where it wrote none.
func (r *profileReader) unit(f Figure, v strict.Value) (unit, text string) {
	text, _ = v.Scalar()
	if l, err := ParseLength(text); err == nil && f.Info().Unit == InWheels {
		return l.Unit, text
	}
	return "w", text
}

// inUnit writes a value of a figure in a unit: millimetres whole, other units of the vehicle to the nearest one, in decimals.
func (r *profileReader) inUnit(f Figure, x float64, unit string, round func(float64) float64) string {
	if f.Info().Unit != InWheels || unit == "w" {
		return f.valueText(x)
	}
	const noise = 1e-6 // of a millimetre: what turning to wheels and back leaves
	mm := round(math.Round(x*float64(r.profile.Wheel.Diameter)/noise) * noise)
	return Measure{mm / millimetres[unit], unit}.String()
}
