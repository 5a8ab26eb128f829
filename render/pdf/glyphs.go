package pdf

import (
	"fmt"
	"iter"
	"maps"
	"slices"
	"unicode/utf8"

	"hubrule/fonts"
	"hubrule/render"
)

// fallbackFont stands for the fallback face, which has one weight, where the sheets' face has its own.
const fallbackFont render.Weight = 1000

// fontName returns the name by which the contents of pages call a font.
func fontName(font render.Weight) string {
	if font == fallbackFont {
		return "/FX"
	}
	return fmt.Sprintf("/F%d", font)
}

// usedGlyphs holds the glyphs drawn so far, by their font and their index in its whole file.
type usedGlyphs map[render.Weight]map[uint16]fonts.Glyph

// note adds glyphs; of several letters that look alike the first stands for all.
func (u usedGlyphs) note(font render.Weight, glyphs iter.Seq[fonts.Glyph]) {
	if u[font] == nil {
		u[font] = map[uint16]fonts.Glyph{}
	}
	for g := range glyphs {
		if g.Missing() {
			g.Letter = utf8.RuneError // a box may stand for any letter
		}
		if before, ok := u[font][g.Index]; !ok || g.Letter < before.Letter {
			u[font][g.Index] = g
		}
	}
}

// toUnicode returns the table from glyphs to letters by which text is copied and searched. gopdf's own is not
// taken over: its code space leaves out most two-byte codes, and its blocks are longer than the 100 allowed.
func toUnicode(glyphs map[uint16]fonts.Glyph) []byte {
	b := []byte("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n" +
		"/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" +
		"1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n")
	for block := range slices.Chunk(slices.Sorted(maps.Keys(glyphs)), 100) {
		b = fmt.Appendf(b, "%d beginbfchar\n", len(block))
		for _, index := range block {
			b = fmt.Appendf(b, "<%04X> <%s>\n", index, hexUTF16(string(glyphs[index].Letter)))
		}
		b = append(b, "endbfchar\n"...)
	}
	return append(b, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"...)
}
