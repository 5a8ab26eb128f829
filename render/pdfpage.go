package render

import (
	"fmt"
	"slices"
	"strconv"

	"hubrule/internal/geom"
)

// points converts a length on paper to the unit of PDF, 1/72 inch.
func points(l geom.MM) float64 { return float64(l) * 72 / 25.4 }

// page appends the marks of a page and returns the layers that they lie on. One matrix at the top makes the millimetre the
// unit and turns y downwards, so that the numbers in a PDF are those of the SVG.
func (c *content) page(page Page) (layers []Guide) {
	scale := strconv.FormatFloat(points(1), 'f', 9, 64)
	c.buf = fmt.Appendf(c.buf, "%s 0 0 -%s 0 %.4f cm 1 j\n", scale, scale, points(page.Height))
	for _, g := range page.Guides {
		open, before := false, *c
		for _, m := range page.Marks {
			if m.Tag().Guide != g.Name {
				continue
			}
			if !open {
				c.buf = fmt.Appendf(c.buf, "/OC %s BDC\n", layerName(g.Name))
				layers = append(layers, g)
				if page.cuts(g) {
					c.clip(page.clipCorners())
				}
				open = true
			}
			c.mark(m)
		}
		if open && page.cuts(g) {
			before.buf = append(c.buf, "Q\n"...)
			*c = before // Q brings back the pen and the fill that were in force
		}
		if open {
			c.buf = append(c.buf, "EMC\n"...)
		}
	}
	return layers
}

// content collects the operators of one page. It remembers the pen and the fill in force, to say only changes.
type content struct {
	buf      []byte
	letters  lettersUsed
	fallback fallbackGlyphs
	pen      Pen // the zero pen of a new page differs from every pen that draws
	inked    bool
	fill     Colour
	filled   bool
}

// op appends numbers and the operator that takes them.
func (c *content) op(operator string, numbers ...geom.MM) {
	for _, n := range numbers {
		c.buf = append(appendNumber(c.buf, n), ' ')
	}
	c.buf = append(append(c.buf, operator...), '\n')
}

// at appends the coordinates of some points and the operator that takes them.
func (c *content) at(operator string, points ...Point) {
	for _, q := range points {
		c.buf = append(appendNumber(c.buf, q.X), ' ')
		c.buf = append(appendNumber(c.buf, q.Y), ' ')
	}
	c.op(operator)
}

func (c *content) mark(m Mark) {
	switch m := m.(type) {
	case *Stroke:
		if m.Pen.Width > 0 {
			c.setPen(m.Pen)
			c.path(m.Path)
			c.op("S")
		}
	case *Fill:
		c.setFill(m.Ink)
		c.path(m.Path)
		c.op("f*")
	case *Circle:
		c.circle(m)
	case *Ellipse:
		c.ellipse(m)
	case *Text:
		c.text(m)
	default:
		panic(fmt.Sprintf("render: pdf cannot draw %T", m))
	}
}

// path appends p; arcs become cubics, which are the only curves that PDF has.
func (c *content) path(p Path) {
	var start, from Point
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
			if written(from) == written(s.To) {
				break // as in SVG, an arc back to where it starts is none
			}
			arc := Path{{Verb: geom.MoveTo, To: from}, s}
			for _, piece := range arc.Cubics()[0] {
				c.at("c", piece[1:]...)
			}
		case geom.Close:
			c.op("h")
			s.To = start
		default:
			panic(fmt.Sprintf("render: no verb %d", s.Verb))
		}
		from = s.To
	}
}

// written returns q as readers of a file know it.
func written(q Point) Point { return Point{X: geom.MM(rounded(q.X)), Y: geom.MM(rounded(q.Y))} }

func (c *content) circle(m *Circle) {
	stroked, filled := m.Pen.Width > 0, m.Fill != nil
	if filled {
		c.setFill(*m.Fill)
	}
	if stroked {
		c.setPen(m.Pen)
	}
	for i, piece := range geom.CircleCubics(m.Centre, m.R) {
		if i == 0 {
			c.at("m", piece[0])
		}
		c.at("c", piece[1:]...)
	}
	c.op("h")
	switch {
	case stroked && filled:
		c.op("B")
	case stroked:
		c.op("S")
	case filled:
		c.op("f")
	default:
		c.op("n")
	}
}

func (c *content) ellipse(m *Ellipse) {
	if m.Fill != nil {
		c.setFill(*m.Fill)
		c.path(m.outline())
		c.op("f")
	}
	if m.Pen.Width > 0 {
		c.setPen(m.Pen)
		c.path(m.outline())
		c.op("S")
	}
}

func (c *content) setPen(p Pen) {
	if !c.inked || p.Ink != c.pen.Ink {
		c.colour("RG", p.Ink)
	}
	if !c.inked || p.Width != c.pen.Width {
		c.op("w", p.Width)
	}
	if !slices.Equal(p.Dash, c.pen.Dash) || (len(p.Dash) > 0 && p.Width != c.pen.Width) {
		c.buf = append(c.buf, '[')
		for _, d := range p.Dash {
			c.buf = append(appendNumber(c.buf, d*float64(p.Width)), ' ')
		}
		c.buf = append(c.buf, "] 0 d\n"...)
	}
	c.pen, c.inked = p, true
}

func (c *content) setFill(ink Colour) {
	if !c.filled || ink != c.fill {
		c.colour("rg", ink)
	}
	c.fill, c.filled = ink, true
}

func (c *content) colour(operator string, ink Colour) {
	c.op(operator, geom.MM(ink.R)/255, geom.MM(ink.G)/255, geom.MM(ink.B)/255)
}
