package pdf

import (
	"encoding/binary"
	"fmt"
	"maps"
	"slices"
	"strings"

	"hubrule/fonts"
)

// fallbackFontName is the name by which the contents of pages call the fallback face.
const fallbackFontName = "/FX"

// fallbackGlyphs maps the glyphs of the fallback face that are drawn, by their index in its own file, to one letter each.
type fallbackGlyphs map[uint16]fonts.Glyph

func (a fallbackGlyphs) note(g fonts.Glyph) {
	if before, ok := a[g.Index]; !ok || g.Letter < before.Letter { // of several letters that look alike always the same one
		a[g.Index] = g
	}
}

// fallbackFont writes the objects of the fallback face with the letters used and returns the font's number. Pages name glyphs by
// their index in the user's file, since they are written before all letters are known; a table leads to those of the file
// embedded. It does without gopdf, which reads fewer kinds of files than a user may have and does not survive broken ones.
func (p *Writer) fallbackFont() int {
	face := fonts.CurrentFallback()
	letters, unicode, widths := []rune{}, map[uint16]rune{}, []byte{}
	var toEmbedded []byte
	for i, index := range slices.Sorted(maps.Keys(p.fallback)) {
		g := p.fallback[index]
		letters = append(letters, g.Letter)
		unicode[index] = g.Letter
		widths = fmt.Appendf(widths, "%d[%d]", index, g.Advance*1000/fonts.UnitsPerEm)
		toEmbedded = append(toEmbedded, make([]byte, 2*int(index)-len(toEmbedded))...)
		toEmbedded = binary.BigEndian.AppendUint16(toEmbedded, uint16(i+1)) // the box comes first in a font file
	}
	name := "/ADDEDX+" + strings.ReplaceAll(fonts.FallbackFamily(), " ", "") // six letters mark a subset (ISO 32000-1, 9.6.4)
	ttf := face.File(letters)
	file := p.stream(fmt.Sprintf("/Length1 %d", len(ttf)), p.packer.squeeze(ttf))
	table := p.stream("", p.packer.squeeze(toEmbedded))
	e := face.Extents()
	descriptor := p.newObject()
	const symbolic = 4 // letters beyond those of the Latin alphabet
	p.object(descriptor, fmt.Sprintf("<</Type/FontDescriptor/FontName%s/Flags %d/FontBBox[%d %d %d %d]/ItalicAngle 0/Ascent %d/Descent %d/CapHeight %d/StemV 80/FontFile2 %d 0 R>>",
		name, symbolic, e.MinX, e.MinY, e.MaxX, e.MaxY, e.Ascent, e.Descent, e.Ascent, file))
	glyphs := p.newObject()
	p.object(glyphs, fmt.Sprintf("<</Type/Font/Subtype/CIDFontType2/BaseFont%s/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>"+
		"/CIDToGIDMap %d 0 R/FontDescriptor %d 0 R/W[%s]>>", name, table, descriptor, widths))
	spelled := p.stream("", p.packer.squeeze(toUnicode(unicode)))
	font := p.newObject()
	p.object(font, fmt.Sprintf("<</Type/Font/Subtype/Type0/BaseFont%s/Encoding/Identity-H/DescendantFonts[%d 0 R]/ToUnicode %d 0 R>>", name, glyphs, spelled))
	return font
}
