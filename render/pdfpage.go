package render

import (
	"encoding/hex"
	"fmt"
	"math"
	"slices"
	"strconv"
	"unicode/utf8"

	"hubrule/fonts"
	"hubrule/geom"
)

// points converts a length on paper to the unit of PDF, 1/72 inch.
func points(l geom.MM) float64 { return float64(l) * 72 / 25.4 }

// pageContent returns the marks of page as PDF operators, in p's buffer. One matrix at the top makes the
// millimetre the unit and turns y downwards, so that the numbers in a PDF are those of the SVG.
func (p *PDF) pageContent(page Page) []byte {
	c := content{buf: p.content[:0], letters: p.letters, added: &p.added}
	scale := strconv.FormatFloat(points(1), 'f', 9, 64)
	c.buf = fmt.Appendf(c.buf, "%s 0 0 -%s 0 %.4f cm 1 j\n", scale, scale, points(page.Height))
	for _, g := range page.Guides {
		open := false
		for _, m := range page.Marks {
			if m.Tag().Guide != g.Name {
				continue
			}
			if !open {
				c.buf = fmt.Appendf(c.buf, "/OC %s BDC\n", layerName(p.layer(g)))
				open = true
			}
			c.mark(m)
		}
		if open {
			c.buf = append(c.buf, "EMC\n"...)
		}
	}
	return c.buf
}

// layer returns the index of g among the document's layers; pages share the layers of one name.
func (p *PDF) layer(g Guide) int {
	i := slices.IndexFunc(p.layers, func(l Guide) bool { return l.Name == g.Name })
	if i < 0 {
		i = len(p.layers)
		p.layers = append(p.layers, g)
	}
	return i
}

// content collects the operators of one page. It remembers the pen and the fill in force, to say only changes.
type content struct {
	buf     []byte
	letters lettersUsed
	added   *addedLetters
	pen     Pen // the zero pen of a new page differs from every pen that draws
	inked   bool
	fill    Colour
	filled  bool
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

// text appends one line of words. The matrix turns y up again, or letters would stand on their heads.
func (c *content) text(t *Text) {
	width := geom.MM(0)
	for _, s := range t.Spans {
		width += fonts.Width(s.Text, s.Height, s.Weight)
	}
	sin, cos := math.Sincos(t.Angle.Radians())
	back := geom.MM(t.Anchor.share()) * width
	start := t.At.Sub(Point{X: geom.MM(back * geom.MM(cos)), Y: geom.MM(-back * geom.MM(sin))})
	c.op("BT")
	for _, v := range []float64{cos, -sin, -sin, -cos} { // finer than lengths: a long line turns about its end
		c.buf = append(strconv.AppendFloat(c.buf, math.Round(v*1e6)/1e6+0, 'f', -1, 64), ' ')
	}
	c.at("Tm", start)
	for _, s := range t.Spans {
		c.setFill(s.Ink)
		c.span(s)
	}
	c.op("ET")
}

// span appends one span. Where its glyphs do not say letter by letter what it says, the words themselves stand beside
// them (ISO 32000-1, 14.9.4). Words with letters from right to left are an exception: readers take it that such letters stand
// in the file as they are seen and turn them round, in ActualText too; so each empty box has a text of its own there.
func (c *content) span(s Span) {
	glyphs := fonts.Shape(s.Text, s.Weight)
	cut, turned := s.says() != s.Text, fonts.HasLeftward(s.Text)
	if cut || !turned && !spells(glyphs, s.Text) {
		c.actual(s.says(), func() { c.runs(glyphs, s) })
		return
	}
	for turned {
		i := slices.IndexFunc(glyphs, fonts.Glyph.Missing)
		if i < 0 {
			break
		}
		c.runs(glyphs[:i], s)
		c.actual(string(glyphs[i].Letter), func() { c.runs(glyphs[i:i+1], s) })
		glyphs = glyphs[i+1:]
	}
	c.runs(glyphs, s)
}

// actual says what the marks drawn by draw mean.
func (c *content) actual(words string, draw func()) {
	c.buf = append(c.buf, "/Span <</ActualText"+pdfText(words)+">> BDC\n"...)
	draw()
	c.buf = append(c.buf, "EMC\n"...)
}

// runs appends glyphs of s, those of one font at a time.
func (c *content) runs(glyphs []fonts.Glyph, s Span) {
	for len(glyphs) > 0 {
		n := slices.IndexFunc(glyphs, func(g fonts.Glyph) bool { return g.Added != glyphs[0].Added })
		if n < 0 {
			n = len(glyphs)
		}
		name := fontName(s.Weight)
		if glyphs[0].Added {
			name = addedFont
		}
		c.buf = append(append(c.buf, name...), ' ')
		c.op("Tf", fonts.Size(s.Height))
		c.show(glyphs[:n], s.Weight)
		glyphs = glyphs[n:]
	}
}

// spells reports whether the letters of the glyphs are those of words, and none is an empty box.
func spells(glyphs []fonts.Glyph, words string) bool {
	for i, letter := range []rune(words) {
		if i >= len(glyphs) || glyphs[i].Letter != letter || glyphs[i].Missing() {
			return false
		}
	}
	return len(glyphs) == utf8.RuneCountInString(words)
}

// share returns how much of a text lies before its place.
func (a Anchor) share() float64 {
	switch a {
	case Start:
		return 0
	case Middle:
		return 0.5
	case End:
		return 1
	default:
		panic(fmt.Sprintf("render: no anchor %d", a))
	}
}

// show appends glyphs with the kerning between them, which PDF counts backwards and in thousandths of an em.
func (c *content) show(glyphs []fonts.Glyph, w Weight) {
	used := c.letters[w]
	if used == nil {
		used = map[uint16]rune{}
		c.letters[w] = used
	}
	c.buf = append(c.buf, "[<"...)
	for _, g := range glyphs {
		n := g.Index
		switch {
		case g.Added:
			n = c.added.number(g)
		case g.Missing():
			used[0] = utf8.RuneError // a box may stand for any letter
		default:
			used[n] = g.Letter
		}
		c.buf = hex.AppendEncode(c.buf, []byte{byte(n >> 8), byte(n)})
		if g.Kern != 0 {
			c.buf = append(c.buf, '>')
			c.buf = strconv.AppendInt(c.buf, int64(-g.Kern*1000/fonts.UnitsPerEm), 10)
			c.buf = append(c.buf, '<')
		}
	}
	c.buf = append(c.buf, ">] TJ\n"...)
}
