package draft

import (
	"strconv"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/request"
)

// FixedSurface returns the surface of what stays where it is when the figure is mirrored, with the centring marks on it.
func (c Canvas) FixedSurface(ink request.Ink) *Surface {
	b := &Surface{Space: c.Space, Inks: InksOf(ink), Seams: c.seams}
	c.Centring(b)
	return b
}

// Centring draws the marks at the middles of the paper's four sides by which the sheets of a set are
// lined up. Without a frame they stand outside the drawing space, clear of every label. With one, they and its line are 0.7 mm wide and
// reach from the reference border 5 mm into the space (ISO 5457).
func (c Canvas) Centring(b *Surface) {
	if c.Tiled {
		return
	}
	w, h := c.FromPaper(c.Paper.Width), c.FromPaper(c.Paper.Height)
	l, t, r, f := c.FromPaper(FilingMargin), c.FromPaper(OtherMargin), w-c.FromPaper(OtherMargin), h-c.FromPaper(OtherMargin)
	style, near, far := RuleLine(), -c.FromPaper(request.CentringGap), -c.FromPaper(PrinterEdge)
	first, last := far, near // where a mark starts and ends, into the drawing space
	if c.Framed {
		in := c.FromPaper(request.CentringReach)
		style, near, far, first, last = LineStyle{c.FromPaper(.7), nil, Strong}, -in, in, -in, in
		b.Curve(style.For("frame", "frame-line"), Outline(Box{Min: Pt(l, t), Max: Pt(r, f)}), 1)
	}
	b.Stroke(style.For("frame", "centre-left"), Pt(l+first, h/2), Pt(l+last, h/2))
	b.Stroke(style.For("frame", "centre-right"), Pt(r-near, h/2), Pt(r-far, h/2))
	b.Stroke(style.For("frame", "centre-top"), Pt(w/2, t+first), Pt(w/2, t+last))
	b.Stroke(style.For("frame", "centre-bottom"), Pt(w/2, f-near), Pt(w/2, f-far))
	if c.Framed {
		c.fields(b, Box{Min: Pt(l, t), Max: Pt(r, f)})
	}
}

// fields draws the fields of the frame of ISO 5457 (1999, 2nd-hand): 50 mm each, counted from the centring marks, lettered down and
// numbered across. The reference border itself would stand on the 5 mm that printers cannot reach: its fields are ticked instead.
func (c Canvas) fields(b *Surface, frame Box) {
	in, step := c.FromPaper(5), c.FromPaper(50)
	for i, side := range []geom.MM{frame.Min.X - in, frame.Max.X, frame.Min.Y - in, frame.Max.Y} {
		lo, hi, middle := frame.Min.Y, frame.Max.Y, c.FromPaper(c.Paper.Height)/2
		at := func(along, across geom.MM) Point { return Pt(side+across, along) }
		name := func(n int) string { return string(rune('A' + n)) }
		if i >= 2 {
			lo, hi, middle = frame.Min.X, frame.Max.X, c.FromPaper(c.Paper.Width)/2
			at = func(along, across geom.MM) Point { return Pt(along, side+across) }
			name = func(n int) string { return strconv.Itoa(n + 1) }
		}
		to := middle
		for to-step > lo+step/2 {
			to -= step
		}
		for from, n := lo, 0; from < hi; n++ {
			if to > hi-step/2 {
				to = hi
			}
			c.fieldName(b, name(n), at((from+to)/2, in/2))
			if to < hi && to != middle {
				b.Stroke(TickLine().For("frame", ""), at(to, 0), at(to, in))
			}
			from, to = to, to+step
		}
	}
}

// fieldName letters one field in the 5 mm beside the frame; 2.5 mm high so that it stays clear of both edges.
func (c Canvas) fieldName(b *Surface, s string, at Point) {
	l := OneLine(Word{Text: s, Height: c.FromPaper(Small), Weight: render.Regular, Role: notes})
	b.Write("frame", l.MiddleAt(at.X, at.Y, render.Middle))
}
