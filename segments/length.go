package segments

import (
	"fmt"
	"strings"

	"hubrule/internal/geom"
	"hubrule/segments/strict"
)

// Measure is a length as written: a number and its unit, one of w, mm, cm, m and in.
// The zero Measure has no unit and is no length.
type Measure struct {
	Value float64
	Unit  string
}

// lengthForm is what messages say is allowed.
const lengthForm = "a length in w, mm, cm, m or in, like 2.35w"

// ParseLength reads a length: a sign where needed, digits, a decimal point, a unit in any letters: "2.35w", "1737mm", "180cm", "4.6m",
// "68in".
// The error says what was found and what is allowed, without naming a place: 2.35; want a length in …
func ParseLength(text string) (Measure, error) {
	fail := func(more string) (Measure, error) {
		return Measure{}, fmt.Errorf("%s; want %s%s", strict.Excerpt(text), lengthForm, more)
	}
	number := strings.TrimRight(text, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ")
	unit := text[len(number):]
	number = strings.TrimSuffix(number, " ")
	value, ok := strict.ParseNumber(number)
	switch {
	case strings.Contains(text, ","):
		return fail(", with a decimal point")
	case ok && unit == "":
		return fail(": the unit is missing")
	case !ok:
		return fail(strict.NumberHint(number))
	}
	small := strings.ToLower(unit)
	if small != "w" && millimetres[small] == 0 {
		return fail("")
	}
	return Measure{value, small}, nil
}

// millimetres is how long a unit is on the vehicle or on paper; 0 for wheels and for no unit at all.
var millimetres = map[string]float64{"mm": 1, "cm": 10, "m": 1000, "in": float64(geom.Inch)}

// MM returns l in millimetres; wheel is the outside diameter that a w stands for.
func (l Measure) MM(wheel geom.MM) geom.MM {
	if l.Unit == "w" {
		return geom.MM(l.Value * float64(wheel))
	}
	return geom.MM(l.Value * millimetres[l.Unit])
}

// wheels returns l in wheels of the given outside diameter.
func (l Measure) wheels(wheel geom.MM) geom.Wheels {
	if l.Unit == "w" {
		return geom.Wheels(l.Value)
	}
	return geom.Wheels(l.MM(wheel) / wheel)
}

// String writes l as ParseLength reads it, with at most six decimals.
func (l Measure) String() string { return strict.FormatNumber(l.Value) + l.Unit }
