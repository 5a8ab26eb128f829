package render

import (
	"fmt"
	"strings"

	"hubrule/fonts"
)

// addedFont is the name by which the contents of pages call the added face.
const addedFont = "/FX"

// addedLetters numbers the letters of the added face as they come: pages are written before all of them are known, and
// the font file that ends the document has them in this order.
type addedLetters struct {
	numbers map[rune]uint16 // from 1; the box comes first in a font file
	letters []fonts.Glyph
}

// number returns the number of g's letter.
func (a *addedLetters) number(g fonts.Glyph) uint16 {
	n, ok := a.numbers[g.Letter]
	if !ok {
		a.letters = append(a.letters, g)
		n = uint16(len(a.letters))
		a.numbers[g.Letter] = n
	}
	return n
}

// addedFace writes the objects of the added face with the letters used and returns the font's number. It does without
// gopdf, which reads fewer kinds of files than a user may have and does not survive broken ones.
func (p *PDF) addedFace() int {
	face := fonts.Extension()
	letters, unicode, widths := []rune{}, map[uint16]rune{}, []byte{}
	for i, g := range p.added.letters {
		letters = append(letters, g.Letter)
		unicode[uint16(i+1)] = g.Letter
		widths = fmt.Appendf(widths, "%d ", g.Advance*1000/fonts.UnitsPerEm)
	}
	name := "/ADDEDX+" + strings.ReplaceAll(addedFamily(), " ", "") // six letters mark a subset (ISO 32000-1, 9.6.4)
	ttf := face.File(letters)
	file := p.streamWith(fmt.Sprintf("/Length1 %d", len(ttf)), ttf)
	e := face.Extents()
	descriptor := p.newObject()
	const symbolic = 4 // letters beyond those of the Latin alphabet
	p.object(descriptor, fmt.Sprintf("<</Type/FontDescriptor/FontName%s/Flags %d/FontBBox[%d %d %d %d]/ItalicAngle 0/Ascent %d/Descent %d/CapHeight %d/StemV 80/FontFile2 %d 0 R>>",
		name, symbolic, e.MinX, e.MinY, e.MaxX, e.MaxY, e.Ascent, e.Descent, e.Ascent, file))
	glyphs := p.newObject()
	p.object(glyphs, fmt.Sprintf("<</Type/Font/Subtype/CIDFontType2/BaseFont%s/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>"+
		"/CIDToGIDMap/Identity/FontDescriptor %d 0 R/W[1[%s]]>>", name, descriptor, widths))
	table := p.stream(toUnicode(unicode))
	font := p.newObject()
	p.object(font, fmt.Sprintf("<</Type/Font/Subtype/Type0/BaseFont%s/Encoding/Identity-H/DescendantFonts[%d 0 R]/ToUnicode %d 0 R>>", name, glyphs, table))
	return font
}
