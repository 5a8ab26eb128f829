package compare

import (
	"cmp"
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
	plans  []layout.Plan
	names  []string // at the heads of columns
	units  request.Units
	wheels []geom.MM // of each plan, on paper
}

// change is a figure that differs between plans.
type change struct {
	figure segments.Figure
	row    []draft.Word // of the table
	most   geom.MM      // on paper, of all plans; 0 where the figure is no length
}

// changes lists the figures that differ; of several plans, the largest change on paper first.
func (c comparison) changes() []change {
	var out []change
	for f := range segments.FigureCount {
		if ch, differs := c.change(f); differs {
			out = append(out, ch)
		}
	}
	if len(c.plans) > 2 {
		slices.SortStableFunc(out, func(a, b change) int { return cmp.Compare(b.most, a.most) })
	}
	return out
}

// table is the table of changes: for each plan its value, and how far its line lies from the base's on paper. With two plans the difference
// has a column of its own; several have their names over both columns. left is how many changes are left out.
func (c comparison) table(across geom.MM, changes []change, left int) draft.Table {
	head, several := []draft.Word{draft.Note("figure"), draft.Note(c.names[0])}, len(c.plans) > 2
	spanners := []draft.Spanner{{Word: draft.Note(""), Columns: 1}, {Word: head[1], Columns: 1}}
	for k := 1; k < len(c.plans); k++ {
		name := coloured(k, draft.Note(c.names[k]))[0]
		if several {
			spanners = append(spanners, draft.Spanner{Word: name, Columns: 2})
			head[1], name = draft.Note(""), draft.Note("")
		}
		head = append(head, name)
		if !several {
			head = append(head, draft.Note("change"))
		}
		head = append(head, draft.Note("on paper"))
	}
	rows := slice.Map(changes, func(ch change) []draft.Word { return ch.row })
	if left > 0 {
		rows = append(rows, noteRow(fmt.Sprintf("and %d more", left), len(head)))
	}
	if rows == nil {
		rows = [][]draft.Word{noteRow("nothing differs", len(head))}
	}
	if !several {
		spanners = nil
	}
	return draft.NewTable(head, rows, across, spanners...)
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

// change compares figure f; it reports false where the figure prints alike for all plans.
func (c comparison) change(f segments.Figure) (out change, differs bool) {
	if notCompared(f) {
		return out, false
	}
	plans := c.plans
	printed := slice.Map(plans, func(p layout.Plan) string { return figureValue(p, f, c.units) })
	if !slices.ContainsFunc(printed, func(s string) bool { return s != printed[0] }) {
		return out, false
	}
	base := plans[0]
	out.figure, out.row = f, []draft.Word{draft.Name(figureName(f)), draft.Value(printed[0])}
	for k, p := range plans[1:] {
		by, onPaper := "", ""
		if base.Profile.Form.Has(f) && p.Profile.Form.Has(f) {
			by = signed(c.difference(p, f))
			d := c.onPaper(k+1, f) - c.onPaper(0, f)
			if s := draft.FormatFixed(float64(d), 1); s != "0.0" { // else less than a pencil can show
				onPaper, out.most = signed(s)+" mm", max(out.most, d, -d)
			}
		}
		out.row = append(out.row, coloured(k+1, draft.Value(printed[k+1]))...)
		if len(plans) == 2 {
			out.row = append(out.row, draft.Value(by))
		}
		out.row = append(out.row, draft.Value(onPaper))
	}
	return out, true
}

// onPaper returns how long figure f of plan k is on paper, 0 where it is no length.
func (c comparison) onPaper(k int, f segments.Figure) geom.MM {
	v, p := c.plans[k].Value(f), c.plans[k]
	switch f.Info().Unit {
	case segments.InWheels, segments.AsCount:
		return geom.MM(v * float64(c.wheels[k]))
	case segments.InMM:
		return geom.MM(v / float64(p.OnVehicle(1)) * float64(c.wheels[k]))
	}
	return 0
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
