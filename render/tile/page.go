package tile

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// guide is the layer of what a tile has besides its part of the large sheet: marks to cut and glue by, and its title block.
const guide = request.Tile

// Cutting is one large sheet being cut into tiles.
type Cutting struct {
	Grid   Grid
	Sheet  render.Page
	Wheel  geom.MM // on paper
	Scale  string
	Title  draft.Caption // of the sheet
	Facts  [][]draft.Fact
	Inks   draft.Inks // of the tiles' own marks
	Prefix string     // of the labels of pages, where a request has several sheets
	Number string     // which sheet of how many, where a request has several
}

// tilePage is the page of one tile being drawn: the marks that it has besides its part of the large sheet.
type tilePage struct {
	Cutting
	*draft.Surface
	tile   Tile
	drawn  map[Tile]bool // the tiles that are not blank
	window draft.Box
}

// Pages cuts the sheet, row by row, and names the tiles that nothing is drawn on.
func (c Cutting) Pages() (pages []render.Page, blank []string) {
	extents := slice.Map(c.Sheet.Marks, draft.ExtentOf)
	var tiles []Tile
	drawn := map[Tile]bool{}
	for _, t := range c.Grid.tiles() {
		own := c.Grid.Own(t)
		if shows(extents, own) {
			tiles, drawn[t] = append(tiles, t), true
		} else {
			blank = append(blank, t.Name())
		}
	}
	paper, window := c.Grid.Paper, c.Grid.Window()
	for i, t := range tiles {
		var marks []render.Mark
		seen := c.Grid.view(t)
		for k, m := range c.Sheet.Marks {
			if extents[k].Intersects(seen) {
				marks = append(marks, draft.Moved(m, 1, window.Min.Sub(seen.Min)))
			}
		}
		space := draft.Box{Max: draft.Pt(paper.Width, paper.Height)}.Grow(-draft.PrinterEdge)
		own := tilePage{c, &draft.Surface{Space: space, Inks: c.Inks}, t, drawn, window}
		own.cuts()
		own.flaps()
		own.titleBlock(fmt.Sprintf("tile %d of %d", i+1, len(tiles)), i == 0)
		marks = append(marks, own.Marks...)
		pages = append(pages, render.Page{Width: paper.Width, Height: paper.Height,
			Title: c.Sheet.Title + ", " + t.Name(), Wheel: c.Sheet.Wheel, Label: c.Prefix + t.Name(),
			Clip: &window, Guides: draft.GuidesOf(marks), Marks: marks})
	}
	return pages, blank
}

// cuts marks the ends of each edge that has to go, outside the window: a line all along it would be left in part beside a joint.
// Tiles are laid on each other row by row, so an edge is cut where it would lie on what an earlier tile shows.
func (p tilePage) cuts() {
	w, t, k := p.window, p.tile, draft.NewLineStyle(draft.Narrow, draft.Strong, 4, 2)
	at := func(column, row int) bool { return p.drawn[Tile{t.Column + column, t.Row + row}] }
	upright := func(id string, x, words geom.MM, on Tile) {
		p.Stroke(k.For(guide, id), draft.Pt(x, w.Min.Y), draft.Pt(x, p.Space.Min.Y))
		p.Stroke(k.For(guide, ""), draft.Pt(x, w.Max.Y), draft.Pt(x, w.Max.Y+tileBand))
		p.upwards(words, p.cutTexts(on))
	}
	if at(-1, 0) || at(-1, -1) {
		upright("cut-left", w.Min.X, w.Min.X-tileBand/2, Tile{t.Column - 1, t.Row})
	}
	if at(1, -1) && !at(1, 0) {
		upright("cut-right", w.Max.X, w.Max.X+tileBand/2, Tile{t.Column + 1, t.Row})
	}
	if at(-1, -1) || at(0, -1) || at(1, -1) {
		p.Stroke(k.For(guide, "cut-top"), draft.Pt(w.Min.X, w.Min.Y), draft.Pt(p.Space.Min.X, w.Min.Y))
		p.Stroke(k.For(guide, ""), draft.Pt(w.Max.X, w.Min.Y), draft.Pt(p.Space.Max.X, w.Min.Y))
		p.across(w.Min.Y-tileBand/2, p.cutTexts(Tile{t.Column, t.Row - 1}))
	}
}

// cutTexts describes how to cut an edge, and which tile it goes on if there is one; from long to short.
func (p tilePage) cutTexts(on Tile) []string {
	const cut = "cut from dashed mark to dashed mark"
	if p.drawn[on] {
		return []string{cut + "; this edge goes on " + on.Name(), "cut; this edge goes on " + on.Name(), "cut"}
	}
	return []string{cut, "cut"}
}

// glueTexts describes what goes on a flap; from long to short.
func glueTexts(t Tile) []string {
	return []string{"glue " + t.Name() + " here, its cut edge on the heavy ticks", "glue " + t.Name() + " on the ticks", t.Name()}
}

// flaps marks the ends of the overlap that the next tile is glued on, and with heavy ticks where its cut edge comes to lie.
func (p tilePage) flaps() {
	w, joint := p.window, draft.NewLineStyle(draft.Wide, draft.Strong).For(guide, "")
	if right := (Tile{p.tile.Column + 1, p.tile.Row}); p.drawn[right] {
		for _, y := range []geom.MM{w.Min.Y - tileBand, w.Max.Y} {
			flap := draft.Box{Min: draft.Pt(w.Max.X-tileOverlap, y), Max: draft.Pt(w.Max.X, y+tileBand)}
			p.hatch(flap)
			p.Stroke(joint, flap.Min, draft.Pt(flap.Min.X, flap.Max.Y))
		}
		p.upwards(w.Max.X+tileBand/2, glueTexts(right))
	}
	if below := (Tile{p.tile.Column, p.tile.Row + 1}); p.drawn[below] {
		for _, x := range []geom.MM{w.Min.X - tileBand, w.Max.X} {
			flap := draft.Box{Min: draft.Pt(x, w.Max.Y-tileOverlap), Max: draft.Pt(x+tileBand, w.Max.Y)}
			p.hatch(flap)
			p.Stroke(joint, flap.Min, draft.Pt(flap.Max.X, flap.Min.Y))
		}
		p.across(w.Max.Y+tileBand/2, glueTexts(below))
	}
}

// hatch hatches one end of the overlap that the next tile is glued on.
func (p tilePage) hatch(r draft.Box) {
	r = r.Grow(-.5)
	short := min(r.Width(), r.Height())
	for from := r.Min; from.X+short <= r.Max.X+draft.Hair && from.Y+short <= r.Max.Y+draft.Hair; {
		p.Stroke(draft.TickLine().For(guide, ""), draft.Pt(from.X, from.Y+short), draft.Pt(from.X+short, from.Y))
		if r.Width() > r.Height() {
			from.X += 2
		} else {
			from.Y += 2
		}
	}
}

// longest returns the first of the wordings that a side of the window holds between the flaps at its ends, else the last.
func longest(side geom.MM, wordings []string) draft.Word {
	if line := fitted(side-2*tileOverlap-2, draft.Name, wordings...); line != nil {
		return line[0]
	}
	return draft.Name(wordings[len(wordings)-1])
}

// across writes one of the wordings about y on the middle of the window's width.
func (p tilePage) across(y geom.MM, wordings []string) {
	l := draft.OneLine(longest(p.window.Width(), wordings))
	p.Write(guide, l.TopAt((p.window.Min.X+p.window.Max.X)/2, y-l.Height/2, render.Middle))
}

// upwards writes one of the wordings about x up the middle of the window's height.
func (p tilePage) upwards(x geom.MM, wordings []string) {
	w := longest(p.window.Height(), wordings)
	l := draft.OneLine(w)
	p.Marks = append(p.Marks, &render.Text{Tagged: render.Tagged{Guide: string(guide)},
		At:     draft.Pt(x-l.Height/2+l.Baselines[0], (p.window.Min.Y+p.window.Max.Y)/2),
		Anchor: render.Middle, Angle: 90,
		Spans: []render.Span{{Text: w.Text, Height: w.Height, Weight: w.Weight, Ink: p.Surface.Inks.Colours[w.Role]}}})
}
