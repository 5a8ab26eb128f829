package sheet

import (
	"fmt"
	jobs "hubrule/internal/job"
	"math"
	"strconv"
	"strings"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// A tile's page holds its window on the large sheet, a ring round the window for marks and words about gluing, and a strip.
const (
	tileRing    geom.MM = 10 // left of the window, above it and right of it
	tileBand    geom.MM = 5  // between window and strip
	tileStrip   geom.MM = 17
	tileOverlap geom.MM = 10 // of two windows: enough for glue
	mostTiles           = 200
)

// tileGrid is how a large sheet is cut: into columns and rows of windows that overlap. The zero grid is one page that nothing is cut of.
type tileGrid struct {
	paper         request.Paper // of a tile
	columns, rows int
}

// tile is one window of a grid.
type tile struct{ column, row int }

// name is what people call t: a letter for the row, A on top, and a number for the column.
func (t tile) name() string {
	letters := ""
	for n := t.row + 1; n > 0; n = (n - 1) / 26 {
		letters = string(rune('A'+(n-1)%26)) + letters
	}
	return letters + strconv.Itoa(t.column+1)
}

// window returns the window on the page of a tile.
func (g tileGrid) window() draft.Box {
	return draft.Box{
		Min: draft.Point{X: tileRing, Y: tileRing},
		Max: draft.Point{X: g.paper.Width - tileRing, Y: g.paper.Height - draft.PrinterEdge - tileStrip - tileBand},
	}
}

// step returns how far apart the windows of neighbours begin.
func (g tileGrid) step() draft.Point {
	w := g.window()
	return draft.Point{X: w.Width() - tileOverlap, Y: w.Height() - tileOverlap}
}

// whole returns the paper that all windows cover together.
func (g tileGrid) whole() request.Paper {
	s := g.step()
	return request.Paper{Name: g.paper.Name, Width: s.X*geom.MM(g.columns) + tileOverlap, Height: s.Y*geom.MM(g.rows) + tileOverlap}
}

// seen returns what of the large sheet stands in the window of t.
func (g tileGrid) seen(t tile) draft.Box {
	s, w := g.step(), g.window()
	at := draft.Point{X: s.X * geom.MM(t.column), Y: s.Y * geom.MM(t.row)}
	return draft.Box{Min: at, Max: at.Add(draft.Point{X: w.Width(), Y: w.Height()})}
}

// own returns what of the large sheet no other tile shows when t is missing: its window but for what the flaps of the neighbours
// on the left and above show too.
func (g tileGrid) own(t tile) draft.Box {
	b := g.seen(t)
	if t.column > 0 {
		b.Min.X += tileOverlap
	}
	if t.row > 0 {
		b.Min.Y += tileOverlap
	}
	return b
}

// composeTiles is Compose for sheets that are cut into tiles.
func (job driver) composeTiles() (render.Document, request.Messages, error) {
	doc := render.Document{Title: job.Title()}
	var told request.Messages
	if err := jobs.Check(job.Request); err != nil {
		return doc, told, err
	}
	sheets := 0
	for _, l := range job.largeSheets() {
		if l.wheel < leastWheel {
			return doc, told, fmt.Errorf("%s: a wheel of %s on paper is too small to draw; want at least %s", l.name, draft.OnPaper(l.wheel), draft.OnPaper(leastWheel))
		}
		grid, pages, ok := job.place(l)
		if !ok {
			return doc, told, job.tooManyTiles(l)
		}
		told.Warnings = append(told.Warnings, job.tooFine(l.name, l.wheel)...)
		for _, page := range pages {
			sheets++
			if grid.columns == 0 {
				doc.Pages = append(doc.Pages, page)
				told.Notes = append(told.Notes, fmt.Sprintf("%s: one page of %s holds it; nothing to glue", page.Title, job.Setting.Paper.Name))
				continue
			}
			c := cutting{grid: grid, sheet: page, wheel: l.wheel, scale: l.scale(), inks: draft.InksOf(job.Ink(request.Full))}
			if total := job.sheetCount(); total > 1 {
				c.prefix, c.number = fmt.Sprintf("%d-", sheets), fmt.Sprintf("sheet %d of %d, ", sheets, total)
			}
			tiles, blank := c.pages()
			doc.Pages = append(doc.Pages, tiles...)
			told.Notes = append(told.Notes, c.notes(blank)...)
		}
	}
	job.Setting.Tile = len(doc.Pages) > sheets // what fits on a page is that page
	doc.About = job.about()
	return doc, told, nil
}

// notes tells how many tiles a sheet takes, and which are left out.
func (c cutting) notes(blank []string) []string {
	g := c.grid
	out := []string{fmt.Sprintf("%s: %d tiles of %s, %d across and %d down", c.sheet.Title, g.columns*g.rows-len(blank), g.paper.Name, g.columns, g.rows)}
	switch len(blank) {
	case 0:
		return out
	case 1:
		return append(out, "1 blank tile is left out: "+c.prefix+blank[0])
	}
	return append(out, fmt.Sprintf("%d blank tiles are left out: %s", len(blank), c.prefix+strings.Join(blank, ", "+c.prefix)))
}

// tooManyTiles is the error when a sheet takes more tiles than anybody would glue; it says which scale does not.
func (job driver) tooManyTiles(l largeSheet) error {
	what := fmt.Sprintf("%s takes more than %d tiles of %s with a wheel of %s", l.name, mostTiles, job.Setting.Paper.Name, draft.OnPaper(l.wheel))
	for smaller := job; ; {
		s, said := nextSmaller(smaller.Setting.Scale)
		smaller.Setting.Scale = s
		all := smaller.largeSheets()
		if all[0].wheel < leastWheel {
			return fmt.Errorf("%s; use larger paper", what)
		}
		fits := true
		for _, l := range all {
			_, _, ok := smaller.place(l)
			fits = fits && ok
		}
		if fits {
			return fmt.Errorf("%s; --scale %s takes fewer", what, said)
		}
	}
}

// nextSmaller returns the next smaller scale worth saying, and how it is said.
func nextSmaller(s request.Scale) (request.Scale, string) {
	if s.Wheel > 0 {
		wheel := math.Floor(float64(s.Wheel) * .97)
		return request.Scale{Wheel: geom.MM(wheel)}, fmt.Sprintf("wheel=%gmm", wheel)
	}
	n := math.Ceil(max(s.Reduction*1.03, s.Reduction+.01)*10) / 10
	return request.Scale{Reduction: n}, fmt.Sprintf("1:%g", n)
}
