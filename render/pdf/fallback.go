package pdf

import (
	"encoding/binary"
	"fmt"
	"maps"
	"slices"
	"strings"

	"hubrule/fonts"
)

// fallback writes the objects of the fallback face with the glyphs used and returns the font's number. Pages name glyphs by
// their index in the user's file, since they are written before all letters are known; a table leads to those of the file
// embedded. It does without gopdf, which reads fewer kinds of files than a user may have and does not survive broken ones.
func (p *Writer) fallback(used map[uint16]fonts.Glyph) int {
	face := fonts.CurrentFallback()
	var letters []rune
	var widths, toEmbedded []byte
	for i, index := range slices.Sorted(maps.Keys(used)) {
		letters = append(letters, used[index].Letter)
		widths = fmt.Appendf(widths, "%d[%d]", index, used[index].Advance*1000/fonts.UnitsPerEm)
		toEmbedded = append(toEmbedded, make([]byte, 2*int(index)-len(toEmbedded))...)
		toEmbedded = binary.BigEndian.AppendUint16(toEmbedded, uint16(i+1)) // the box comes first in a font file
	}
	name := "/ADDEDX+" + strings.ReplaceAll(fonts.FallbackFamily(), " ", "") // six letters mark a subset (ISO 32000-1, 9.6.4)
	ttf := face.File(letters)
	file := p.stream(fmt.Sprintf("/Length1 %d", len(ttf)), p.packer.squeeze(ttf))
	table := p.stream("", p.packer.squeeze(toEmbedded))
	e := face.Extents()
	const symbolic = 4 // letters beyond those of the Latin alphabet
	descriptor := p.add(fmt.Sprintf("<</Type/FontDescriptor/FontName%s/Flags %d/FontBBox[%d %d %d %d]/ItalicAngle 0"+
		"/Ascent %d/Descent %d/CapHeight %d/StemV 80/FontFile2 %d 0 R>>",
		name, symbolic, e.MinX, e.MinY, e.MaxX, e.MaxY, e.Ascent, e.Descent, e.Ascent, file))
	glyphs := p.add(fmt.Sprintf("<</Type/Font/Subtype/CIDFontType2/BaseFont%s"+
		"/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/CIDToGIDMap %d 0 R/FontDescriptor %d 0 R/W[%s]>>", name,
		table, descriptor, widths))
	return p.add(fmt.Sprintf("<</Type/Font/Subtype/Type0/BaseFont%s/Encoding/Identity-H/DescendantFonts[%d 0 R]/ToUnicode %d 0 R>>",
		name, glyphs, p.stream("", p.packer.squeeze(toUnicode(used)))))
}
