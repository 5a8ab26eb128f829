package sheet

import (
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/render"
)

// strip draws the strip of tile t: its name, what it is a part of, on the first tile how all lie together, and a check bar.
func (c cutting) strip(b *board, t tile, which string, first bool, drawn map[tile]bool) {
	w := c.grid.window()
	top := b.space.Max.Y - tileStrip
	b.hairline(tileGuide, "", stripLine(), point{X: w.Min.X, Y: top}, point{X: w.Max.X, Y: top})
	bar := canvas{grow: 1}
	bar.tileBar(b, point{X: w.Max.X - barLong, Y: top + 9})
	tag := newLabel([]word{{text: t.name(), height: 7, weight: render.SemiBold, role: words}})
	b.write(tileGuide, tag, w.Min.X, top+2, render.Start)
	left, right := w.Min.X+tag.width+5, w.Max.X-barLong-6
	mapped := box{}
	if first {
		mapped = c.mapBox(point{X: right, Y: top + .75}, (right-left)*.4)
		right = mapped.Min.X - 4
		if c.mapLettering(mapped.Width()) == 0 { // names stand beside it
			shift := point{X: mapNamed}
			mapped.Min, mapped.Max, right = mapped.Min.Sub(shift), mapped.Max.Sub(shift), right-2*mapNamed
		}
	}
	wheel := "wheel " + onPaper(c.wheel)
	l := newLabel(headingLabel(c.sheet.Title, "", right-left).lines[0],
		fitted(right-left, c.number+which, which, strings.TrimPrefix(which, "tile ")),
		fitted(right-left, "wheel on paper "+onPaper(c.wheel)+", scale "+c.scale, wheel+", "+c.scale, wheel))
	b.write(tileGuide, l, left, top+1.6, render.Start)
	if !first {
		return
	}
	if how := howToGlue(len(drawn) < c.grid.columns*c.grid.rows); left+l.width+8+how.width <= right-8 {
		b.write(tileGuide, how, right-8-how.width, top+1.8, render.Start)
	}
	c.assembly(b, mapped, drawn)
}

// fitted returns the first of the wordings that fits the room, or no words.
func fitted(room geom.MM, wordings ...string) []word {
	for _, s := range wordings {
		if w := note(s); newLabel([]word{w}).width <= room {
			return []word{w}
		}
	}
	return nil
}

// howToGlue tells what to do with the tiles.
func howToGlue(crossed bool) label {
	last := "  then row under row"
	if crossed {
		last += "; plain paper for crossed ones"
	}
	return newLabel(
		[]word{value("1"), note("  cut from dashed mark to dashed mark")},
		[]word{value("2"), note("  glue row by row, cut edge on the heavy ticks")},
		[]word{value("3"), note(last)})
}

// tileBar draws the check bar of a tile, from at to the right.
func (c canvas) tileBar(b *board, at point) {
	b.hairline(tileGuide, "check-bar", ruleLine(), at, at.Add(point{X: barLong}))
	for i := range 11 {
		tick := at.Add(point{X: barLong / 10 * geom.MM(i)})
		long := geom.MM(1.8)
		switch {
		case i%10 == 0:
			long = 4
		case i == 5:
			long = 3
		}
		b.hairline(tileGuide, "", tickLine(), tick, tick.Sub(point{Y: long}))
	}
	b.write(tileGuide, c.advice(0), at.X, at.Y+2.2, render.Start)
}

// mapBox returns the place of the assembly map: as high as the strip, or no wider than room, ending on the right at corner.
func (c cutting) mapBox(corner point, room geom.MM) box {
	whole := c.grid.whole()
	k := min((tileStrip-1.5)/whole.Height, room/whole.Width)
	size := point{X: whole.Width * k, Y: whole.Height * k}
	at := point{X: corner.X - size.X, Y: corner.Y + (tileStrip-1.5-size.Y)/2}
	return box{Min: at, Max: at.Add(size)}
}

// assembly draws the map of all tiles: the large sheet's main lines, the tiles by name, crossed where one is left out.
func (c cutting) assembly(b *board, r box, drawn map[tile]bool) {
	whole, step := c.grid.whole(), c.grid.step()
	k, lettering := r.Width()/whole.Width, c.mapLettering(r.Width())
	for _, m := range c.sheet.Marks {
		if slices.Contains(mappedIDs(), m.Tag().ID) {
			b.marks = append(b.marks, onMap(carried(m, float64(k), r.Min), c.inks.colours[soft]))
		}
	}
	for row := range c.grid.rows {
		for column := range c.grid.columns {
			t := tile{column, row}
			at := r.Min.Add(point{X: step.X * geom.MM(column) * k, Y: step.Y * geom.MM(row) * k})
			cell := box{Min: at, Max: at.Add(point{X: step.X * k, Y: step.Y * k})}
			if column == c.grid.columns-1 {
				cell.Max.X = r.Max.X
			}
			if row == c.grid.rows-1 {
				cell.Max.Y = r.Max.Y
			}
			b.cell(t, cell, lettering, drawn[t])
		}
	}
	if lettering == 0 { // the names of the first and the last tile, beside it, say how the others are called
		l := newLabel([]word{name("A1")})
		b.write(tileGuide, l, r.Min.X-1, r.Min.Y-.4, render.End)
		l = newLabel([]word{name(c.grid.last().name())})
		b.write(tileGuide, l, r.Max.X+1, r.Max.Y-l.height+.4, render.Start)
	}
}

// last is the tile at the lower right.
func (g tileGrid) last() tile { return tile{g.columns - 1, g.rows - 1} }

// mapLettering returns how high the names of the tiles are on a map as wide as given, or 0 where they find no room.
func (c cutting) mapLettering(width geom.MM) geom.MM {
	k, step := width/c.grid.whole().Width, c.grid.step()
	for _, height := range []geom.MM{small, lowest} {
		if l := mapName(c.grid.last().name(), height); l.width+.6 <= step.X*k && roomy*height <= step.Y*k {
			return height
		}
	}
	return 0
}

// lowest is the smallest height of lettering in ISO 3098 (MEM): only for names on the map, where tiles are many.
const lowest geom.MM = 1.8

// mapNamed is the room beside a map for the name of a tile.
const mapNamed geom.MM = 4

// roomy is how many times as high as its name a cell of the map is at least.
const roomy = 1.7

// mapName is the name of a tile on the map.
func mapName(s string, height geom.MM) label {
	return newLabel([]word{{text: s, height: height, weight: render.Regular, role: words}})
}

// cell draws one tile of the map, with its name where lettering is not 0.
func (b *board) cell(t tile, r box, lettering geom.MM, drawn bool) {
	path := render.Path{}.Move(r.Min).Line(point{X: r.Max.X, Y: r.Min.Y}).Line(r.Max).Line(point{X: r.Min.X, Y: r.Max.Y}).Close()
	b.marks = append(b.marks, &render.Stroke{Tagged: render.Tagged{Guide: string(tileGuide), ID: "map-" + t.name()}, Path: path, Pen: b.pen(tickLine())})
	if !drawn {
		b.hairline(tileGuide, "", detailLine(), r.Min, r.Max)
		b.hairline(tileGuide, "", detailLine(), point{X: r.Min.X, Y: r.Max.Y}, point{X: r.Max.X, Y: r.Min.Y})
		return
	}
	if lettering > 0 {
		l := mapName(t.name(), lettering)
		b.write(tileGuide, l, (r.Min.X+r.Max.X)/2, (r.Min.Y+r.Max.Y)/2-l.lift(), render.Middle)
	}
}

// mappedIDs lists the lines of a sheet that show on the map which part of the vehicle is where.
func mappedIDs() []string {
	return []string{"ground", "wheel-front", "wheel-rear", "outline", "roof", "belt", "nose", "tail", "pillar"}
}

// onMap returns a mark of the map: a hair line in one ink.
func onMap(m render.Mark, ink render.Colour) render.Mark {
	pen := render.Pen{Width: hair, Ink: ink}
	switch m := m.(type) {
	case *render.Stroke:
		return &render.Stroke{Tagged: render.Tagged{Guide: string(tileGuide), ID: "map-" + m.ID}, Path: m.Path, Pen: pen}
	case *render.Circle:
		return &render.Circle{Tagged: render.Tagged{Guide: string(tileGuide), ID: "map-" + m.ID}, Centre: m.Centre, R: m.R, Pen: pen}
	}
	panic(fmt.Sprintf("sheet: a map cannot hold %T", m))
}
