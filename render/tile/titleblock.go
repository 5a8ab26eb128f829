package tile

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
)

// titleBlock draws the title block of a tile: its name, what it is a part of, on the first tile how all lie together, and a check bar.
func (p tilePage) titleBlock(which string, first bool) {
	w, top := p.window, p.Space.Max.Y-tileBlock
	p.Stroke(draft.TitleBlockLine().For(guide, ""), draft.Pt(w.Min.X, top), draft.Pt(w.Max.X, top))
	bar, actual := draft.Pt(w.Max.X-draft.BarLength, top+9), draft.Canvas{Enlargement: 1}
	actual.CheckBar(p.Surface, guide, bar)
	p.Write(guide, actual.Advice(0).TopAt(bar.X, bar.Y+2.2, render.Start))
	name := draft.OneLine(draft.Heading(p.tile.Name(), 7))
	p.Write(guide, name.TopAt(w.Min.X, top+2, render.Start))
	left, right := w.Min.X+name.Width+5, w.Max.X-draft.BarLength-6
	mapped := draft.Box{}
	if first {
		mapped = p.mapBox(draft.Pt(right, top+.75), (right-left)*.4)
		right = mapped.Min.X - 4
		if p.mapLettering(mapped.Width()) == 0 { // names stand beside it
			shift := draft.Point{X: mapNameWidth}
			mapped.Min, mapped.Max, right = mapped.Min.Sub(shift), mapped.Max.Sub(shift), right-2*mapNameWidth
		}
	}
	columns := p.factColumns()
	beside := !first && len(columns) > 0
	l := p.label(which, right-left, "")
	if beside = beside && left+l.Width+betweenColumns+columns[0].Width <= right; !beside && len(columns) > 0 {
		l = p.label(which, right-left, p.unit())
	}
	p.Write(guide, l.TopAt(left, top+1.6, render.Start))
	if left += l.Width + betweenColumns; beside {
		for _, column := range columns {
			if left+column.Width <= right {
				p.Write(guide, column.TopAt(left, top+1.8, render.Start))
				left += column.Width + betweenColumns
			}
		}
	}
	if !first {
		return
	}
	if how := howToGlue(len(p.drawn) < p.Grid.Columns*p.Grid.Rows); left+how.Width <= right-8 {
		p.Write(guide, how.TopAt(right-8-how.Width, top+1.8, render.Start))
	}
	p.assembly(mapped)
}

// betweenColumns is the room between the columns of a tile's title block.
const betweenColumns geom.MM = 8

// label names the sheet and the tile, no wider than room, and gives the wheel on paper and the scale; where the sheet has a remark, that
// too. The unit is left out where it is empty.
func (p tilePage) label(which string, room geom.MM, unit string) draft.Label {
	heading := draft.HeadingLabel(cmp.Or(p.Title.Heading, p.Sheet.Title), "", room).Lines[0]
	wheel, short := "wheel on paper "+draft.FormatMM(p.Wheel)+", scale "+p.Scale, "wheel "+draft.FormatMM(p.Wheel)
	named := []string{p.Number + which, which, strings.TrimPrefix(which, "tile ")}
	if unit != "" {
		named = slices.Insert(named, 0, p.Number+which+", "+draft.Unit+" "+unit, which+", "+draft.Unit+" "+unit)
	}
	if p.Title.Remark != "" {
		named = slices.Insert(named, 0, p.Number+which+", "+wheel, which+", "+wheel, which+", "+short)
		return draft.NewLabel(heading, fitted(room, draft.Note, named...), []draft.Word{draft.Truncated(draft.Note(p.Title.Remark), room)})
	}
	return draft.NewLabel(heading, fitted(room, draft.Note, named...), fitted(room, draft.Note, wheel, short+", "+p.Scale, short))
}

// unit is that of the sheet's lengths.
func (p tilePage) unit() string {
	for _, f := range slices.Concat(p.Facts...) {
		if f.Name == draft.Unit {
			return f.Value
		}
	}
	return ""
}

// factColumns are the facts of the sheet but for those that every tile gives, the unit first, and what the sheet shows.
func (p tilePage) factColumns() []draft.Label {
	var unit, others [][]draft.Word
	for _, column := range p.Facts {
		for _, f := range column {
			words := []draft.Word{draft.Note(f.Name + " "), draft.Value(f.Value)}
			switch f.Name {
			case "wheel on paper", "scale":
			case draft.Unit, "counts in":
				unit = append(unit, words)
			default:
				others = append(others, words)
			}
		}
	}
	var out []draft.Label
	if unit != nil {
		out = append(out, draft.NewLabel(unit...))
	}
	const widest geom.MM = 60 // of what the sheet shows
	blocks := append([][][]draft.Word{draft.Wrapped(draft.Note(p.Title.Sub), widest)}, slices.Collect(slices.Chunk(others, 2))...)
	for _, lines := range blocks {
		out = append(out, draft.NewLabel(lines[:min(len(lines), 3)]...))
	}
	return out
}

// fitted returns the first of the wordings that fits the room, as a word of a kind, or no words.
func fitted(room geom.MM, word func(string) draft.Word, wordings ...string) []draft.Word {
	for _, s := range wordings {
		if w := word(s); draft.OneLine(w).Width <= room {
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

// mapBox returns the place of the assembly map: as high as the title block, or no wider than room, ending on the right at corner.
func (c Cutting) mapBox(corner draft.Point, room geom.MM) draft.Box {
	whole := c.Grid.Whole()
	k := min((tileBlock-1.5)/whole.Height, room/whole.Width)
	size := draft.Pt(whole.Width*k, whole.Height*k)
	at := draft.Pt(corner.X-size.X, corner.Y+(tileBlock-1.5-size.Y)/2)
	return draft.Box{Min: at, Max: at.Add(size)}
}

// assembly draws the map of all tiles: the large sheet's main lines, the tiles by name, crossed where one is left out.
func (p tilePage) assembly(r draft.Box) {
	step := p.Grid.Step()
	k, lettering := r.Width()/p.Grid.Whole().Width, p.mapLettering(r.Width())
	for _, m := range p.Sheet.Marks {
		if slices.Contains(MappedIDs(), m.Tag().ID) {
			p.Marks = append(p.Marks, onMap(draft.Moved(m, float64(k), r.Min), p.Surface.Inks.Colours[draft.Soft]))
		}
	}
	last := p.Grid.last()
	for _, t := range p.Grid.tiles() {
		at := r.Min.Add(draft.Pt(step.X*geom.MM(t.Column)*k, step.Y*geom.MM(t.Row)*k))
		cell := draft.Box{Min: at, Max: at.Add(draft.Pt(step.X*k, step.Y*k))}
		if t.Column == last.Column {
			cell.Max.X = r.Max.X
		}
		if t.Row == last.Row {
			cell.Max.Y = r.Max.Y
		}
		p.mapCell(t, cell, lettering)
	}
	if lettering == 0 { // the names of the first and the last tile, beside it, imply those of the others
		p.Write(guide, draft.OneLine(draft.Name("A1")).TopAt(r.Min.X-1, r.Min.Y-.4, render.End))
		l := draft.OneLine(draft.Name(last.Name()))
		p.Write(guide, l.TopAt(r.Max.X+1, r.Max.Y-l.Height+.4, render.Start))
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

// On the map: the smallest lettering of ISO 3098 (MEM), only for many tiles; the room beside the map for the name of a tile; and how many
// times as high as its name a cell is at least.
const (
	mapSmall     geom.MM = 1.8
	mapNameWidth geom.MM = 4
	cellHeights          = 1.7
)

// mapName is the name of a tile on the map.
func mapName(s string, height geom.MM) draft.Label {
	return draft.OneLine(draft.Word{Text: s, Height: height, Weight: render.Regular, Role: draft.Words})
}

// mapCell draws one tile of the map, with its name where lettering is not 0.
func (p tilePage) mapCell(t Tile, r draft.Box, lettering geom.MM) {
	p.Curve(draft.TickLine().For(guide, "map-"+t.Name()), draft.Outline(r), 1)
	if !p.drawn[t] {
		cross := counting.DetailLine().For(guide, "")
		p.Stroke(cross, r.Min, r.Max)
		p.Stroke(cross, draft.Pt(r.Min.X, r.Max.Y), draft.Pt(r.Max.X, r.Min.Y))
	} else if lettering > 0 {
		p.Write(guide, mapName(t.Name(), lettering).MiddleAt((r.Min.X+r.Max.X)/2, (r.Min.Y+r.Max.Y)/2, render.Middle))
	}
}

// MappedIDs lists the lines of a sheet that show on the map which part of the vehicle is where.
func MappedIDs() []string {
	return []string{"ground", "wheel-front", "wheel-rear", "outline", "roof", "belt", "nose", "tail", "pillar"}
}

// onMap returns a mark of the map: a hair line in one ink.
func onMap(m render.Mark, ink render.Colour) render.Mark {
	pen, tag := render.Pen{Width: draft.Hair, Ink: ink}, render.Tagged{Guide: string(guide), ID: "map-" + m.Tag().ID}
	switch m := m.(type) {
	case *render.Stroke:
		return &render.Stroke{Tagged: tag, Path: m.Path, Pen: pen}
	case *render.Circle:
		return &render.Circle{Tagged: tag, Centre: m.Centre, R: m.R, Pen: pen}
	}
	panic(fmt.Sprintf("tile: a map cannot hold %T", m))
}
