package pdf

import (
	"encoding/hex"
	"math"
	"slices"
	"strconv"
	"unicode/utf8"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/render"
)

// text appends one line of words. The matrix turns y up again, or letters would stand on their heads.
func (c *content) text(t *render.Text) {
	sin, cos := math.Sincos(t.Angle.Radians())
	back := t.BeforeAnchor()
	start := t.At.Sub(render.Point{X: geom.MM(back * geom.MM(cos)), Y: geom.MM(-back * geom.MM(sin))})
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
func (c *content) span(s render.Span) {
	glyphs := fonts.Shape(s.Text, s.Weight)
	cut, turned := s.FullText() != s.Text, fonts.HasRTL(s.Text)
	if cut || !turned && !spells(glyphs, s.Text) {
		c.actual(s.FullText(), func() { c.runs(glyphs, s) })
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
func (c *content) runs(glyphs []fonts.Glyph, s render.Span) {
	for len(glyphs) > 0 {
		n := slices.IndexFunc(glyphs, func(g fonts.Glyph) bool { return g.Fallback != glyphs[0].Fallback })
		if n < 0 {
			n = len(glyphs)
		}
		name := fontName(s.Weight)
		if glyphs[0].Fallback {
			name = fallbackFontName
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

// show appends glyphs with the kerning between them, which PDF counts backwards and in thousandths of an em.
func (c *content) show(glyphs []fonts.Glyph, w render.Weight) {
	used := c.letters[w]
	if used == nil {
		used = map[uint16]rune{}
		c.letters[w] = used
	}
	c.buf = append(c.buf, "[<"...)
	for _, g := range glyphs {
		n := g.Index
		switch {
		case g.Fallback:
			c.fallback.note(g)
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
