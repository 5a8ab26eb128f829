package draft

import (
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/request"
)

// LegendEntry is a kind of line that a legend may explain: the name of what it stands for, its style, the layers in which it stands for
// that, and what the ids of such lines begin with, or "".
type LegendEntry struct {
	Name   string
	Style  LineStyle
	Guides []request.Guide
	Prefix string
}

// The distances in a legend, in mm.
const (
	sampleLength geom.MM = 13 // longer than any pattern of dashes on A3
	sampleGap    geom.MM = 2
	legendPitch  geom.MM = 4.2
	legendColumn geom.MM = 5 // between columns
	legendClear  geom.MM = 2 // from what is drawn
)

// Legend explains those of some kinds of line that the surface has, on the first free place from the top left inside area where it covers
// nothing, in as few rows as the width allows. Others are surfaces that lie on the same page. It reports whether there was a place.
func (b *Surface) Legend(area Box, entries []LegendEntry, others ...*Surface) bool {
	entries = slices.DeleteFunc(slices.Clone(entries), func(e LegendEntry) bool { return !b.draws(e) })
	var fills []Extent
	for _, m := range b.Marks {
		if f, ok := m.(*render.Fill); ok {
			fills = append(fills, ExtentOf(f))
		}
	}
	free := func(r Box) bool {
		return b.Free(r, legendClear) && !slices.ContainsFunc(fills, func(f Extent) bool { return f.Intersects(r) }) &&
			!slices.ContainsFunc(others, func(o *Surface) bool { return !o.Free(r, legendClear) })
	}
	for rows := 1; rows <= len(entries); rows++ {
		l := newLegend(entries, rows)
		if at, found := firstFree(area, l.size(), free); found {
			l.draw(b, at)
			return true
		}
	}
	return len(entries) == 0
}

// draws reports whether the surface has a line of a kind.
func (b *Surface) draws(e LegendEntry) bool {
	want := b.Pen(e.Style)
	return slices.ContainsFunc(b.Marks, func(m render.Mark) bool {
		tag := m.Tag()
		if !slices.Contains(e.Guides, request.Guide(tag.Guide)) || !strings.HasPrefix(tag.ID, e.Prefix) {
			return false
		}
		var pen render.Pen
		switch m := m.(type) {
		case *render.Stroke:
			pen = m.Pen
		case *render.Circle:
			pen = m.Pen
		case *render.Ellipse:
			pen = m.Pen
		}
		return pen.Width == want.Width && pen.Ink == want.Ink && slices.Equal(pen.Dash, want.Dash)
	})
}

// firstFree finds the first place of a size inside area, from the top left in rows, that is free.
func firstFree(area Box, size Point, free func(Box) bool) (Point, bool) {
	const step geom.MM = 3
	for y := area.Min.Y; y+size.Y <= area.Max.Y; y += step {
		for x := area.Min.X; x+size.X <= area.Max.X; x += step {
			if at := Pt(x, y); free(Box{Min: at, Max: at.Add(size)}) {
				return at, true
			}
		}
	}
	return Point{}, false
}

// legend is a table of samples of lines with their names, filled column by column.
type legend struct {
	entries []LegendEntry
	rows    int
	widths  []geom.MM // of the columns
}

func newLegend(entries []LegendEntry, rows int) legend {
	l := legend{entries: entries, rows: rows}
	for i, e := range entries {
		if i%rows == 0 {
			l.widths = append(l.widths, 0)
		}
		last := &l.widths[len(l.widths)-1]
		*last = max(*last, sampleLength+sampleGap+Note(e.Name).Width())
	}
	return l
}

// size returns the width and height of the legend.
func (l legend) size() Point {
	out := Pt(legendColumn*geom.MM(len(l.widths)-1), legendPitch*geom.MM(l.rows))
	for _, w := range l.widths {
		out.X += w
	}
	return out
}

// draw draws the legend with its upper left corner at a point.
func (l legend) draw(b *Surface, at Point) {
	for i, e := range l.entries {
		if i > 0 && i%l.rows == 0 {
			at.X += l.widths[i/l.rows-1] + legendColumn
		}
		y := at.Y + legendPitch*(geom.MM(i%l.rows)+.5)
		b.Line(e.Style.For("legend", ""), Pt(at.X, y), Pt(at.X+sampleLength, y))
		b.Write("legend", OneLine(Note(e.Name)).MiddleAt(at.X+sampleLength+sampleGap, y, render.Start))
	}
}
