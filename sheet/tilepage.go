package sheet

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/request"
)

// tileGuide is the layer of what a tile has besides its part of the large sheet: marks to cut and glue by, and its strip.
const tileGuide request.Guide = "tile"

// cutting is one large sheet being cut into tiles.
type cutting struct {
	grid   tileGrid
	sheet  render.Page
	wheel  geom.MM // on paper
	scale  string
	inks   inkSet // of the tiles' own marks
	prefix string // of the labels of pages, where a job has several sheets
	number string // which sheet of how many, where a job has several
}

// pages cuts the sheet, row by row, and names the tiles that nothing is drawn on.
func (c cutting) pages() (pages []render.Page, blank []string) {
	extents := make([]extent, len(c.sheet.Marks))
	for i, m := range c.sheet.Marks {
		extents[i] = extentOf(m)
	}
	var tiles []tile
	drawn := map[tile]bool{}
	for row := range c.grid.rows {
		for column := range c.grid.columns {
			t := tile{column, row}
			if reached(extents, c.grid.own(t)) {
				tiles, drawn[t] = append(tiles, t), true
			} else {
				blank = append(blank, t.name())
			}
		}
	}
	for i, t := range tiles {
		var marks []render.Mark
		seen, window := c.grid.seen(t), c.grid.window()
		for k, m := range c.sheet.Marks {
			if extents[k].reaches(seen) {
				marks = append(marks, carried(m, 1, window.Min.Sub(seen.Min)))
			}
		}
		own := &board{space: box{Max: point{X: c.grid.paper.Width, Y: c.grid.paper.Height}}.Grow(-printerEdge), inks: c.inks}
		c.cuts(own, t, drawn)
		c.flaps(own, t, drawn)
		c.strip(own, t, fmt.Sprintf("tile %d of %d", i+1, len(tiles)), i == 0, drawn)
		marks = append(marks, own.marks...)
		pages = append(pages, render.Page{Width: c.grid.paper.Width, Height: c.grid.paper.Height, Title: c.sheet.Title + ", " + t.name(),
			Label: c.prefix + t.name(), Clip: &window, Guides: layers(marks), Marks: marks})
	}
	return pages, blank
}

// reached reports whether something of the sheet lies in r.
func reached(extents []extent, r box) bool {
	for _, e := range extents {
		if e.reaches(r) {
			return true
		}
	}
	return false
}

// cuts marks the ends of each edge that has to go, outside the window: a line all along it would be left in part beside a joint.
// Tiles are laid on each other row by row, so an edge is cut where it would lie on what an earlier tile shows.
func (c cutting) cuts(b *board, t tile, drawn map[tile]bool) {
	w, page := c.grid.window(), b.space
	at := func(column, row int) bool { return drawn[tile{t.column + column, t.row + row}] }
	upright := func(id string, x, words geom.MM, on tile) {
		b.hairline(tileGuide, id, cutLine(), point{X: x, Y: w.Min.Y}, point{X: x, Y: page.Min.Y})
		b.hairline(tileGuide, "", cutLine(), point{X: x, Y: w.Max.Y}, point{X: x, Y: w.Max.Y + tileBand})
		b.upwards(fitting(w.Height(), cutWords(drawn[on], on)), point{X: words, Y: (w.Min.Y + w.Max.Y) / 2})
	}
	if at(-1, 0) || at(-1, -1) {
		upright("cut-left", w.Min.X, w.Min.X-tileBand/2, tile{t.column - 1, t.row})
	}
	if at(1, -1) && !at(1, 0) {
		upright("cut-right", w.Max.X, w.Max.X+tileBand/2, tile{t.column + 1, t.row})
	}
	if at(-1, -1) || at(0, -1) || at(1, -1) {
		above := tile{t.column, t.row - 1}
		b.hairline(tileGuide, "cut-top", cutLine(), point{X: w.Min.X, Y: w.Min.Y}, point{X: page.Min.X, Y: w.Min.Y})
		b.hairline(tileGuide, "", cutLine(), point{X: w.Max.X, Y: w.Min.Y}, point{X: page.Max.X, Y: w.Min.Y})
		b.across(fitting(w.Width(), cutWords(drawn[above], above)), point{X: (w.Min.X + w.Max.X) / 2, Y: w.Min.Y - tileBand/2})
	}
}

// cutWords says what to do with an edge, and what it goes on where a tile is there; the shorter the later.
func cutWords(there bool, on tile) []string {
	const cut = "cut from dashed mark to dashed mark"
	if there {
		return []string{cut + "; this edge goes on " + on.name(), "cut; this edge goes on " + on.name(), "cut"}
	}
	return []string{cut, "cut"}
}

// glueWords says what goes on a flap; the shorter the later.
func glueWords(t tile) []string {
	return []string{"glue " + t.name() + " here, its cut edge on the heavy ticks", "glue " + t.name() + " on the ticks", t.name()}
}

// fitting returns the first of the wordings that a side of the window holds between the flaps at its ends, else the last.
func fitting(side geom.MM, wordings []string) word {
	for _, s := range wordings {
		if w := name(s); newLabel([]word{w}).width <= side-2*tileOverlap-2 {
			return w
		}
	}
	return name(wordings[len(wordings)-1])
}

// flaps marks the ends of the overlap that the next tile is glued on, and with heavy ticks where its cut edge comes to lie.
func (c cutting) flaps(b *board, t tile, drawn map[tile]bool) {
	w := c.grid.window()
	if right := (tile{t.column + 1, t.row}); drawn[right] {
		for _, y := range []geom.MM{w.Min.Y - tileBand, w.Max.Y} {
			b.flap(box{Min: point{X: w.Max.X - tileOverlap, Y: y}, Max: point{X: w.Max.X, Y: y + tileBand}})
			b.hairline(tileGuide, "", jointLine(), point{X: w.Max.X - tileOverlap, Y: y}, point{X: w.Max.X - tileOverlap, Y: y + tileBand})
		}
		b.upwards(fitting(w.Height(), glueWords(right)), point{X: w.Max.X + tileBand/2, Y: (w.Min.Y + w.Max.Y) / 2})
	}
	if below := (tile{t.column, t.row + 1}); drawn[below] {
		for _, x := range []geom.MM{w.Min.X - tileBand, w.Max.X} {
			b.flap(box{Min: point{X: x, Y: w.Max.Y - tileOverlap}, Max: point{X: x + tileBand, Y: w.Max.Y}})
			b.hairline(tileGuide, "", jointLine(), point{X: x, Y: w.Max.Y - tileOverlap}, point{X: x + tileBand, Y: w.Max.Y - tileOverlap})
		}
		b.across(fitting(w.Width(), glueWords(below)), point{X: (w.Min.X + w.Max.X) / 2, Y: w.Max.Y + tileBand/2})
	}
}

func cutLine() lineKind   { return lineKind{narrow, []float64{4, 2}, strong} }
func jointLine() lineKind { return lineKind{wide, nil, strong} }

// flap marks one end of the overlap that the next tile is glued on: hatched.
func (b *board) flap(r box) {
	r = r.Grow(-.5)
	at := func(x, y geom.MM) point { return point{X: x, Y: y} }
	if r.Width() > r.Height() {
		for x := r.Min.X; x+r.Height() <= r.Max.X+hair; x += 2 {
			b.hairline(tileGuide, "", tickLine(), at(x, r.Max.Y), at(x+r.Height(), r.Min.Y))
		}
		return
	}
	for y := r.Min.Y; y+r.Width() <= r.Max.Y+hair; y += 2 {
		b.hairline(tileGuide, "", tickLine(), at(r.Min.X, y+r.Width()), at(r.Max.X, y))
	}
}

// across writes words on the middle of a line across the page.
func (b *board) across(w word, middle point) {
	l := newLabel([]word{w})
	b.write(tileGuide, l, middle.X, middle.Y-l.height/2, render.Middle)
}

// upwards writes words on the middle of a line up the page.
func (b *board) upwards(w word, middle point) {
	l := newLabel([]word{w})
	b.marks = append(b.marks, &render.Text{Tagged: render.Tagged{Guide: string(tileGuide)}, At: point{X: middle.X - l.height/2 + l.baselines[0], Y: middle.Y}, Anchor: render.Middle, Angle: 90,
		Spans: []render.Span{{Text: w.text, Height: w.height, Weight: w.weight, Ink: b.inks.colours[w.role]}}})
}
