// Package tile cuts a finished page into tiles to be glued together, and marks where to cut and glue.
package tile

import (
	"fmt"
	"strconv"
	"strings"

	"hubrule/internal/geom"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// A tile's page holds its window on the large sheet, a ring round the window for marks and words about gluing, and a title block.
const (
	tileRing    geom.MM = 10 // left of the window, above it and right of it
	tileBand    geom.MM = 5  // between window and title block
	tileBlock   geom.MM = 17
	tileOverlap geom.MM = 10 // of two windows: enough for glue
	MostTiles           = 200
)

// Grid is how a large sheet is cut: into columns and rows of windows that overlap. The zero grid is one page that nothing is cut of.
type Grid struct {
	Paper         request.Paper // of a tile
	Columns, Rows int
}

// Tile is one window of a grid.
type Tile struct{ Column, Row int }

// Name returns the name of t: a letter for the row, A on top, and a number for the column.
func (t Tile) Name() string {
	letters := ""
	for n := t.Row + 1; n > 0; n = (n - 1) / 26 {
		letters = string(rune('A'+(n-1)%26)) + letters
	}
	return letters + strconv.Itoa(t.Column+1)
}

// tiles lists the tiles row by row.
func (g Grid) tiles() []Tile {
	var out []Tile
	for row := range g.Rows {
		for column := range g.Columns {
			out = append(out, Tile{column, row})
		}
	}
	return out
}

// Window returns the window on the page of a tile.
func (g Grid) Window() draft.Box {
	return draft.Box{
		Min: draft.Pt(tileRing, tileRing),
		Max: draft.Pt(g.Paper.Width-tileRing, g.Paper.Height-draft.PrinterEdge-tileBlock-tileBand),
	}
}

// Step returns how far apart the windows of neighbours begin.
func (g Grid) Step() draft.Point {
	w := g.Window()
	return draft.Pt(w.Width()-tileOverlap, w.Height()-tileOverlap)
}

// Whole returns the paper that all windows cover together.
func (g Grid) Whole() request.Paper {
	s := g.Step()
	return request.Paper{Name: g.Paper.Name, Width: s.X*geom.MM(g.Columns) + tileOverlap, Height: s.Y*geom.MM(g.Rows) + tileOverlap}
}

// view returns what of the large sheet stands in the window of t.
func (g Grid) view(t Tile) draft.Box {
	s, w := g.Step(), g.Window()
	at := draft.Pt(s.X*geom.MM(t.Column), s.Y*geom.MM(t.Row))
	return draft.Box{Min: at, Max: at.Add(draft.Pt(w.Width(), w.Height()))}
}

// Own returns what of the large sheet no other tile shows when t is missing: its window but for what the flaps of the neighbours
// on the left and above show too.
func (g Grid) Own(t Tile) draft.Box {
	b := g.view(t)
	if t.Column > 0 {
		b.Min.X += tileOverlap
	}
	if t.Row > 0 {
		b.Min.Y += tileOverlap
	}
	return b
}

// seamMargin is how far words keep off the overlap of two windows.
const seamMargin geom.MM = 1

// Seams returns where windows overlap on a sheet that will be moved on the grid.
func (g Grid) Seams(moved draft.Point) draft.Seams {
	zones := func(n int, step, by geom.MM) (out []draft.Zone) {
		for k := 1; k < n; k++ {
			at := step*geom.MM(k) - by
			out = append(out, draft.Zone{Lo: at - seamMargin, Hi: at + tileOverlap + seamMargin})
		}
		return out
	}
	return draft.Seams{X: zones(g.Columns, g.Step().X, moved.X), Y: zones(g.Rows, g.Step().Y, moved.Y)}
}

// Notes describes how many tiles a sheet takes, and which are left out.
func (c Cutting) Notes(blank []string) []string {
	g := c.Grid
	out := []string{fmt.Sprintf("%s: %d tiles of %s, %d across and %d down",
		c.Sheet.Title, g.Columns*g.Rows-len(blank), g.Paper.Name, g.Columns, g.Rows)}
	switch len(blank) {
	case 0:
		return out
	case 1:
		return append(out, "1 blank tile is left out: "+c.Prefix+blank[0])
	}
	return append(out, fmt.Sprintf("%d blank tiles are left out: %s", len(blank), c.Prefix+strings.Join(blank, ", "+c.Prefix)))
}
