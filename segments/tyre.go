package segments

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hubrule/internal/geom"
	"hubrule/segments/strict"
)

// tyreForm is what messages say is allowed.
const tyreForm = "a tyre like 205/55R16, LT265/70R17, 185R14 or 31x10.50R15, or a diameter like 739mm"

var (
	metricTyre    = strict.Pattern(`^(P|LT)?([1-9]\d{2})(?:/([1-9]\d{1,2}))?(Z?R)([1-9]\d)(C|LT)?$`)
	flotationTyre = strict.Pattern(`^([1-9]\d(?:\.\d{1,2})?)X([1-9]\d?\.\d{1,2})R([1-9]\d)(LT)?$`)
)

// ParseTyre reads a tyre's designation, in capitals or not, with or without spaces, or a bare outside diameter.
// It knows metric sizes (205/55R16, ZR too), P-metric and light-truck sizes, sizes without an aspect (185R14),
// and flotation sizes (31x10.50R15, nominal inches). The error says what was found and what is allowed.
func ParseTyre(text string) (Tyre, error) {
	name := strings.NewReplacer(" ", "", "×", "X").Replace(strings.ToUpper(text))
	var t Tyre
	if m := metricTyre().FindStringSubmatch(name); m != nil {
		t = metric(m)
	} else if m := flotationTyre().FindStringSubmatch(name); m != nil {
		t = flotation(m)
	} else if l, err := ParseLength(text); err == nil && l.Unit != "w" {
		t = Tyre{Diameter: l.MM(0)}
	} else {
		return Tyre{}, fmt.Errorf("%s; want %s", strict.Excerpt(text), tyreForm)
	}
	return t, t.check(text)
}

// metric applies the rule for millimetre sizes: the section's height is rounded to whole millimetres, halves up
// (ISO 4000-1 and ETRTO, MEM; supported by the printed diameters in testdata/tyre-diameters.csv).
func metric(m []string) Tyre {
	width, rim := number(m[2]), rimOf(m[5])
	aspect := 82. // where none is printed: custom of the trade (2nd-hand)
	name := m[1] + m[2]
	if m[3] != "" {
		aspect = number(m[3])
		name += "/" + m[3]
	}
	height := math.Floor(width*aspect/100 + .5)
	return Tyre{
		Name: name + m[4] + m[5] + m[6], Diameter: rim + 2*geom.MM(height),
		SectionWidth: geom.MM(width), RimDiameter: rim,
	}
}

// flotation takes the inches at their word; such tyres measure up to 2.5 % less.
func flotation(m []string) Tyre {
	return Tyre{
		Name: m[1] + "x" + m[2] + "R" + m[3] + m[4], Diameter: geom.MM(number(m[1])) * geom.Inch,
		SectionWidth: geom.MM(number(m[2])) * geom.Inch, RimDiameter: rimOf(m[3]),
	}
}

// rimOf returns the rim's diameter of a rim code: the code in inches, to whole millimetres (16 → 406; ISO 4000-1, MEM).
func rimOf(code string) geom.MM { return geom.MM(math.Round(number(code) * float64(geom.Inch))) }

// number reads a number of the program's own, or digits that matched a designation's pattern.
func number(digits string) float64 {
	x, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		panic("segments: " + err.Error())
	}
	return x
}

// The widest rim and section that road vehicles are sold with, and some room (judged by eye).
const (
	maxRim     geom.MM = 30 * geom.Inch
	maxSection geom.MM = 500
)

// check refuses sizes that no vehicle stands on.
func (t Tyre) check(text string) error {
	b := Wheel.Info()
	switch {
	case float64(t.Diameter) < b.Lo || float64(t.Diameter) > b.Hi:
		return fmt.Errorf("%s; want a diameter of %smm to %smm", strict.Excerpt(text), strict.FormatNumber(b.Lo), strict.FormatNumber(b.Hi))
	case t.Name == "": // only a diameter
	case t.RimDiameter < 200 || t.RimDiameter > min(maxRim, .95*t.Diameter) || t.SectionWidth < 100 || t.SectionWidth > maxSection:
		return fmt.Errorf("%s; want %s: no tyre has this size", strict.Excerpt(text), tyreForm)
	}
	return nil
}

// String returns the designation, or the diameter where there is none.
func (t Tyre) String() string {
	if t.Name != "" {
		return t.Name
	}
	return strict.FormatNumber(float64(t.Diameter)) + "mm"
}
