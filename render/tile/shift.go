package tile

import (
	"cmp"
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
)

// shiftSteps is into how many steps the room beside a sheet is divided, along and up, to look for its best place on the grid.
const shiftSteps = 8

// measured is a large sheet with the extents of its marks.
type measured struct {
	all, words []draft.Extent
	bounds     draft.Box
}

// measure measures a sheet.
func measure(p render.Page) (out measured) {
	for i, m := range p.Marks {
		e := draft.ExtentOf(m)
		out.all = append(out.all, e)
		if _, ok := m.(*render.Text); ok {
			out.words = append(out.words, e)
		}
		if i == 0 {
			out.bounds = e.Box()
		}
		out.bounds = geom.BoxOf(out.bounds.Min, out.bounds.Max, e.Box().Min, e.Box().Max)
	}
	return out
}

// Fitted returns the grid without rows and columns that nothing is drawn on, and how far to move sheets on it, all alike so that they
// lie over each other when they are glued: to where they take the fewest tiles; of such places, to where the fewest words lie on seams,
// and as near as can be.
func (g Grid) Fitted(sheets []render.Page) (Grid, draft.Point) {
	var all []measured
	for _, p := range sheets {
		all = append(all, measure(p))
	}
	room := g.room(all)
	best, least := draft.Point{}, score{math.MaxInt, 0, 0}
	for i := range shiftSteps + 1 {
		for j := range shiftSteps + 1 {
			share := func(lo, hi geom.MM, n int) geom.MM { return lo + (hi-lo)*geom.MM(n)/shiftSteps }
			by := draft.Pt(share(room.Min.X, room.Max.X, i), share(room.Min.Y, room.Max.Y, j))
			if s := g.score(all, by); s.compare(least) < 0 {
				best, least = by, s
			}
		}
	}
	return g.trimmed(all, best)
}

// trimmed returns the grid without rows and columns that are blank when the sheets are moved, and how far to move them on it.
func (g Grid) trimmed(all []measured, by draft.Point) (Grid, draft.Point) {
	first, last := g.last(), Tile{}
	for _, t := range g.tiles() {
		if own := g.Own(t); slices.ContainsFunc(all, func(m measured) bool { return shows(m.all, moved(own, by.Times(-1))) }) {
			first = Tile{min(first.Column, t.Column), min(first.Row, t.Row)}
			last = Tile{max(last.Column, t.Column), max(last.Row, t.Row)}
		}
	}
	out := Grid{Paper: g.Paper, Columns: last.Column - first.Column + 1, Rows: last.Row - first.Row + 1}
	return out, by.Sub(draft.Pt(g.Step().X*geom.MM(first.Column), g.Step().Y*geom.MM(first.Row)))
}

// moved returns a box that is moved.
func moved(b draft.Box, by draft.Point) draft.Box {
	return draft.Box{Min: b.Min.Add(by), Max: b.Max.Add(by)}
}

// room is how far sheets can be moved, to every side.
func (g Grid) room(all []measured) draft.Box {
	inside := draft.Box{Max: draft.Pt(g.Whole().Width, g.Whole().Height)}.Grow(-draft.TileMargin)
	out := draft.Box{Min: draft.Pt(-inside.Max.X, -inside.Max.Y), Max: inside.Max}
	for _, m := range all {
		out.Min.X, out.Max.X = max(out.Min.X, min(0, inside.Min.X-m.bounds.Min.X)), min(out.Max.X, max(0, inside.Max.X-m.bounds.Max.X))
		out.Min.Y, out.Max.Y = max(out.Min.Y, min(0, inside.Min.Y-m.bounds.Min.Y)), min(out.Max.Y, max(0, inside.Max.Y-m.bounds.Max.Y))
	}
	return out
}

// score says how good a place on the grid is; less is better.
type score struct {
	tiles, onSeams int
	far            geom.MM
}

func (s score) compare(o score) int {
	return cmp.Or(cmp.Compare(s.tiles, o.tiles), cmp.Compare(s.onSeams, o.onSeams), cmp.Compare(s.far, o.far))
}

// score counts the tiles and the words on seams of sheets that are moved.
func (g Grid) score(all []measured, by draft.Point) score {
	out, seams := score{far: by.Len()}, g.Seams(by)
	for _, m := range all {
		for _, t := range g.tiles() {
			if shows(m.all, moved(g.Own(t), by.Times(-1))) {
				out.tiles++
			}
		}
		for _, w := range m.words {
			if !seams.Clear(w.Box()) {
				out.onSeams++
			}
		}
	}
	return out
}

// shows reports whether something is drawn in r.
func shows(marks []draft.Extent, r draft.Box) bool {
	for _, e := range marks {
		if e.Intersects(r) {
			return true
		}
	}
	return false
}

// Moved returns sheets moved on the grid; false where something would leave it.
func (g Grid) Moved(sheets []render.Page, by draft.Point) ([]render.Page, bool) {
	inside := draft.Box{Max: draft.Pt(g.Whole().Width, g.Whole().Height)}
	var out []render.Page
	for _, p := range sheets {
		b := measure(p).bounds
		if !inside.Contains(moved(b, by)) {
			return nil, false
		}
		marks := make([]render.Mark, 0, len(p.Marks))
		for _, m := range p.Marks {
			marks = append(marks, draft.Moved(m, 1, by))
		}
		p.Marks, p.Width, p.Height = marks, inside.Max.X, inside.Max.Y
		out = append(out, p)
	}
	return out, true
}
