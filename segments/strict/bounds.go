package strict

import (
	"cmp"
	"fmt"
	"math"
)

// Bounds are what a number may be, ends included. Every number that a user gives has some, and wherever it is given a number outside them
// is reported in the same words: found; want lo to hi.
type Bounds struct {
	Lo, Hi float64
	Unit   string // of a length, behind each end; "" for a plain number
	Whole  bool   // only whole numbers
}

// String returns "2 to 24", "5mm to 1000mm".
func (b Bounds) String() string {
	return FormatNumber(b.Lo) + b.Unit + " to " + FormatNumber(b.Hi) + b.Unit
}

// Contain reports whether x lies within b; what is no number does not.
func (b Bounds) Contain(x float64) bool { return x >= b.Lo && x <= b.Hi }

// Parse reads a plain number within b, without a unit. The error says what was found and what is allowed.
func (b Bounds) Parse(text string) (float64, error) {
	x, ok := ParseNumber(text)
	switch {
	case b.Whole && (!ok || x != math.Trunc(x)):
		return 0, fmt.Errorf("%s; want a whole number, %s%s", Excerpt(text), b, NumberHint(text))
	case !ok:
		return 0, fmt.Errorf("%s; want a number, %s%s", Excerpt(text), b, cmp.Or(NumberHint(text), unitHint(text)))
	case !b.Contain(x):
		return 0, fmt.Errorf("%s; want %s", Excerpt(text), b)
	}
	return x, nil
}
