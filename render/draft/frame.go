package draft

import (
	"strconv"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/request"
)

// Fixed returns the surface of what stays where it is when the figure is mirrored, with the centring marks on it.
func (c Canvas) Fixed(ink request.Ink) *Surface {
	b := &Surface{Space: c.Space, Inks: InksOf(ink)}
	c.Centring(b)
	return b
}

// Centring draws the marks at the middles of the paper's four sides by which the sheets of a set are
// lined up. Without a frame they stand outside the drawing space, clear of every label.
func (c Canvas) Centring(b *Surface) {
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
	b.Stroke(k.For("frame", "centre-left"), Pt(l-edge, h/2), Pt(l-off, h/2))
	b.Stroke(k.For("frame", "centre-right"), Pt(r+off, h/2), Pt(r+edge, h/2))
	b.Stroke(k.For("frame", "centre-top"), Pt(w/2, t-edge), Pt(w/2, t-off))
	b.Stroke(k.For("frame", "centre-bottom"), Pt(w/2, f+off), Pt(w/2, f+edge))
}

// border draws the frame of ISO 5457 (1999, 2nd-hand): a line of 0.7 mm round the drawing space, centring
// marks of 0.7 mm from the reference border 5 mm into the space, and 50 mm fields counted from the
// centring marks, lettered down and numbered across. The reference border itself would stand on the
// 5 mm that printers cannot reach: its fields are ticked instead.
func (c Canvas) border(b *Surface) {
	frame := LineStyle{c.FromPaper(.7), nil, Strong}
	w, h := c.FromPaper(c.Paper.Width), c.FromPaper(c.Paper.Height)
	in := c.FromPaper(5)
	l, t, r, f := c.FromPaper(FilingMargin), c.FromPaper(OtherMargin), w-c.FromPaper(OtherMargin), h-c.FromPaper(OtherMargin)
	sides := render.Path{}.Move(Pt(l, t)).Line(Pt(r, t)).Line(Pt(r, f)).Line(Pt(l, f)).Close()
	b.Marks = append(b.Marks, &render.Stroke{Tagged: render.Tagged{Guide: "frame", ID: "frame-line"}, Path: sides, Pen: b.Pen(frame)})
	b.Stroke(frame.For("frame", "centre-left"), Pt(l-in, h/2), Pt(l+in, h/2))
	b.Stroke(frame.For("frame", "centre-right"), Pt(r+in, h/2), Pt(r-in, h/2))
	b.Stroke(frame.For("frame", "centre-top"), Pt(w/2, t-in), Pt(w/2, t+in))
	b.Stroke(frame.For("frame", "centre-bottom"), Pt(w/2, f+in), Pt(w/2, f-in))
	letter := func(i int) string { return string(rune('A' + i)) }
	number := func(i int) string { return strconv.Itoa(i + 1) }
	for _, side := range []geom.MM{l - in, r} {
		c.fields(t, f, h/2, func(at geom.MM) {
			b.Stroke(TickLine().For("frame", ""), Pt(side, at), Pt(side+in, at))
		}, func(at geom.MM, i int) { c.fieldName(b, letter(i), Pt(side+in/2, at)) })
	}
	for _, side := range []geom.MM{t - in, f} {
		c.fields(l, r, w/2, func(at geom.MM) {
			b.Stroke(TickLine().For("frame", ""), Pt(at, side), Pt(at, side+in))
		}, func(at geom.MM, i int) { c.fieldName(b, number(i), Pt(at, side+in/2)) })
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
func (c Canvas) fieldName(b *Surface, s string, at Point) {
	l := OneLine(Word{Text: s, Height: c.FromPaper(Small), Weight: render.Regular, Role: notes})
	b.Write("frame", l.MiddleAt(at.X, at.Y, render.Middle))
}
