package tile

import (
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
)

// strip draws the strip of tile t: its name, what it is a part of, on the first tile how all lie together, and a check bar.
func (c Cutting) strip(b *draft.Surface, t Tile, which string, first bool, drawn map[Tile]bool) {
	w := c.Grid.Window()
	top := b.Space.Max.Y - tileStrip
	b.Stroke(draft.TitleBlockLine().For(guide, ""), draft.Pt(w.Min.X, top), draft.Pt(w.Max.X, top))
	bar, actual := draft.Pt(w.Max.X-draft.BarLength, top+9), draft.Canvas{Enlargement: 1}
	actual.CheckBar(b, guide, bar)
	b.Write(guide, actual.Advice(0).TopAt(bar.X, bar.Y+2.2, render.Start))
	tag := draft.OneLine(draft.Heading(t.Name(), 7))
	b.Write(guide, tag.TopAt(w.Min.X, top+2, render.Start))
	left, right := w.Min.X+tag.Width+5, w.Max.X-draft.BarLength-6
	mapped := draft.Box{}
	if first {
		mapped = c.mapBox(draft.Pt(right, top+.75), (right-left)*.4)
		right = mapped.Min.X - 4
		if c.mapLettering(mapped.Width()) == 0 { // names stand beside it
			shift := draft.Point{X: mapNameWidth}
			mapped.Min, mapped.Max, right = mapped.Min.Sub(shift), mapped.Max.Sub(shift), right-2*mapNameWidth
		}
	}
	wheel := "wheel " + draft.FormatMM(c.Wheel)
	l := draft.NewLabel(draft.HeadingLabel(c.Sheet.Title, "", right-left).Lines[0],
		fitted(right-left, c.Number+which, which, strings.TrimPrefix(which, "tile ")),
		fitted(right-left, "wheel on paper "+draft.FormatMM(c.Wheel)+", scale "+c.Scale, wheel+", "+c.Scale, wheel))
	b.Write(guide, l.TopAt(left, top+1.6, render.Start))
	if !first {
		return
	}
	if how := howToGlue(len(drawn) < c.Grid.Columns*c.Grid.Rows); left+l.Width+8+how.Width <= right-8 {
		b.Write(guide, how.TopAt(right-8-how.Width, top+1.8, render.Start))
	}
	c.assembly(b, mapped, drawn)
}

// fitted returns the first of the wordings that fits the room, or no words.
func fitted(room geom.MM, wordings ...string) []draft.Word {
	for _, s := range wordings {
		if w := draft.Note(s); draft.OneLine(w).Width <= room {
			return []draft.Word{w}
		}
	}
	return nil
}

// howToGlue describes how to join the tiles.
func howToGlue(crossed bool) draft.Label {
	last := "  then row under row"
	if crossed {
		last += "; plain paper for crossed ones"
	}
	return draft.NewLabel(
		[]draft.Word{draft.Value("1"), draft.Note("  cut from dashed mark to dashed mark")},
		[]draft.Word{draft.Value("2"), draft.Note("  glue row by row, cut edge on the heavy ticks")},
		[]draft.Word{draft.Value("3"), draft.Note(last)})
}

// mapBox returns the place of the assembly map: as high as the strip, or no wider than room, ending on the right at corner.
func (c Cutting) mapBox(corner draft.Point, room geom.MM) draft.Box {
	whole := c.Grid.Whole()
	k := min((tileStrip-1.5)/whole.Height, room/whole.Width)
	size := draft.Pt(whole.Width*k, whole.Height*k)
	at := draft.Pt(corner.X-size.X, corner.Y+(tileStrip-1.5-size.Y)/2)
	return draft.Box{Min: at, Max: at.Add(size)}
}

// assembly draws the map of all tiles: the large sheet's main lines, the tiles by name, crossed where one is left out.
func (c Cutting) assembly(b *draft.Surface, r draft.Box, drawn map[Tile]bool) {
	whole, step := c.Grid.Whole(), c.Grid.Step()
	k, lettering := r.Width()/whole.Width, c.mapLettering(r.Width())
	for _, m := range c.Sheet.Marks {
		if slices.Contains(MappedIDs(), m.Tag().ID) {
			b.Marks = append(b.Marks, onMap(draft.Moved(m, float64(k), r.Min), c.Inks.Colours[draft.Soft]))
		}
	}
	for row := range c.Grid.Rows {
		for column := range c.Grid.Columns {
			t := Tile{column, row}
			at := r.Min.Add(draft.Pt(step.X*geom.MM(column)*k, step.Y*geom.MM(row)*k))
			cell := draft.Box{Min: at, Max: at.Add(draft.Pt(step.X*k, step.Y*k))}
			if column == c.Grid.Columns-1 {
				cell.Max.X = r.Max.X
			}
			if row == c.Grid.Rows-1 {
				cell.Max.Y = r.Max.Y
			}
			mapCell(b, t, cell, lettering, drawn[t])
		}
	}
	if lettering == 0 { // the names of the first and the last tile, beside it, imply those of the others
		l := draft.OneLine(draft.Name("A1"))
		b.Write(guide, l.TopAt(r.Min.X-1, r.Min.Y-.4, render.End))
		l = draft.OneLine(draft.Name(c.Grid.last().Name()))
		b.Write(guide, l.TopAt(r.Max.X+1, r.Max.Y-l.Height+.4, render.Start))
	}
}

// last is the tile at the lower right.
func (g Grid) last() Tile { return Tile{g.Columns - 1, g.Rows - 1} }

// mapLettering returns how high the names of the tiles are on a map as wide as given, or 0 where they find no room.
func (c Cutting) mapLettering(width geom.MM) geom.MM {
	k, step := width/c.Grid.Whole().Width, c.Grid.Step()
	for _, height := range []geom.MM{draft.Small, mapSmall} {
		if l := mapName(c.Grid.last().Name(), height); l.Width+.6 <= step.X*k && cellHeights*height <= step.Y*k {
			return height
		}
	}
	return 0
}

// lowest is the smallest height of lettering in ISO 3098 (MEM): only for names on the map, where tiles are many.
const mapSmall geom.MM = 1.8

// mapNamed is the room beside a map for the name of a tile.
const mapNameWidth geom.MM = 4

// roomy is how many times as high as its name a cell of the map is at least.
const cellHeights = 1.7

// mapName is the name of a tile on the map.
func mapName(s string, height geom.MM) draft.Label {
	return draft.OneLine(draft.Word{Text: s, Height: height, Weight: render.Regular, Role: draft.Words})
}

// mapCell draws one tile of the map, with its name where lettering is not 0.
func mapCell(b *draft.Surface, t Tile, r draft.Box, lettering geom.MM, drawn bool) {
	path := render.Path{}.Move(r.Min).Line(draft.Pt(r.Max.X, r.Min.Y)).Line(r.Max).Line(draft.Pt(r.Min.X, r.Max.Y)).Close()
	b.Marks = append(b.Marks, &render.Stroke{
		Tagged: render.Tagged{Guide: string(guide), ID: "map-" + t.Name()}, Path: path, Pen: b.Pen(draft.TickLine())})
	if !drawn {
		b.Stroke(counting.DetailLine().For(guide, ""), r.Min, r.Max)
		b.Stroke(counting.DetailLine().For(guide, ""), draft.Pt(r.Min.X, r.Max.Y), draft.Pt(r.Max.X, r.Min.Y))
		return
	}
	if lettering > 0 {
		l := mapName(t.Name(), lettering)
		b.Write(guide, l.MiddleAt((r.Min.X+r.Max.X)/2, (r.Min.Y+r.Max.Y)/2, render.Middle))
	}
}

// MappedIDs lists the lines of a sheet that show on the map which part of the vehicle is where.
func MappedIDs() []string {
	return []string{"ground", "wheel-front", "wheel-rear", "outline", "roof", "belt", "nose", "tail", "pillar"}
}

// onMap returns a mark of the map: a hair line in one ink.
func onMap(m render.Mark, ink render.Colour) render.Mark {
	pen := render.Pen{Width: draft.Hair, Ink: ink}
	switch m := m.(type) {
	case *render.Stroke:
		return &render.Stroke{Tagged: render.Tagged{Guide: string(guide), ID: "map-" + m.ID}, Path: m.Path, Pen: pen}
	case *render.Circle:
		return &render.Circle{Tagged: render.Tagged{Guide: string(guide), ID: "map-" + m.ID}, Centre: m.Centre, R: m.R, Pen: pen}
	}
	panic(fmt.Sprintf("tile: a map cannot hold %T", m))
}
