package draft

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hubrule/internal/geom"
)

// FormatFixed prints v with n decimals, a minus sign instead of a hyphen, and never as "-0".
func FormatFixed(v float64, n int) string {
	if math.Abs(v) < .5*math.Pow10(-n) {
		v = 0
	}
	return strings.Replace(strconv.FormatFloat(v, 'f', n, 64), "-", "\u2212", 1)
}

// FormatTrimmed prints v with at most n decimals.
func FormatTrimmed(v float64, n int) string {
	s := FormatFixed(v, n)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// FormatAngle prints degrees with at most one decimal.
func FormatAngle(v geom.Degrees) string { return FormatTrimmed(float64(v), 1) + "°" }

// FormatCount prints a count: whole if it is whole, else with two decimals.
func FormatCount(v float64) string {
	if math.Abs(v-math.Round(v)) < .005 {
		return FormatFixed(v, 0)
	}
	return FormatFixed(v, 2)
}

// FormatMM prints a length on paper, at most two decimals.
func FormatMM(l geom.MM) string { return FormatTrimmed(float64(l), 2) + " mm" }

// FormatScale prints a scale.
func FormatScale(n float64) string { return fmt.Sprintf("1 : %s", FormatTrimmed(n, 1)) }
