package photo

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// column is a column of the table: its figure, what stands over it, and over that a word that neighbours may share.
type column struct {
	figure      segments.Figure
	group, head string
}

// columnFigures are the columns of figures that the table may have.
var columnFigures = []column{
	{segments.WheelsBetween, "wheels", "between"}, {segments.FrontOverhang, "overhangs", "front"},
	{segments.RearOverhang, "overhangs", "rear"}, {segments.Length, "", "length"}, {segments.Height, "levels", "roof"},
	{segments.Belt, "levels", "belt"}, {segments.Sill, "levels", "sill"}, {segments.GreenhouseToBody, "greenhouse", "to body"},
	{segments.PillarAim, "A-pillar", "aim"}, {segments.PillarRake, "A-pillar", "rake"},
	{segments.GlassEnd, "side glass", "end"}, {segments.ScreenBase, "screen", "base"}, {segments.FrontLamp, "front", "lamp"},
}

// rowsOnPage is how many rows a page of the table has.
const rowsOnPage = 40

// Overview draws one table of several sheets for whoever hands them back: how far each figure of each lies off, and what to move first.
// Columns in which nothing stands are left out.
func Overview(sheets []Sheet, r request.Setting, number string) []render.Page {
	var out []render.Page
	columns := slices.DeleteFunc(slices.Clone(columnFigures), func(c column) bool {
		return !slices.ContainsFunc(sheets, func(s Sheet) bool { return s.difference(c.figure) >= 0 })
	})
	head, groups := overviewHead(columns)
	for rows := range slices.Chunk(sheets, rowsOnPage) {
		c := draft.NewCanvas(r)
		b, fixed := draft.NewSurface(c.OverTitleBlock(), draft.InksOf(request.Dark)), c.FixedSurface(request.Dark)
		across, high := b.Space.Width(), b.Space.Height()-2
		t := draft.NewTable(head, overviewRows(rows, columns, across), across, groups...).Filling(across, high, 8)
		t.Draw(b, b.Space.Min.X, b.Space.Min.Y+2)
		facts := [][]draft.Fact{{{Name: draft.Unit, Value: "wheel"}, {Name: "+", Value: "more than wanted"}},
			{{Name: "in red", Value: "to move"}, {Name: "?", Value: "cannot tell"}}}
		if rows[0].Reading.Picture.WheelOnSheet() > 0 {
			facts = append(facts, []draft.Fact{{Name: "mm", Value: "on the sheet"}})
		}
		if rows[0].Date != "" {
			facts = append(facts, []draft.Fact{{Name: "date", Value: rows[0].Date}})
		}
		c.TitleBlock(fixed, draft.Caption{Heading: "Overview", Sub: "held against " + rows[0].Name}, facts, number)
		out = append(out, c.Finish("Overview", b, fixed, request.Left))
	}
	return out
}

// overviewHead returns the heads of the columns, and the words over them.
func overviewHead(columns []column) (head []draft.Word, groups []draft.Spanner) {
	head, groups = notes(""), []draft.Spanner{{Word: draft.Note(""), Columns: 1}}
	for i, c := range columns {
		head = append(head, draft.Note(c.head))
		if i > 0 && c.group != "" && c.group == columns[i-1].group {
			groups[len(groups)-1].Columns++
			continue
		}
		groups = append(groups, draft.Spanner{Word: draft.Note(c.group), Columns: 1})
	}
	return append(head, draft.Note("move first")), append(groups, draft.Spanner{Word: draft.Note(""), Columns: 1})
}

// overviewRows returns the rows. Names are cut only where the table finds no room across.
func overviewRows(sheets []Sheet, columns []column, across geom.MM) (rows [][]draft.Word) {
	for _, s := range sheets {
		row := []draft.Word{draft.Name(s.title())}
		for _, c := range columns {
			row = append(row, s.cell(c.figure))
		}
		first := draft.Note("–")
		if sure, _ := s.moves(); len(sure) > 0 {
			first = draft.Name(wording(sure[0]) + s.onPaper(sure[0]))
		}
		rows = append(rows, append(row, first))
	}
	const column, last = 18, 66 // mm, at most, with the gap
	for _, row := range rows {
		row[0] = draft.Truncated(row[0], across-column*geom.MM(len(columns))-last)
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
	case roundsToZero(text):
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
