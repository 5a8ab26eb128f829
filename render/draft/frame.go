package draft

import (
	"strconv"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/request"
)

// Fixed returns the board of what stays where it is when the figure is mirrored, with the centring marks on it.
func (c Canvas) Fixed(ink request.Ink) *Board {
	b := &Board{Space: c.Space, Inks: InksOf(ink)}
	c.Centring(b)
	return b
}

// Centring draws the marks at the middles of the paper's four sides by which the sheets of a set are
// lined up. Without a frame they stand outside the drawing space, clear of every label.
func (c Canvas) Centring(b *Board) {
	if c.tiled {
		return
	}
	w, h := c.FromPaper(c.Paper.Width), c.FromPaper(c.Paper.Height)
	edge, off := c.FromPaper(PrinterEdge), c.FromPaper(1.5)
	l, t, r, f := c.FromPaper(FilingMargin), c.FromPaper(OtherMargin), w-c.FromPaper(OtherMargin), h-c.FromPaper(OtherMargin)
	if c.Framed {
		c.border(b)
		return
	}
	k := RuleLine()
	b.Stroke("frame", "centre-left", k, Point{X: l - edge, Y: h / 2}, Point{X: l - off, Y: h / 2})
	b.Stroke("frame", "centre-right", k, Point{X: r + off, Y: h / 2}, Point{X: r + edge, Y: h / 2})
	b.Stroke("frame", "centre-top", k, Point{X: w / 2, Y: t - edge}, Point{X: w / 2, Y: t - off})
	b.Stroke("frame", "centre-bottom", k, Point{X: w / 2, Y: f + off}, Point{X: w / 2, Y: f + edge})
}

// border draws the frame of ISO 5457 (1999, 2nd-hand): a line of 0.7 mm round the drawing space, centring
// marks of 0.7 mm from the reference border 5 mm into the space, and 50 mm fields counted from the
// centring marks, lettered down and numbered across. The reference border itself would stand on the
// 5 mm that printers cannot reach: its fields are ticked instead.
func (c Canvas) border(b *Board) {
	frame := LineStyle{c.FromPaper(.7), nil, Strong}
	w, h := c.FromPaper(c.Paper.Width), c.FromPaper(c.Paper.Height)
	in := c.FromPaper(5)
	l, t, r, f := c.FromPaper(FilingMargin), c.FromPaper(OtherMargin), w-c.FromPaper(OtherMargin), h-c.FromPaper(OtherMargin)
	sides := render.Path{}.Move(Point{X: l, Y: t}).Line(Point{X: r, Y: t}).Line(Point{X: r, Y: f}).Line(Point{X: l, Y: f}).Close()
	b.Marks = append(b.Marks, &render.Stroke{Tagged: render.Tagged{Guide: "frame", ID: "frame-line"}, Path: sides, Pen: b.Pen(frame)})
	b.Stroke("frame", "centre-left", frame, Point{X: l - in, Y: h / 2}, Point{X: l + in, Y: h / 2})
	b.Stroke("frame", "centre-right", frame, Point{X: r + in, Y: h / 2}, Point{X: r - in, Y: h / 2})
	b.Stroke("frame", "centre-top", frame, Point{X: w / 2, Y: t - in}, Point{X: w / 2, Y: t + in})
	b.Stroke("frame", "centre-bottom", frame, Point{X: w / 2, Y: f + in}, Point{X: w / 2, Y: f - in})
	letter := func(i int) string { return string(rune('A' + i)) }
	number := func(i int) string { return strconv.Itoa(i + 1) }
	for _, side := range []geom.MM{l - in, r} {
		c.fields(t, f, h/2, func(at geom.MM) {
			b.Stroke("frame", "", TickLine(), Point{X: side, Y: at}, Point{X: side + in, Y: at})
		}, func(at geom.MM, i int) { c.fieldName(b, letter(i), Point{X: side + in/2, Y: at}) })
	}
	for _, side := range []geom.MM{t - in, f} {
		c.fields(l, r, w/2, func(at geom.MM) {
			b.Stroke("frame", "", TickLine(), Point{X: at, Y: side}, Point{X: at, Y: side + in})
		}, func(at geom.MM, i int) { c.fieldName(b, number(i), Point{X: at, Y: side + in/2}) })
	}
}

// fields divides lo..hi into fields of 50 mm counted both ways from the middle; the first and last take what is left.
func (c Canvas) fields(lo, hi, middle geom.MM, tick func(geom.MM), label func(geom.MM, int)) {
	step := c.FromPaper(50)
	at := middle
	for at-step > lo+step/2 {
		at -= step
	}
	i := 0
	for from := lo; from < hi; {
		to := at
		if to > hi-step/2 {
			to = hi
		}
		label((from+to)/2, i)
		if to < hi && to != middle {
			tick(to)
		}
		from, at, i = to, to+step, i+1
	}
}

// fieldName letters one field in the 5 mm beside the frame; 2.5 mm high so that it stays clear of both edges.
func (c Canvas) fieldName(b *Board, s string, at Point) {
	l := NewLabel([]Word{{Text: s, Height: c.FromPaper(Small), Weight: render.Regular, Role: notes}})
	b.Write("frame", l, at.X, at.Y-l.CapMiddle(), render.Middle)
}
