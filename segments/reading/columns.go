package reading

import (
	"fmt"
	"slices"
	"strings"

	"hubrule/segments"
	"hubrule/segments/strict"
)

// column is one column of a data sheet.
type column struct {
	name   string // "name", "tyre", "rear-tyre", "pm" or a figure's
	figure segments.Figure
	unit   string // of lengths; "" for counts, ratios and angles
}

// Names of the columns that hold no figure.
const (
	nameColumn = "name"
	tyreColumn = "tyre"
	rearColumn = "rear-tyre"
	pmColumn   = "pm"
)

// lengthUnits are those that a column of lengths may have.
func lengthUnits() []string { return []string{"mm", "cm", "m", "in", "w"} }

// inSheets reports whether a data sheet may have a column of figure f: the tyres have columns of their own, and a form is no number.
func inSheets(f segments.Figure) bool {
	return f.Info().Unit != segments.InMM && f.Info().Unit != segments.AsWord
}

// columnNames lists what a column may be called, without its unit.
func columnNames() []string {
	out := []string{nameColumn, tyreColumn, rearColumn, pmColumn}
	for f := range segments.FigureCount {
		if inSheets(f) {
			out = append(out, f.String())
		}
	}
	return out
}

// parseColumns reads the first row, and reports whether the rows below it can be read.
func parseColumns(head []strict.Cell) ([]column, bool) {
	out, good := make([]column, len(head)), true
	first := map[string]int{}
	for i, cell := range head {
		c, wrong := parseColumn(cell.Text)
		if j, twice := first[c.name]; wrong == "" && twice {
			wrong = fmt.Sprintf("%s stands twice, first in column %d; want it once", c.name, j+1)
		}
		if wrong != "" {
			cell.Problem("%s", wrong)
			good = false
			continue
		}
		out[i], first[c.name] = c, i
	}
	_, named := first[nameColumn]
	if good && !named {
		head[0].Problem("no column name; want name, tyre and figures with their units, like name,tyre,wheelbase mm,height mm")
	}
	if good && named && !slices.ContainsFunc(out, column.isFigure) {
		head[0].Problem("no figure; want some with their units, like wheelbase mm")
		good = false
	}
	return out, good && named
}

func (c column) isFigure() bool {
	return !slices.Contains([]string{nameColumn, tyreColumn, rearColumn, pmColumn}, c.name)
}

// parseColumn reads the head of a column: a name, and the unit of a figure. Wrong says what is wrong with it.
func parseColumn(text string) (c column, wrong string) {
	words := strings.Fields(strings.ToLower(text))
	if len(words) == 0 {
		return c, "a column without a name; want one, like wheelbase mm"
	}
	c.name = words[0]
	unit := strings.Trim(strings.Join(words[1:], " "), "()[]")
	if !slices.Contains(columnNames(), c.name) {
		return c, unknownColumn(c.name)
	}
	if c.isFigure() {
		c.figure, _ = segments.Lookup(c.name)
	}
	want := []string{""}
	switch {
	case c.name == pmColumn, c.isFigure() && c.figure.Info().Unit == segments.InWheels:
		want = lengthUnits()
	case c.isFigure() && c.figure.Info().Unit == segments.InDegrees:
		want = []string{"deg"}
	}
	switch {
	case slices.Contains(want, unit) && unit == "deg":
	case slices.Contains(want, unit):
		c.unit = unit
	case want[0] == "":
		return c, fmt.Sprintf("%s has no unit; want %s alone", strict.Excerpt(text), c.name)
	case unit == "":
		return c, fmt.Sprintf("%s: the unit is missing; want %s %s", c.name, c.name, strict.JoinOr(want))
	default:
		return c, fmt.Sprintf("%s; want %s %s", strict.Excerpt(text), c.name, strict.JoinOr(want))
	}
	return c, ""
}

// unknownColumn is the message for a name that no column has.
func unknownColumn(name string) string {
	if f, known := segments.Lookup(name); known && f.Info().Unit == segments.InMM {
		return fmt.Sprintf("%s; want %s", name, map[segments.Figure]string{segments.Wheel: tyreColumn, segments.RearWheel: rearColumn}[f])
	}
	if segments.FigureHint(name) != "" {
		return segments.UnknownFigure(name, nil)
	}
	return strict.Unknown("column", name, columnNames())
}
