package compare

import (
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// Distances on a norms sheet, in mm.
const (
	normLabel    geom.MM = 46 // names and the least value of the scale
	normColumns  geom.MM = 97 // the greatest value of the scale and the numbers
	normPitch    geom.MM = 12 // at most
	normLeast    geom.MM = 4.4
	normHeadRoom geom.MM = 16
	normLine     geom.MM = 4 // of the list of readings
)

// NormsPage draws norms: each figure's range with every reading's dot on a scale of its own, and the names of outliers. It fails where the
// rows find no room.
func NormsPage(n *reading.Norms, s request.Setting) (render.Page, error) {
	c := draft.NewCanvas(s)
	b := c.FixedSurface(request.Dark)
	again := []segments.Figure{segments.Wheelbase, segments.FrontOverhangAxle, segments.RearOverhangAxle} // of what other rows say
	rows := slices.DeleteFunc(slices.Clone(n.Figures), func(f reading.Norm) bool {
		return f.Figure.Info().Role == segments.Given || slices.Contains(again, f.Figure)
	})
	top := b.Space.Min.Y + normHeadRoom
	free := c.OverTitleBlock().Max.Y - 3 - top - normPitch*geom.MM(len(rows))
	names := readingNames(n, b.Space.Width(), max(3, int(free/normLine)))
	bottom := c.OverTitleBlock().Max.Y - normLine*geom.MM(len(names)) - 3
	pitch := min(normPitch, (bottom-top)/geom.MM(max(1, len(rows))))
	if pitch < normLeast {
		return render.Page{}, fmt.Errorf("the norms do not fit on %s: %d figures; use larger paper", c.Paper.Name, len(rows))
	}
	normHeads(b, top)
	for i, f := range rows {
		row := normRow{Surface: b, Norm: f, from: b.Space.Min.X + normLabel, to: b.Space.Max.X - normColumns,
			y: top + pitch*(geom.MM(i)+.5), pitch: pitch, stacked: map[int]int{}}
		row.step, row.axis = row.span()
		row.draw(n)
	}
	for i, line := range names {
		b.Write("labels", draft.NewLabel(line).TopAt(b.Space.Min.X, bottom+3+normLine*geom.MM(i), render.Start))
	}
	title := draft.Caption{Heading: n.Profile.Title, Sub: fmt.Sprintf("norms of %d readings", len(n.Readings))}
	c.TitleBlock(b, title, [][]draft.Fact{{{Name: draft.Unit, Value: "wheel"}, {Name: "extends", Value: n.Base.Name}}}, "")
	return c.Finish(n.Profile.Title+", norms", &draft.Surface{}, b, request.Left), nil
}

// readingNames lists the readings at the foot of the page, in at most so many lines.
func readingNames(n *reading.Norms, room geom.MM, most int) [][]draft.Word {
	names := slice.Map(n.Readings, func(r reading.Reading) string { return r.Name })
	lines := draft.Wrapped(draft.Note("readings: "+strings.Join(names, ", ")), room)
	if len(lines) > most {
		rest := draft.Note("")
		for _, line := range lines[most-1:] {
			rest.Text += line[0].Text + " "
		}
		lines = append(lines[:most-1], []draft.Word{draft.Truncated(rest, room)})
	}
	return lines
}

// normHeads writes the key and the headings of the columns.
func normHeads(b *draft.Surface, top geom.MM) {
	x, y := b.Space.Min.X, b.Space.Min.Y+2
	b.Line(draft.RuleLine().For("ticks", ""), draft.Pt(x, y), draft.Pt(x+8, y))
	for i, at := range []geom.MM{0, 4, 8} {
		b.Tick(draft.RuleLine().For("ticks", ""), draft.Pt(x+at, y), draft.Pt(0, []geom.MM{1, 2.4, 1}[i]))
	}
	b.Write("labels", draft.OneLine(draft.Note("range of the norms, the median ticked; a dot for each reading; under each row its own scale, "+
		"marked at round values; in red: far from all others, with its ±, and counted all the same")).MiddleAt(x+11, y, render.Start))
	for i, head := range []string{"n", "p10", "median", "p90", "usual ±", "range"} {
		b.Write("labels", draft.OneLine(draft.Note(head)).TopAt(normColumn(b, i), top-4.4, render.End))
	}
	b.Stroke(draft.RuleLine().For("ticks", ""), draft.Pt(b.Space.Min.X, top), draft.Pt(b.Space.Max.X, top))
}

// normColumn is where column i of the numbers ends.
func normColumn(b *draft.Surface, i int) geom.MM {
	return b.Space.Max.X - []geom.MM{78, 66, 53, 41, 27, 0}[i]
}
