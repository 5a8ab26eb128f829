package sheet

import (
	"fmt"
	"strconv"
	"strings"

	"hubrule/internal/geom"
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
