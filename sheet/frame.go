package sheet

import (
	"strconv"

	"hubrule/internal/geom"
	"hubrule/render"
)

// centring draws the marks at the middles of the paper's four sides by which the sheets of a set are
// lined up. Without a frame they stand outside the drawing space, clear of every label.
func (c canvas) centring(b *board) {
	if c.tiled {
		return
	}
	w, h := c.real(c.paper.Width), c.real(c.paper.Height)
	edge, off := c.real(printerEdge), c.real(1.5)
	l, t, r, f := c.real(filingMargin), c.real(otherMargin), w-c.real(otherMargin), h-c.real(otherMargin)
	if c.frame {
		c.border(b)
		return
	}
	k := ruleLine()
	b.hairline("frame", "centre-left", k, point{X: l - edge, Y: h / 2}, point{X: l - off, Y: h / 2})
	b.hairline("frame", "centre-right", k, point{X: r + off, Y: h / 2}, point{X: r + edge, Y: h / 2})
	b.hairline("frame", "centre-top", k, point{X: w / 2, Y: t - edge}, point{X: w / 2, Y: t - off})
	b.hairline("frame", "centre-bottom", k, point{X: w / 2, Y: f + off}, point{X: w / 2, Y: f + edge})
}

// border draws the frame of ISO 5457 (1999, 2nd-hand): a line of 0.7 mm round the drawing space, centring
// marks of 0.7 mm from the reference border 5 mm into the space, and 50 mm fields counted from the
// centring marks, lettered down and numbered across. The reference border itself would stand on the
// 5 mm that printers cannot reach: its fields are ticked instead.
func (c canvas) border(b *board) {
	frame := lineKind{c.real(.7), nil, strong}
	w, h := c.real(c.paper.Width), c.real(c.paper.Height)
	in := c.real(5)
	l, t, r, f := c.real(filingMargin), c.real(otherMargin), w-c.real(otherMargin), h-c.real(otherMargin)
	sides := render.Path{}.Move(point{X: l, Y: t}).Line(point{X: r, Y: t}).Line(point{X: r, Y: f}).Line(point{X: l, Y: f}).Close()
	b.marks = append(b.marks, &render.Stroke{Tagged: render.Tagged{Guide: "frame", ID: "frame-line"}, Path: sides, Pen: b.pen(frame)})
	b.hairline("frame", "centre-left", frame, point{X: l - in, Y: h / 2}, point{X: l + in, Y: h / 2})
	b.hairline("frame", "centre-right", frame, point{X: r + in, Y: h / 2}, point{X: r - in, Y: h / 2})
	b.hairline("frame", "centre-top", frame, point{X: w / 2, Y: t - in}, point{X: w / 2, Y: t + in})
	b.hairline("frame", "centre-bottom", frame, point{X: w / 2, Y: f + in}, point{X: w / 2, Y: f - in})
	letter := func(i int) string { return string(rune('A' + i)) }
	number := func(i int) string { return strconv.Itoa(i + 1) }
	for _, side := range []geom.MM{l - in, r} {
		c.fields(t, f, h/2, func(at geom.MM) {
			b.hairline("frame", "", tickLine(), point{X: side, Y: at}, point{X: side + in, Y: at})
		}, func(at geom.MM, i int) { c.fieldName(b, letter(i), point{X: side + in/2, Y: at}) })
	}
	for _, side := range []geom.MM{t - in, f} {
		c.fields(l, r, w/2, func(at geom.MM) {
			b.hairline("frame", "", tickLine(), point{X: at, Y: side}, point{X: at, Y: side + in})
		}, func(at geom.MM, i int) { c.fieldName(b, number(i), point{X: at, Y: side + in/2}) })
	}
}

// fields divides lo..hi into fields of 50 mm counted both ways from the middle; the first and last take what is left.
func (c canvas) fields(lo, hi, middle geom.MM, tick func(geom.MM), label func(geom.MM, int)) {
	step := c.real(50)
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
func (c canvas) fieldName(b *board, s string, at point) {
	l := newLabel([]word{{text: s, height: c.real(small), weight: render.Regular, role: notes}})
	b.write("frame", l, at.X, at.Y-l.lift(), render.Middle)
}
