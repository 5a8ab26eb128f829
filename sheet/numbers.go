package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hubrule/internal/geom"
	"hubrule/render/request"
)

// minus replaces the hyphen of a printed number by a minus sign.
func minus(s string) string { return strings.Replace(s, "-", "\u2212", 1) }

// fixed prints v with n decimals and never as "-0".
func fixed(v float64, n int) string {
	if math.Abs(v) < .5*math.Pow10(-n) {
		v = 0
	}
	return minus(strconv.FormatFloat(v, 'f', n, 64))
}

// trimmed prints v with at most n decimals.
func trimmed(v float64, n int) string {
	s := fixed(v, n)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// angle prints degrees with at most one decimal.
func angle(v geom.Degrees) string { return trimmed(float64(v), 1) + "°" }

// inWheels prints a length in wheels as sheets do: two decimals.
func inWheels(w geom.Wheels) string { return fixed(float64(w), 2) }

// counted1 prints a count: whole if it is whole, else with two decimals.
func countOf(v float64) string {
	if math.Abs(v-math.Round(v)) < .005 {
		return fixed(v, 0)
	}
	return fixed(v, 2)
}

// length prints a length of the plan in the units of the sheet, which the strip names.
func (d *drawing) length(w geom.Wheels) string {
	switch mm := d.plan.OnVehicle(w); d.units {
	case request.Wheels:
		return inWheels(w)
	case request.Millimetres:
		return fixed(float64(mm), 0)
	case request.Inches:
		return fixed(float64(mm)/25.4, 1)
	}
	panic("sheet: no units " + string(d.units))
}

// wheelCount prints one wheel: 1 in wheels, its diameter otherwise.
func (d *drawing) wheelCount(w geom.Wheels) string {
	if d.units == request.Wheels {
		return countOf(float64(w))
	}
	return d.length(w)
}

// otherwise prints a length in the unit that the sheet does not use, with its name.
func (d *drawing) otherwise(w geom.Wheels) string {
	if d.units == request.Wheels {
		return fixed(float64(d.plan.OnVehicle(w)), 0) + " mm"
	}
	return inWheels(w) + " wheels"
}

// onPaper prints a length on paper, at most two decimals.
func onPaper(l geom.MM) string { return trimmed(float64(l), 2) + " mm" }

// reduction prints a scale.
func reduction(n float64) string { return fmt.Sprintf("1 : %s", trimmed(n, 1)) }
