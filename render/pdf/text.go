package pdf

import (
	"encoding/hex"
	"fmt"
	"math"
	"slices"
	"strconv"

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
		c.used.note(s.Weight, slices.Values(glyphs[:0])) // its font is embedded even if all letters are the fallback's
		font := s.Weight
		if glyphs[0].Fallback {
			font = fallbackFont
		}
		c.used.note(font, slices.Values(glyphs[:n]))
		c.buf = append(append(c.buf, fontName(font)...), ' ')
		c.op("Tf", fonts.Size(s.Height))
		c.show(glyphs[:n])
		glyphs = glyphs[n:]
	}
}

// spells reports whether the letters of the glyphs are those of words, and none is an empty box.
func spells(glyphs []fonts.Glyph, words string) bool {
	return slices.EqualFunc(glyphs, []rune(words), func(g fonts.Glyph, letter rune) bool { return g.Letter == letter && !g.Missing() })
}

// show appends glyphs with the kerning between them, which PDF counts backwards and in thousandths of an em.
func (c *content) show(glyphs []fonts.Glyph) {
	c.buf = append(c.buf, "[<"...)
	for _, g := range glyphs {
		c.buf = hex.AppendEncode(c.buf, []byte{byte(g.Index >> 8), byte(g.Index)})
		if g.Kern != 0 {
			c.buf = fmt.Appendf(c.buf, ">%d<", -g.Kern*1000/fonts.UnitsPerEm)
		}
	}
	c.buf = append(c.buf, ">] TJ\n"...)
}
