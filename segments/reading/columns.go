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
	name   string // "name", "tyre", "rear-tyre", "pm", a figure's, or that of its ±
	figure segments.Figure
	unit   string // of lengths; "" for counts, ratios and angles
	pm     int    // index of the column with the figure's own ±; -1: none
}

// Names of the columns that hold no figure.
const (
	nameColumn = "name"
	tyreColumn = "tyre"
	rearColumn = "rear-tyre"
	pmColumn   = "pm"
	pmEnding   = "-pm" // of the column with the ± of one figure
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
	out, good, listed := make([]column, len(head)), true, false
	first := map[string]int{}
	for i, cell := range head {
		c, wrong := parseColumn(cell.Text, head)
		if strings.HasSuffix(wrong, allColumns()) {
			if listed {
				wrong = strings.TrimSuffix(wrong, allColumns()) + "one of those above"
			}
			listed = true
		}
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
	return !slices.Contains([]string{nameColumn, tyreColumn, rearColumn, pmColumn}, c.name) && !strings.HasSuffix(c.name, pmEnding)
}

// headed returns the column with a head, or -1.
func headed(head []strict.Cell, text string) int {
	return slices.IndexFunc(head, func(c strict.Cell) bool { return strings.EqualFold(c.Text, text) })
}

// parseColumn reads the head of a column: a name, and the unit of a figure. A figure with a ± of its own, as readings are written, has no
// unit: its lengths are in wheels. Wrong says what is wrong.
func parseColumn(text string, head []strict.Cell) (c column, wrong string) {
	words := strings.Fields(strings.ToLower(text))
	if len(words) == 0 {
		return c, "a column without a name; want one, like wheelbase mm"
	}
	c.name, c.pm = words[0], -1
	unit := strings.Trim(strings.Join(words[1:], " "), "()[]")
	if f, known := segments.Lookup(strings.TrimSuffix(c.name, pmEnding)); known && inSheets(f) && c.name != f.String() && unit == "" {
		if headed(head, f.String()) < 0 {
			return c, fmt.Sprintf("%s without %s; want that column as well, without a unit", c.name, f)
		}
		return c, ""
	}
	if !slices.Contains(columnNames(), c.name) {
		return c, unknownColumn(c.name, text)
	}
	if c.isFigure() {
		c.figure, _ = segments.Lookup(c.name)
	}
	if at := headed(head, c.name+pmEnding); c.isFigure() && unit == "" && at >= 0 {
		c.pm = at
		return c, ""
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

// allColumns lists what a column may be called, as the end of a message.
func allColumns() string { return strict.JoinOr(columnNames()) }

// unknownColumn is the message for a name that no column has; text is the whole head.
func unknownColumn(name, text string) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune("_- ()", r) })
	unit, n := "", len(words)-1
	if n > 0 && slices.Contains(append(lengthUnits(), "deg"), words[n]) {
		unit, words = " "+words[n], words[:n]
	}
	if near := strings.Join(words, "-"); slices.Contains(columnNames(), near) {
		return fmt.Sprintf("unknown column %s; did you mean %q?", strict.Quote(text), near+unit)
	}
	if f, known := segments.Lookup(name); known && f.Info().Unit == segments.InMM {
		return fmt.Sprintf("%s; want %s", name, map[segments.Figure]string{segments.Wheel: tyreColumn, segments.RearWheel: rearColumn}[f])
	}
	if segments.FigureHint(name) != "" {
		return segments.UnknownFigure(name, nil)
	}
	return strict.Unknown("column", name, columnNames())
}
