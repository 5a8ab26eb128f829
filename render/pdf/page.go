package pdf

import (
	"fmt"
	"slices"
	"strconv"

	"hubrule/internal/geom"
	"hubrule/render"
)

// points converts a length on paper to the unit of PDF, 1/72 inch.
func points(l geom.MM) float64 { return float64(l) * 72 / float64(geom.Inch) }

// page appends the marks of a page and returns the layers that they lie on. One matrix at the top makes the millimetre the
// unit and turns y downwards, so that the numbers in a PDF are those of the SVG.
func (c *content) page(page render.Page) (layers []render.Guide) {
	scale := strconv.FormatFloat(points(1), 'f', 9, 64)
	c.buf = fmt.Appendf(c.buf, "%s 0 0 -%s 0 %.4f cm 1 j\n", scale, scale, points(page.Height))
	for g, marks := range page.Layers() {
		c.buf = fmt.Appendf(c.buf, "/OC %s BDC\n", layerName(g.Name))
		layers = append(layers, g)
		before := *c
		if page.Clips(g) {
			at, to := page.ClipCorners()
			c.buf = append(c.buf, "q "...)
			c.op("re W n", at.X, at.Y, to.X-at.X, to.Y-at.Y)
		}
		for _, m := range marks {
			c.mark(m)
		}
		if page.Clips(g) {
			before.buf, before.pictures = append(c.buf, "Q\n"...), c.pictures
			*c = before // Q brings back the pen and the fill that were in force
		}
		c.buf = append(c.buf, "EMC\n"...)
	}
	return layers
}

// content collects the operators of one page, and the pictures that they show by their numbers. It remembers the pen and the fill in
// force, to say only changes.
type content struct {
	buf    []byte
	used   usedGlyphs
	pen    render.Pen // the zero pen of a new page differs from every pen that draws
	inked  bool
	fill   render.Colour
	filled bool

	pictures []packedPicture
}

// op appends numbers and the operator that takes them.
func (c *content) op(operator string, numbers ...geom.MM) {
	for _, n := range numbers {
		c.buf = append(render.AppendNumber(c.buf, n), ' ')
	}
	c.buf = append(append(c.buf, operator...), '\n')
}

// at appends the coordinates of some points and the operator that takes them.
func (c *content) at(operator string, points ...render.Point) {
	for _, q := range points {
		c.buf = append(render.AppendNumber(c.buf, q.X), ' ')
		c.buf = append(render.AppendNumber(c.buf, q.Y), ' ')
	}
	c.op(operator)
}

func (c *content) mark(m render.Mark) {
	switch m := m.(type) {
	case *render.Stroke:
		c.stroke(m.Path, m.Pen)
	case *render.Ellipse:
		c.stroke(m.Outline(), m.Pen)
	case *render.Fill:
		c.setFill(m.Ink)
		c.path(m.Path)
		c.op("f*")
	case *render.Circle:
		c.circle(m)
	case *render.Text:
		c.text(m)
	case *render.Picture:
		c.picture(m)
	default:
		panic(fmt.Sprintf("pdf: cannot draw %T", m))
	}
}

// path appends p; arcs become cubics, which are the only curves that PDF has.
func (c *content) path(p render.Path) {
	var start, from render.Point
	for _, s := range p {
		switch s.Verb {
		case geom.MoveTo:
			c.at("m", s.To)
			start = s.To
		case geom.LineTo:
			c.at("l", s.To)
		case geom.CurveTo:
			c.at("c", s.C1, s.C2, s.To)
		case geom.ArcTo:
			if render.RoundPoint(from) == render.RoundPoint(s.To) {
				break // as in SVG, an arc back to where it starts is none
			}
			arc := render.Path{{Verb: geom.MoveTo, To: from}, s}
			for _, piece := range arc.Cubics()[0] {
				c.at("c", piece[1:]...)
			}
		case geom.Close:
			c.op("h")
			s.To = start
		default:
			panic(fmt.Sprintf("pdf: no verb %d", s.Verb))
		}
		from = s.To
	}
}

// stroke draws a line along p. A pen of no width draws nothing.
func (c *content) stroke(p render.Path, pen render.Pen) {
	if pen.Width > 0 {
		c.setPen(pen)
		c.path(p)
		c.op("S")
	}
}

func (c *content) circle(m *render.Circle) {
	paint := "n"
	if m.Fill != nil {
		c.setFill(*m.Fill)
		paint = "f"
	}
	if m.Pen.Width > 0 {
		c.setPen(m.Pen)
		paint = map[string]string{"n": "S", "f": "B"}[paint]
	}
	c.path(m.Outline())
	c.op(paint)
}

func (c *content) setPen(p render.Pen) {
	if !c.inked || p.Ink != c.pen.Ink {
		c.colour("RG", p.Ink)
	}
	if !c.inked || p.Width != c.pen.Width {
		c.op("w", p.Width)
	}
	if !slices.Equal(p.Dash, c.pen.Dash) || (len(p.Dash) > 0 && p.Width != c.pen.Width) {
		c.buf = append(c.buf, '[')
		for _, d := range p.Dash {
			c.buf = append(render.AppendNumber(c.buf, d*float64(p.Width)), ' ')
		}
		c.buf = append(c.buf, "] 0 d\n"...)
	}
	c.pen, c.inked = p, true
}

func (c *content) setFill(ink render.Colour) {
	if !c.filled || ink != c.fill {
		c.colour("rg", ink)
	}
	c.fill, c.filled = ink, true
}

func (c *content) colour(operator string, ink render.Colour) {
	c.op(operator, geom.MM(ink.R)/255, geom.MM(ink.G)/255, geom.MM(ink.B)/255)
}
