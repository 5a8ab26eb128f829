package segments

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"hubrule/internal/geom"
	"hubrule/segments/strict"
)

// Origin is where a value was given: "--pin height=2.2w", or a file's "brief.yaml:7:3".
type Origin struct {
	Place  string
	InFile bool
}

// Pin is a figure that the user fixes, as it was written.
type Pin struct {
	Figure Figure
	Text   string // "2.2w", "0.45", "255/45R20"
	Origin Origin

	length Measure // of a length, and of a plain number, which has no unit
	tyre   Tyre    // of a wheel
}

// ParsePin reads the wanted value of figure f: a length in any unit, a plain number for counts, ratios and
// degrees, a tyre's designation or diameter for the wheels. The error says what was found and what is allowed.
func ParsePin(f Figure, text string) (Pin, error) {
	p := Pin{Figure: f, Text: text}
	var err error
	switch f.Info().Unit {
	case AsWord:
		return Pin{}, errors.New(wordPinned)
	case InMM:
		p.tyre, err = ParseTyre(text)
	case InWheels:
		p.Text = strings.ToLower(text) // of the unit
		p.length, err = ParseLength(text)
	default:
		p.length, err = parsePlain(f, text)
	}
	return p, err
}

const wordPinned = "a segment's form cannot be pinned; want another segment, the tweak fastback, " +
	"or a profile of your own that extends this one"

// parsePlain reads a number without a unit, within the figure's bounds.
func parsePlain(f Figure, text string) (Measure, error) {
	bounds := f.bounds()
	x, ok := strict.ParseNumber(text)
	switch {
	case !ok:
		more := strict.NumberHint(text)
		if _, plain := strict.ParseNumber(strings.TrimRight(text, "°%")); plain {
			more = ", without a sign"
		}
		if _, err := ParseLength(text); err == nil {
			more = fmt.Sprintf(", without a unit: %s is %s", f, kinds[f.Info().Unit])
		}
		return Measure{}, fmt.Errorf("%s; want a number, %s%s", strict.Excerpt(text), f.rangeText(bounds), more)
	case !bounds.contains(x):
		return Measure{}, fmt.Errorf("%s; want %s", strict.Excerpt(text), f.rangeText(bounds))
	}
	return Measure{Value: x}, nil
}

// kinds names what figures without a unit are.
var kinds = map[Unit]string{AsRatio: "a ratio", AsCount: "a count of wheels", InDegrees: "an angle in degrees"}

// display formats the pin for readers: "4600 mm", "0.45", "30°".
func (p Pin) display() string {
	switch {
	case p.length.Unit == "w":
		return strict.FormatNumber(p.length.Value) + "w"
	case p.length.Unit != "":
		return strict.FormatNumber(p.length.Value) + " " + p.length.Unit
	case p.Figure.Info().Unit == InDegrees:
		return strict.FormatNumber(p.length.Value) + "°"
	}
	return p.Text
}

// Unit returns the unit that was written: w, mm, cm, m, in, or "" for a plain number or a tyre.
func (p Pin) Unit() string { return p.length.Unit }

// Value returns what is wanted in the figure's own unit; wheel is the outside diameter that a w stands for.
func (p Pin) Value(wheel geom.MM) float64 {
	if p.Figure.Info().Unit == InMM {
		return float64(p.tyre.Diameter)
	}
	return p.inFigureUnit(p.length.Value, wheel)
}

func (p Pin) inFigureUnit(x float64, wheel geom.MM) float64 {
	if p.length.Unit == "" {
		return x
	}
	return float64(Measure{x, p.length.Unit}.wheels(wheel))
}

// FromFigureUnit turns a value in the figure's own unit into the unit that was written.
func (p Pin) FromFigureUnit(x float64, wheel geom.MM) float64 {
	if one := p.inFigureUnit(1, wheel); one != 0 {
		return x / one
	}
	return x
}

// WithNumber returns the pin as if another number had been written in the same unit.
func (p Pin) WithNumber(number string) Pin {
	p.Text = number + p.length.Unit
	return p
}

// At returns the pin with another value in the figure's own unit, written in the pin's unit with as many decimals, and whether that is
// another number.
func (p Pin) At(value float64, wheel geom.MM) (Pin, bool) {
	number := strconv.FormatFloat(p.FromFigureUnit(value, wheel), 'f', p.decimals(), 64)
	x, ok := strict.ParseNumber(number)
	if !ok || math.Abs(x-p.length.Value) < 1e-9 {
		return p, false
	}
	p = p.WithNumber(number)
	p.length.Value = x
	return p, true
}

// decimals returns with how many decimals the pin was written.
func (p Pin) decimals() int {
	number := strings.TrimRight(p.Text, "abcdefghijklmnopqrstuvwxyz ")
	_, decimals, _ := strings.Cut(number, ".")
	return len(decimals)
}

// Tolerance returns half the last digit that was written, in the figure's own unit: redundant pins may differ
// by that much. It is never more than half the last digit that sheets and tables print, so that what was printed can be
// pinned again, but "3" wheels between is not taken for anything from 2.5 to 3.5.
func (p Pin) Tolerance(wheel geom.MM) float64 {
	half := math.Abs(p.inFigureUnit(.5*math.Pow10(-p.decimals()), wheel))
	printed := .005 // wheels, counts and ratios: two decimals on sheets
	switch {
	case p.Figure.Info().Unit == InDegrees:
		printed = .05
	case p.length.Unit == "mm", p.length.Unit == "cm", p.length.Unit == "m", p.length.Unit == "in":
		printed = math.Max(.0005, .5/float64(wheel)) // whole millimetres
	}
	return math.Min(half, printed)
}

// CheckBounds returns an error if a length makes no sense for any vehicle; wheel as for Value.
func (p Pin) CheckBounds(wheel geom.MM) error {
	if p.Figure.Info().Unit == InWheels && !p.Figure.bounds().contains(p.Value(wheel)) {
		return fmt.Errorf("%s; want %s", p.Text, p.Figure.boundsText(p.length.Unit, wheel))
	}
	return nil
}
