package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// figureValue prints a figure of a plan in the sheet's units, or "–" where the plan's form has none.
func figureValue(p layout.Plan, f segments.Figure, units request.Units) string {
	if !p.Profile.Form.Has(f) {
		return "–"
	}
	return formatFigure(p, f, p.Value(f), units)
}

// formatFigure prints a value of figure f.
func formatFigure(p layout.Plan, f segments.Figure, v float64, units request.Units) string {
	switch f.Info().Unit {
	case segments.InWheels:
		return (&counting.Drawing{Plan: p, Units: units}).FormatLength(geom.Wheels(v))
	case segments.AsCount, segments.AsRatio:
		return draft.FormatFixed(v, 2)
	case segments.InDegrees:
		return draft.FormatAngle(geom.Degrees(v))
	case segments.InMM:
		return draft.FormatFixed(v, 0) + " mm"
	}
	panic("compare: cannot print a figure in " + string(f.Info().Unit))
}

// signed puts a plus before a number that is not negative.
func signed(s string) string {
	if s == "" || s[0] < '0' || s[0] > '9' {
		return s
	}
	return "+" + s
}

// comparison compares plans with the first of them, the base.
type comparison struct {
	plans []layout.Plan
	names []string // at the heads of columns
	units request.Units
	wheel geom.MM // on paper
}

// table is the table of the figures that differ between plans: for each plan its value, and how far its line lies from the base's
// on paper. With two plans the difference has a column of its own. A short table keeps the main figures.
func (c comparison) table(across geom.MM, short bool) draft.Table {
	plans, names := c.plans, c.names
	head := []draft.Word{draft.Note("figure"), draft.Note(names[0])}
	for k := range plans[1:] {
		head = append(head, coloured(k+1, draft.Note(names[k+1]))...)
		if len(plans) == 2 {
			head = append(head, draft.Note("change"))
		}
		head = append(head, draft.Note("on paper"))
	}
	var rows [][]draft.Word
	left := 0
	for f := range segments.FigureCount {
		row := c.row(f)
		switch {
		case row == nil:
		case !short || mainFigure(f):
			rows = append(rows, row)
		default:
			left++
		}
	}
	if left > 0 {
		rows = append(rows, noteRow(fmt.Sprintf("and %d more", left), len(head)))
	}
	if rows == nil {
		rows = [][]draft.Word{noteRow("nothing differs", len(head))}
	}
	return draft.NewTable(head, rows, across)
}

// noteRow is a row of n columns with words only in the first.
func noteRow(text string, n int) []draft.Word {
	return append([]draft.Word{draft.Note(text)}, slices.Repeat([]draft.Word{draft.Note("")}, n-1)...)
}

// notCompared reports figures that a side view does not show, those without a number, and the overhangs from the axles, which would
// repeat those from the tyres.
func notCompared(f segments.Figure) bool {
	return f == segments.Width || f == segments.Track || f == segments.Tumblehome || f.Info().Unit == segments.AsWord ||
		f == segments.FrontOverhangAxle || f == segments.RearOverhangAxle
}

// row is one row of the table, or nil where the figure prints alike for all plans.
func (c comparison) row(f segments.Figure) []draft.Word {
	if notCompared(f) {
		return nil
	}
	plans := c.plans
	printed := slice.Map(plans, func(p layout.Plan) string { return figureValue(p, f, c.units) })
	if !slices.ContainsFunc(printed, func(s string) bool { return s != printed[0] }) {
		return nil
	}
	base := plans[0]
	row := []draft.Word{draft.Name(figureName(f)), draft.Value(printed[0])}
	for k, p := range plans[1:] {
		by, onPaper := "", ""
		if base.Profile.Form.Has(f) && p.Profile.Form.Has(f) {
			d := p.Value(f) - base.Value(f)
			by = signed(c.difference(p, f))
			s := draft.FormatFixed(float64(geom.MM(d)*c.wheel), 1)
			if u := f.Info().Unit; (u == segments.InWheels || u == segments.AsCount) && s != "0.0" { // else less than a pencil can show
				onPaper = signed(s) + " mm"
			}
		}
		row = append(row, coloured(k+1, draft.Value(printed[k+1]))...)
		if len(plans) == 2 {
			row = append(row, draft.Value(by))
		}
		row = append(row, draft.Value(onPaper))
	}
	return row
}

// difference prints how far figure f of p is from the base's, in the units of the sheet.
func (c comparison) difference(p layout.Plan, f segments.Figure) string {
	base, units := c.plans[0], c.units
	if f.Info().Unit != segments.InWheels || units == request.Wheels {
		return formatFigure(base, f, asPrinted(f, p.Value(f))-asPrinted(f, base.Value(f)), units)
	}
	on := func(p layout.Plan, unit float64) float64 {
		return math.Round(float64(p.OnVehicle(geom.Wheels(p.Value(f)))) / unit)
	}
	if units == request.Inches {
		const tenth = 2.54 // of an inch, in mm
		return draft.FormatFixed((on(p, tenth)-on(base, tenth))/10, 1)
	}
	return draft.FormatFixed(on(p, 1)-on(base, 1), 0)
}

// asPrinted rounds a value as sheets print it, so that the numbers of a row add up.
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

// mainFigure reports whether a short table keeps a figure: it does if the full sheet names it.
func mainFigure(f segments.Figure) bool {
	switch f {
	case segments.WheelsBetween, segments.FrontOverhang, segments.RearOverhang, segments.Sill, segments.Height,
		segments.GreenhouseToBody, segments.Clearance, segments.PillarAim, segments.PillarRake, segments.GlassEnd,
		segments.ArchGap, segments.Wheelbase, segments.Length, segments.Belt:
		return true
	}
	return false
}

// figureName is a figure's name as sheets write it.
func figureName(f segments.Figure) string { return strings.ReplaceAll(f.String(), "-", " ") }
