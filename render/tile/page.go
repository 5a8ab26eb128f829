package tile

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// guide is the layer of what a tile has besides its part of the large sheet: marks to cut and glue by, and its strip.
const guide = request.Tile

// Cutting is one large sheet being cut into tiles.
type Cutting struct {
	Grid   Grid
	Sheet  render.Page
	Wheel  geom.MM // on paper
	Scale  string
	Inks   draft.Inks // of the tiles' own marks
	Prefix string     // of the labels of pages, where a request has several sheets
	Number string     // which sheet of how many, where a request has several
}

// Pages cuts the sheet, row by row, and names the tiles that nothing is drawn on.
func (c Cutting) Pages() (pages []render.Page, blank []string) {
	extents := make([]draft.Extent, len(c.Sheet.Marks))
	for i, m := range c.Sheet.Marks {
		extents[i] = draft.ExtentOf(m)
	}
	var tiles []Tile
	drawn := map[Tile]bool{}
	for row := range c.Grid.Rows {
		for column := range c.Grid.Columns {
			t := Tile{column, row}
			if touchesAny(extents, c.Grid.Own(t)) {
				tiles, drawn[t] = append(tiles, t), true
			} else {
				blank = append(blank, t.Name())
			}
		}
	}
	for i, t := range tiles {
		var marks []render.Mark
		seen, window := c.Grid.view(t), c.Grid.Window()
		for k, m := range c.Sheet.Marks {
			if extents[k].Intersects(seen) {
				marks = append(marks, draft.Moved(m, 1, window.Min.Sub(seen.Min)))
			}
		}
		own := &draft.Surface{Space: draft.Box{Max: draft.Pt(c.Grid.Paper.Width, c.Grid.Paper.Height)}.Grow(-draft.PrinterEdge), Inks: c.Inks}
		c.cuts(own, t, drawn)
		c.flaps(own, t, drawn)
		c.strip(own, t, fmt.Sprintf("tile %d of %d", i+1, len(tiles)), i == 0, drawn)
		marks = append(marks, own.Marks...)
		pages = append(pages, render.Page{Width: c.Grid.Paper.Width, Height: c.Grid.Paper.Height, Title: c.Sheet.Title + ", " + t.Name(),
			Label: c.Prefix + t.Name(), Clip: &window, Guides: draft.GuidesOf(marks), Marks: marks})
	}
	return pages, blank
}

// touchesAny reports whether something of the sheet lies in r.
func touchesAny(extents []draft.Extent, r draft.Box) bool {
	for _, e := range extents {
		if e.Intersects(r) {
			return true
		}
	}
	return false
}

// cuts marks the ends of each edge that has to go, outside the window: a line all along it would be left in part beside a joint.
// Tiles are laid on each other row by row, so an edge is cut where it would lie on what an earlier tile shows.
func (c Cutting) cuts(b *draft.Surface, t Tile, drawn map[Tile]bool) {
	w, page := c.Grid.Window(), b.Space
	at := func(column, row int) bool { return drawn[Tile{t.Column + column, t.Row + row}] }
	upright := func(id string, x, words geom.MM, on Tile) {
		b.Stroke(cutLine().For(guide, id), draft.Pt(x, w.Min.Y), draft.Pt(x, page.Min.Y))
		b.Stroke(cutLine().For(guide, ""), draft.Pt(x, w.Max.Y), draft.Pt(x, w.Max.Y+tileBand))
		upwards(b, fitting(w.Height(), cutTexts(drawn[on], on)), draft.Pt(words, (w.Min.Y+w.Max.Y)/2))
	}
	if at(-1, 0) || at(-1, -1) {
		upright("cut-left", w.Min.X, w.Min.X-tileBand/2, Tile{t.Column - 1, t.Row})
	}
	if at(1, -1) && !at(1, 0) {
		upright("cut-right", w.Max.X, w.Max.X+tileBand/2, Tile{t.Column + 1, t.Row})
	}
	if at(-1, -1) || at(0, -1) || at(1, -1) {
		above := Tile{t.Column, t.Row - 1}
		b.Stroke(cutLine().For(guide, "cut-top"), draft.Pt(w.Min.X, w.Min.Y), draft.Pt(page.Min.X, w.Min.Y))
		b.Stroke(cutLine().For(guide, ""), draft.Pt(w.Max.X, w.Min.Y), draft.Pt(page.Max.X, w.Min.Y))
		across(b, fitting(w.Width(), cutTexts(drawn[above], above)), draft.Pt((w.Min.X+w.Max.X)/2, w.Min.Y-tileBand/2))
	}
}

// cutTexts describes how to cut an edge, and which tile it goes on if there is one; from long to short.
func cutTexts(there bool, on Tile) []string {
	const cut = "cut from dashed mark to dashed mark"
	if there {
		return []string{cut + "; this edge goes on " + on.Name(), "cut; this edge goes on " + on.Name(), "cut"}
	}
	return []string{cut, "cut"}
}

// glueTexts describes what goes on a flap; from long to short.
func glueTexts(t Tile) []string {
	return []string{"glue " + t.Name() + " here, its cut edge on the heavy ticks", "glue " + t.Name() + " on the ticks", t.Name()}
}

// fitting returns the first of the wordings that a side of the window holds between the flaps at its ends, else the last.
func fitting(side geom.MM, wordings []string) draft.Word {
	for _, s := range wordings {
		if w := draft.Name(s); draft.OneLine(w).Width <= side-2*tileOverlap-2 {
			return w
		}
	}
	return draft.Name(wordings[len(wordings)-1])
}

// flaps marks the ends of the overlap that the next tile is glued on, and with heavy ticks where its cut edge comes to lie.
func (c Cutting) flaps(b *draft.Surface, t Tile, drawn map[Tile]bool) {
	w := c.Grid.Window()
	if right := (Tile{t.Column + 1, t.Row}); drawn[right] {
		for _, y := range []geom.MM{w.Min.Y - tileBand, w.Max.Y} {
			flap(b, draft.Box{Min: draft.Pt(w.Max.X-tileOverlap, y), Max: draft.Pt(w.Max.X, y+tileBand)})
			b.Stroke(jointLine().For(guide, ""), draft.Pt(w.Max.X-tileOverlap, y), draft.Pt(w.Max.X-tileOverlap, y+tileBand))
		}
		upwards(b, fitting(w.Height(), glueTexts(right)), draft.Pt(w.Max.X+tileBand/2, (w.Min.Y+w.Max.Y)/2))
	}
	if below := (Tile{t.Column, t.Row + 1}); drawn[below] {
		for _, x := range []geom.MM{w.Min.X - tileBand, w.Max.X} {
			flap(b, draft.Box{Min: draft.Pt(x, w.Max.Y-tileOverlap), Max: draft.Pt(x+tileBand, w.Max.Y)})
			b.Stroke(jointLine().For(guide, ""), draft.Pt(x, w.Max.Y-tileOverlap), draft.Pt(x+tileBand, w.Max.Y-tileOverlap))
		}
		across(b, fitting(w.Width(), glueTexts(below)), draft.Pt((w.Min.X+w.Max.X)/2, w.Max.Y+tileBand/2))
	}
}

func cutLine() draft.LineStyle   { return draft.NewLineStyle(draft.Narrow, draft.Strong, 4, 2) }
func jointLine() draft.LineStyle { return draft.NewLineStyle(draft.Wide, draft.Strong) }

// flap marks one end of the overlap that the next tile is glued on: hatched.
func flap(b *draft.Surface, r draft.Box) {
	r = r.Grow(-.5)
	at := func(x, y geom.MM) draft.Point { return draft.Pt(x, y) }
	if r.Width() > r.Height() {
		for x := r.Min.X; x+r.Height() <= r.Max.X+draft.Hair; x += 2 {
			b.Stroke(draft.TickLine().For(guide, ""), at(x, r.Max.Y), at(x+r.Height(), r.Min.Y))
		}
		return
	}
	for y := r.Min.Y; y+r.Width() <= r.Max.Y+draft.Hair; y += 2 {
		b.Stroke(draft.TickLine().For(guide, ""), at(r.Min.X, y+r.Width()), at(r.Max.X, y))
	}
}

// across writes words on the middle of a line across the page.
func across(b *draft.Surface, w draft.Word, middle draft.Point) {
	l := draft.OneLine(w)
	b.Write(guide, l.TopAt(middle.X, middle.Y-l.Height/2, render.Middle))
}

// upwards writes words on the middle of a line up the page.
func upwards(b *draft.Surface, w draft.Word, middle draft.Point) {
	l := draft.OneLine(w)
	b.Marks = append(b.Marks, &render.Text{Tagged: render.Tagged{Guide: string(guide)},
		At:     draft.Pt(middle.X-l.Height/2+l.Baselines[0], middle.Y),
		Anchor: render.Middle, Angle: 90,
		Spans: []render.Span{{Text: w.Text, Height: w.Height, Weight: w.Weight, Ink: b.Inks.Colours[w.Role]}}})
}
