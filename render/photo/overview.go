package photo

import (
	"math"
	"slices"
	"strings"

	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// column is a column of the table, with what stands over it.
type column struct {
	figure segments.Figure
	head   string
}

// columnFigures are the columns of figures that the table may have.
var columnFigures = []column{
	{segments.WheelsBetween, "between"}, {segments.FrontOverhang, "front"}, {segments.RearOverhang, "rear"}, {segments.Length, "length"},
	{segments.Height, "roof"}, {segments.Belt, "belt"}, {segments.Sill, "sill"}, {segments.GreenhouseToBody, "ratio"},
	{segments.PillarAim, "aim"}, {segments.PillarRake, "rake"}, {segments.GlassEnd, "glass end"}, {segments.ScreenBase, "screen"},
	{segments.FrontLamp, "lamp"},
}

// rowsOnPage is how many rows a page of the table has.
const rowsOnPage = 40

// Overview draws one table of several sheets for whoever hands them back: how far each figure of each lies off, and what to move first.
func Overview(sheets []Sheet, r request.Setting, number string) []render.Page {
	var out []render.Page
	columns := slices.DeleteFunc(slices.Clone(columnFigures), func(c column) bool {
		return !slices.ContainsFunc(sheets, func(s Sheet) bool { return s.difference(c.figure) >= 0 })
	})
	for rows := range slices.Chunk(sheets, rowsOnPage) {
		c := draft.NewCanvas(r)
		b, fixed := draft.NewSurface(c.OverTitleBlock(), draft.InksOf(request.Dark)), c.FixedSurface(request.Dark)
		draft.NewTable(overviewHead(columns), overviewRows(rows, columns), b.Space.Width()).Draw(b, b.Space.Min.X, b.Space.Min.Y+2)
		c.TitleBlock(fixed, draft.Caption{Heading: "Overview", Sub: "held against " + rows[0].Name},
			[][]draft.Fact{{{Name: draft.Unit, Value: "wheel"}, {Name: "+", Value: "more than wanted"}},
				{{Name: "in red", Value: "to move"}, {Name: "?", Value: "cannot tell"}}}, number)
		out = append(out, c.Finish("Overview", b, fixed, request.Left))
	}
	return out
}

func overviewHead(columns []column) []draft.Word {
	head := []draft.Word{draft.Note("")}
	for _, c := range columns {
		head = append(head, draft.Note(c.head))
	}
	return append(head, draft.Note("move first"))
}

func overviewRows(sheets []Sheet, columns []column) (rows [][]draft.Word) {
	const longestName = 38 // mm
	for _, s := range sheets {
		row := []draft.Word{draft.Truncated(draft.Name(s.title()), longestName)}
		for _, c := range columns {
			row = append(row, s.cell(c.figure))
		}
		first := draft.Note("–")
		if words := s.first(); words != "" {
			first = draft.Name(words)
		}
		rows = append(rows, append(row, first))
	}
	return rows
}

// difference returns which of the differences is that of a figure; -1 if none is.
func (s Sheet) difference(f segments.Figure) int {
	return slices.IndexFunc(s.Differences, func(d reading.Difference) bool { return d.Figure == f })
}

// cell is one figure of the table.
func (s Sheet) cell(f segments.Figure) draft.Word {
	i := s.difference(f)
	if i < 0 {
		return draft.Note("–")
	}
	d := s.Differences[i]
	text := number(f, math.Abs(d.Beyond))
	switch {
	case strings.Trim(text, "0.°") == "":
	case d.Beyond > 0:
		text = "+" + text
	default:
		text = "−" + text
	}
	switch {
	case d.Move == 0:
		return draft.Note(text)
	case d.CannotTell:
		return draft.Name(text + "?")
	}
	w := draft.Value(text)
	w.Role = draft.Accent
	return w
}

// first says what to move first.
func (s Sheet) first() string {
	if sure, _ := s.moves(); len(sure) > 0 {
		return wording(sure[0])
	}
	return ""
}
