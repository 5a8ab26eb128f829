package sheet

import (
	"fmt"
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/segments"
)

// figureValue prints a figure of a plan in the units of the sheet; "–" where the plan's form has none.
func figureValue(p layout.Plan, f segments.Figure, units request.Units) string {
	if !p.Profile.Form.Has(f) {
		return "–"
	}
	return figureAs(p, f, p.Value(f), units)
}

// figureAs prints a value of figure f.
func figureAs(p layout.Plan, f segments.Figure, v float64, units request.Units) string {
	switch f.Info().Unit {
	case segments.InWheels:
		return (&drawing{plan: p, units: units}).length(geom.Wheels(v))
	case segments.AsCount, segments.AsRatio:
		return fixed(v, 2)
	case segments.InDegrees:
		return angle(geom.Degrees(v))
	case segments.InMM:
		return fixed(v, 0) + " mm"
	}
	panic("sheet: a figure in " + string(f.Info().Unit))
}

// signed puts a plus before what is not negative.
func signed(s string) string {
	if s == "" || s[0] < '0' || s[0] > '9' {
		return s
	}
	return "+" + s
}

// changes is the table of the figures that differ between plans: for each plan its value, and how far the pencil has to
// move from the base's line. With two plans the change has a column of its own.
func (job driver) changes(plans []layout.Plan, wheel, across geom.MM, wanted func(segments.Figure) bool) table {
	names := callings(plans, 22)
	head := []word{note("figure"), note(names[0])}
	for k := range plans[1:] {
		head = append(head, in(k+1, note(names[k+1]))...)
		if len(plans) == 2 {
			head = append(head, note("change"))
		}
		head = append(head, note("on paper"))
	}
	var rows [][]word
	left := 0
	for f := range segments.FigureCount {
		row := job.change(plans, f, wheel)
		switch {
		case row == nil:
		case wanted(f):
			rows = append(rows, row)
		default:
			left++
		}
	}
	if left > 0 {
		rows = append(rows, alone(fmt.Sprintf("and %d more", left), len(head)))
	}
	if rows == nil {
		rows = [][]word{alone("nothing differs", len(head))}
	}
	return newTable(head, rows, across)
}

// alone is a row of n columns with words in the first only.
func alone(text string, n int) []word {
	out := []word{note(text)}
	for len(out) < n {
		out = append(out, note(""))
	}
	return out
}

// change is one row of the table; nil where the figure prints alike for all plans.
func (job driver) change(plans []layout.Plan, f segments.Figure, wheel geom.MM) []word {
	if unseen(f) {
		return nil
	}
	units := job.Setting.Units
	var printed []string
	for _, p := range plans {
		printed = append(printed, figureValue(p, f, units))
	}
	if !slices.ContainsFunc(printed, func(s string) bool { return s != printed[0] }) {
		return nil
	}
	base := plans[0]
	row := []word{name(figureWords(f.String())), value(printed[0])}
	for k, p := range plans[1:] {
		by, onPaper := "", ""
		if base.Profile.Form.Has(f) && p.Profile.Form.Has(f) {
			d := p.Value(f) - base.Value(f)
			by = signed(job.difference(base, p, f))
			if u := f.Info().Unit; u == segments.InWheels || u == segments.AsCount {
				onPaper = moved(geom.MM(d) * wheel)
			}
		}
		row = append(row, in(k+1, value(printed[k+1]))...)
		if len(plans) == 2 {
			row = append(row, value(by))
		}
		row = append(row, value(onPaper))
	}
	return row
}

// difference prints how far figure f of p is from the base's, in the units of the sheet.
func (job driver) difference(base, p layout.Plan, f segments.Figure) string {
	units := job.Setting.Units
	if f.Info().Unit != segments.InWheels || units == request.Wheels {
		return figureAs(base, f, asPrinted(f, p.Value(f))-asPrinted(f, base.Value(f)), units)
	}
	on := func(p layout.Plan, unit float64) float64 {
		return math.Round(float64(p.OnVehicle(geom.Wheels(p.Value(f)))) / unit)
	}
	if units == request.Inches {
		const tenth = 2.54 // of an inch, in mm
		return fixed((on(p, tenth)-on(base, tenth))/10, 1)
	}
	return fixed(on(p, 1)-on(base, 1), 0)
}

// asPrinted rounds a value as sheets print it, so that the three numbers of a row add up.
func asPrinted(f segments.Figure, v float64) float64 {
	unit := 100.
	switch f.Info().Unit {
	case segments.InDegrees:
		unit = 10
	case segments.InMM:
		unit = 1
	}
	return math.Round(v*unit) / unit
}

// moved prints how far a line moves on paper; nothing where a pencil could not.
func moved(by geom.MM) string {
	s := fixed(float64(by), 1)
	if s == "0.0" {
		return ""
	}
	return signed(s) + " mm"
}

func everyFigure(segments.Figure) bool { return true }

// mainFigure reports the figures that a small table keeps: those that the full sheet names.
func mainFigure(f segments.Figure) bool {
	switch f {
	case segments.WheelsBetween, segments.FrontOverhang, segments.RearOverhang, segments.Sill, segments.Height,
		segments.GreenhouseToBody, segments.Clearance, segments.PillarAim, segments.PillarRake, segments.GlassEnd,
		segments.ArchGap, segments.Wheelbase, segments.Length, segments.Belt:
		return true
	}
	return false
}
