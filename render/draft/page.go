package draft

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/request"
)

// Canvas is the page as it is composed: on a paper that grows, everything is composed on a page that
// much smaller and multiplied on the way out, so that lettering, lines and gaps grow while the margins,
// the 100 mm bar and the wheel stay true.
type Canvas struct {
	Paper       request.Paper
	Enlargement float64
	Space       Box // drawing space, inside the frame where there is one
	Framed      bool
	Tiled       bool // the page will be cut into tiles, which carry title blocks, bars and marks of their own
	seams       Seams
}

// NewCanvas lays out the page of a setting.
func NewCanvas(s request.Setting) Canvas {
	c := Canvas{Paper: s.Paper, Enlargement: enlargementOf(s.Paper), Framed: s.Frame, Tiled: s.Tile}
	c.Space = Box{Min: Pt(FilingMargin, OtherMargin), Max: Pt(s.Paper.Width-OtherMargin, s.Paper.Height-OtherMargin)}
	if s.Tile { // every tile has margins already
		c.Space = Box{Max: Pt(s.Paper.Width, s.Paper.Height)}.Grow(-TileMargin)
	}
	if s.Frame {
		c.Space = c.Space.Grow(-frameInset)
	}
	c.Space.Min, c.Space.Max = c.Space.Min.Times(1/c.Enlargement), c.Space.Max.Times(1/c.Enlargement)
	return c
}

// WithSeams returns the canvas of a page that will be cut, given where its tiles overlap in mm of paper.
func (c Canvas) WithSeams(s Seams) Canvas {
	scaled := func(z Zone) Zone { return Zone{c.FromPaper(z.Lo), c.FromPaper(z.Hi)} }
	c.seams = Seams{slice.Map(s.X, scaled), slice.Map(s.Y, scaled)}
	return c
}

// FigureSeams returns the seams as they lie on the surface of a figure, on which every vehicle faces left.
func (c Canvas) FigureSeams(facing request.Facing) Seams {
	if facing == request.Right {
		return c.seams.mirrored((c.Space.Min.X + c.Space.Max.X) / 2)
	}
	return c.seams
}

// BlockHeight is how much of the page a title block of some height takes: nothing where each tile has its own.
func (c Canvas) BlockHeight(height geom.MM) geom.MM {
	if c.Tiled {
		return 0
	}
	return height
}

// Projected returns the canvas of a page that is looked at on a wall: with equal margins, and enlarged as far as the page leaves room for
// the words, so that words and lines grow with it and are read from the back of a room.
func (c Canvas) Projected() Canvas {
	c.Enlargement, c.Framed = 1, false
	within := func(k float64) bool {
		return c.Paper.Width >= request.LeastProjectedWidth*geom.MM(k) && c.Paper.Height >= request.LeastProjectedHeight*geom.MM(k)
	}
	for within(c.Enlargement * math.Sqrt2) {
		c.Enlargement *= math.Sqrt2
	}
	c.Space = Box{Max: Pt(c.FromPaper(c.Paper.Width), c.FromPaper(c.Paper.Height))}.Grow(-projectedMargin)
	return c
}

// FromPaper turns a true length in millimetres into the canvas's.
func (c Canvas) FromPaper(l geom.MM) geom.MM { return l / geom.MM(c.Enlargement) }

// Finish puts the marks of a surface on the real page: mirrored where the vehicle faces right, then grown.
func (c Canvas) Finish(title string, figure, fixed *Surface, facing request.Facing) render.Page {
	marks := figure.Marks
	if facing == request.Right {
		axis := (c.Space.Min.X + c.Space.Max.X) / 2
		for i, m := range marks {
			marks[i] = Mirrored(m, axis)
		}
	}
	marks = append(marks, fixed.Marks...)
	for i, m := range marks {
		marks[i] = Scaled(m, c.Enlargement)
	}
	return render.Page{Width: c.Paper.Width, Height: c.Paper.Height, Title: title, Guides: GuidesOf(marks), Marks: marks}
}

// GuidesOf lists the guides that have marks, in paint order.
func GuidesOf(marks []render.Mark) []render.Guide {
	drawn := map[string]bool{}
	for _, m := range marks {
		drawn[m.Tag().Guide] = true
	}
	var out []render.Guide
	for _, g := range request.Layers() {
		if drawn[string(g)] {
			out = append(out, render.Guide{Name: string(g), Title: g.Title(), Unclipped: g.Outside()})
		}
	}
	return out
}

// transformed returns m carried by a similarity of the page. It is the only place where left-facing becomes right-facing: a word keeps its
// reading direction and changes the end it is anchored at, so that a label takes exactly the mirrored place.
func transformed(m render.Mark, by similarity) render.Mark {
	mm := func(l geom.MM) geom.MM { return geom.MM(float64(l) * by.Scale) }
	pen := func(p render.Pen) render.Pen { p.Width = mm(p.Width); return p }
	switch m := m.(type) {
	case *render.Stroke:
		return &render.Stroke{Tagged: m.Tagged, Path: geom.Transform(m.Path, by), Pen: pen(m.Pen)}
	case *render.Fill:
		return &render.Fill{Tagged: m.Tagged, Path: geom.Transform(m.Path, by), Ink: m.Ink}
	case *render.Circle:
		return &render.Circle{Tagged: m.Tagged, Centre: by.At(m.Centre), R: mm(m.R), Pen: pen(m.Pen), Fill: m.Fill}
	case *render.Ellipse:
		e := *m
		e.Shape, e.Pen = geom.TransformEllipse(m.Shape, by), pen(m.Pen)
		if by.Mirror && !m.IsWhole() {
			e.From, e.To = math.Pi-m.To, math.Pi-m.From // seen in a mirror the parameter runs the other way from the other end
		}
		return &e
	case *render.Text:
		t := *m
		t.At, t.Spans = by.At(m.At), slices.Clone(m.Spans)
		for i := range t.Spans {
			t.Spans[i].Height = mm(t.Spans[i].Height)
		}
		if by.Mirror {
			t.Angle, t.Anchor = -m.Angle, render.End-m.Anchor // Start ↔ End, Middle stays
		}
		return &t
	case *render.Picture:
		p := *m
		p.Box, p.Mirrored = geom.BoxOf(by.At(m.Box.Min), by.At(m.Box.Max)), m.Mirrored != by.Mirror
		return &p
	}
	panic("draft: cannot move a mark of unknown kind")
}

// similarity carries one page's points to another's.
type similarity = geom.Similarity[geom.MM, geom.MM]

// Mirrored returns m turned about the upright x = axis.
func Mirrored(m render.Mark, axis geom.MM) render.Mark {
	return transformed(m, similarity{At: func(p Point) Point { return Pt(2*axis-p.X, p.Y) }, Scale: 1, Mirror: true})
}

// Scaled returns m with every length k times as long.
func Scaled(m render.Mark, k float64) render.Mark {
	if k == 1 {
		return m
	}
	return Moved(m, k, Point{})
}

// Moved returns m with every length k times as long, then shifted.
func Moved(m render.Mark, k float64, by Point) render.Mark {
	return transformed(m, similarity{At: func(p Point) Point { return p.Times(k).Add(by) }, Scale: k})
}

// FloorEven returns the largest even whole number of real millimetres at most l, a length on the canvas: then the radius is a whole number
// on the compass.
func (c Canvas) FloorEven(l geom.MM) geom.MM {
	return geom.MM(2 * math.Floor(float64(float64(l)*c.Enlargement/2)+1e-9))
}

// enlargementOf is how much larger lettering, lines and gaps are than on A3: from A2 up the next
// step of ISO 128 and ISO 3098, 1.4 times, because a big sheet is read from further away. Sheets larger than A0, which are
// glued of tiles or come off a roll, take the steps after it: a full-size vehicle is viewed from across the room.
func enlargementOf(p request.Paper) float64 {
	switch short := min(p.Width, p.Height); {
	case short < 400:
		return 1
	case short < 1100:
		return 1.4
	case short < 2200:
		return 2
	}
	return 2.8
}

// Margins of a page: those of its paper, and
const (
	FilingMargin = request.FilingMargin
	OtherMargin  = request.OtherMargin
	// Between the frame line and what is drawn inside it.
	frameInset geom.MM = 6
	// TileMargin is that of a large sheet which will be cut into tiles, inside all windows.
	TileMargin geom.MM = 5
	// projectedMargin is that of a page that is projected, on its canvas: what a wall or a screen may cut off.
	projectedMargin geom.MM = 7
	// PrinterEdge is what printers cannot reach.
	PrinterEdge geom.MM = 5
)
