package sheet

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/request"
)

// canvas is the page as it is composed: on a paper that grows, everything is composed on a page that
// much smaller and multiplied on the way out, so that lettering, lines and gaps grow while the margins,
// the 100 mm bar and the wheel stay true.
type canvas struct {
	paper request.Paper
	grow  float64
	space box // drawing space, inside the frame where there is one
	frame bool
	tiled bool // the page will be cut into tiles, which carry bars and marks of their own
}

func newCanvas(s request.Setting) canvas {
	c := canvas{paper: s.Paper, grow: growthOf(s.Paper), frame: s.Frame, tiled: s.Tile}
	c.space = spaceOf(s.Paper)
	if s.Tile { // every tile has margins already
		c.space = box{Max: point{X: s.Paper.Width, Y: s.Paper.Height}}.Grow(-tiledMargin)
	}
	if s.Frame {
		c.space = c.space.Grow(-frameInset)
	}
	c.space.Min, c.space.Max = c.space.Min.Times(1/c.grow), c.space.Max.Times(1/c.grow)
	return c
}

// real turns a true length in millimetres into the canvas's.
func (c canvas) real(l geom.MM) geom.MM { return l / geom.MM(c.grow) }

// finish puts the marks of a board on the real page: mirrored where the vehicle faces right, then grown.
func (c canvas) finish(title string, figure, fixed *board, facing request.Facing) render.Page {
	marks := figure.marks
	if facing == request.Right {
		axis := (c.space.Min.X + c.space.Max.X) / 2
		for i, m := range marks {
			marks[i] = mirrored(m, axis)
		}
	}
	marks = append(marks, fixed.marks...)
	for i, m := range marks {
		marks[i] = grown(m, c.grow)
	}
	return render.Page{Width: c.paper.Width, Height: c.paper.Height, Title: title, Guides: layers(marks), Marks: marks}
}

// layers lists the guides that have marks, in paint order.
func layers(marks []render.Mark) []render.Guide {
	drawn := map[string]bool{}
	for _, m := range marks {
		drawn[m.Tag().Guide] = true
	}
	var out []render.Guide
	for _, g := range request.Layers() {
		if drawn[string(g)] {
			out = append(out, render.Guide{Name: string(g), Title: g.Title(), Unclipped: g == tileGuide})
		}
	}
	return out
}

// mirrored returns m turned about the upright x = axis. It is the only place where left-facing becomes
// right-facing: words keep their reading direction and change the end they are anchored at, so a label
// takes exactly the mirrored place.
func mirrored(m render.Mark, axis geom.MM) render.Mark {
	at := func(p point) point { return point{X: 2*axis - p.X, Y: p.Y} }
	carry := func(p render.Path) render.Path {
		return geom.Transform(p, geom.Similarity[geom.MM, geom.MM]{At: at, Scale: 1, Mirror: true})
	}
	switch m := m.(type) {
	case *render.Stroke:
		return &render.Stroke{Tagged: m.Tagged, Path: carry(m.Path), Pen: m.Pen}
	case *render.Fill:
		return &render.Fill{Tagged: m.Tagged, Path: carry(m.Path), Ink: m.Ink}
	case *render.Circle:
		c := *m
		c.Centre = at(m.Centre)
		return &c
	case *render.Ellipse:
		e := *m
		e.Shape.Centre, e.Shape.Angle, e.Shape.Cross = at(m.Shape.Centre), -m.Shape.Angle, -m.Shape.Cross
		e.From, e.To = math.Pi-m.To, math.Pi-m.From // seen in a mirror the parameter runs the other way from the other end
		if m.IsWhole() {
			e.From, e.To = 0, 0
		}
		return &e
	case *render.Text:
		t := *m
		t.At, t.Angle = at(m.At), -m.Angle
		t.Anchor = render.End - m.Anchor // Start ↔ End, Middle stays
		return &t
	}
	panic("sheet: cannot mirror a mark of unknown kind")
}

// grown returns m with every length k times as long.
func grown(m render.Mark, k float64) render.Mark {
	if k == 1 {
		return m
	}
	return carried(m, k, point{})
}

// carried returns m with every length k times as long, then shifted.
func carried(m render.Mark, k float64, by point) render.Mark {
	mm := func(l geom.MM) geom.MM { return geom.MM(float64(l) * k) }
	at := func(p point) point { return p.Times(k).Add(by) }
	carry := func(p render.Path) render.Path {
		return geom.Transform(p, geom.Similarity[geom.MM, geom.MM]{At: at, Scale: k})
	}
	pen := func(p render.Pen) render.Pen { p.Width = mm(p.Width); return p }
	switch m := m.(type) {
	case *render.Stroke:
		return &render.Stroke{Tagged: m.Tagged, Path: carry(m.Path), Pen: pen(m.Pen)}
	case *render.Fill:
		return &render.Fill{Tagged: m.Tagged, Path: carry(m.Path), Ink: m.Ink}
	case *render.Circle:
		return &render.Circle{Tagged: m.Tagged, Centre: at(m.Centre), R: mm(m.R), Pen: pen(m.Pen), Fill: m.Fill}
	case *render.Ellipse:
		e := *m
		e.Shape = geom.TransformEllipse(m.Shape, geom.Similarity[geom.MM, geom.MM]{At: at, Scale: k})
		e.Pen = pen(m.Pen)
		return &e
	case *render.Text:
		t := *m
		t.At, t.Spans = at(m.At), append([]render.Span(nil), m.Spans...)
		for i := range t.Spans {
			t.Spans[i].Height = mm(t.Spans[i].Height)
		}
		return &t
	}
	panic("sheet: cannot move a mark of unknown kind")
}
