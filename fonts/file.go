package fonts

import (
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
)

// ttfFile is a TrueType file as a whole.
type ttfFile []byte

// table returns a table of the file, empty if it has none.
func (f ttfFile) table(tag string) []byte {
	for i := range int(binary.BigEndian.Uint16(f[4:])) {
		entry := f[12+16*i:]
		if string(entry[:4]) == tag {
			at, n := binary.BigEndian.Uint32(entry[8:]), binary.BigEndian.Uint32(entry[12:])
			return f[at : at+n]
		}
	}
	return nil
}

// field returns the 16-bit field at a place in a table.
func (f ttfFile) field(table string, at int) int {
	return int(binary.BigEndian.Uint16(f.table(table)[at:]))
}

// outline returns the glyph's record in the glyf table; an empty one has no outline.
func (f ttfFile) outline(glyph uint16) []byte {
	from, to := f.span(glyph)
	return f.table("glyf")[from:to]
}

// span returns where in the glyf table a glyph's record lies.
func (f ttfFile) span(glyph uint16) (from, to int) {
	loca := f.table("loca")
	if f.longIndex() {
		return int(binary.BigEndian.Uint32(loca[4*int(glyph):])), int(binary.BigEndian.Uint32(loca[4*int(glyph)+4:]))
	}
	return 2 * int(binary.BigEndian.Uint16(loca[2*int(glyph):])), 2 * int(binary.BigEndian.Uint16(loca[2*int(glyph)+2:]))
}

// longIndex reports whether the index of outlines, loca, has four bytes a glyph.
func (f ttfFile) longIndex() bool { return f.field("head", 50) != 0 }

// metric returns the advance and the left bearing of a glyph, four bytes. The last advance holds for all glyphs after it.
func (f ttfFile) metric(glyph uint16) []byte {
	whole, full := f.table("hmtx"), f.field("hhea", 34)
	if int(glyph) < full {
		return whole[4*int(glyph):][:4]
	}
	at := 4*full + 2*(int(glyph)-full)
	return slices.Concat(whole[4*full-4:][:2], whole[at:][:2])
}

// check returns what keeps a user's file from being read table by table. It bounds every index that the methods
// above take from the file but those of single outlines.
func (f ttfFile) check() error {
	if err := f.checkKind(); err != nil {
		return err
	}
	tables := int(binary.BigEndian.Uint16(f[4:]))
	if len(f) < 12+16*tables {
		return errTruncated
	}
	for i := range tables {
		entry := f[12+16*i:]
		if at, n := binary.BigEndian.Uint32(entry[8:]), binary.BigEndian.Uint32(entry[12:]); uint64(at)+uint64(n) > uint64(len(f)) {
			return errTruncated
		}
	}
	if f.table("glyf") == nil {
		return errors.New("a font without outlines of the TrueType kind (no glyf table); want a .ttf with them")
	}
	for _, need := range []struct {
		tag   string
		bytes int
	}{{"OS/2", 68}, {"cmap", 4}, {"head", 54}, {"hhea", 36}, {"hmtx", 4}, {"loca", 4}, {"maxp", 6}} {
		if len(f.table(need.tag)) < need.bytes {
			return fmt.Errorf("a broken font: its table %q is missing or too short", need.tag)
		}
	}
	return f.checkCounts()
}

var errTruncated = errors.New("a font that ends too early; is it whole?")

// checkKind tells files of other kinds by their first bytes.
func (f ttfFile) checkKind() error {
	switch string(f[:min(4, len(f))]) {
	case "\x00\x01\x00\x00", "true":
		if len(f) < 12 {
			return errTruncated
		}
		return nil
	case "OTTO":
		return errors.New("a font with PostScript outlines (CFF); want one with TrueType outlines, a .ttf")
	case "ttcf":
		return errors.New("a collection of several fonts (.ttc); want the file of one font, a .ttf")
	case "wOFF", "wOF2":
		return errors.New("a font packed for web pages; want it unpacked, a .ttf")
	}
	return errors.New("not a font; want a TrueType font, a .ttf")
}

// checkCounts sees that the tables hold as many glyphs as the file says.
func (f ttfFile) checkCounts() error {
	glyphs, full, em, size := f.field("maxp", 4), f.field("hhea", 34), f.field("head", 18), 2
	if f.longIndex() {
		size = 4
	}
	if glyphs == 0 || full == 0 || full > glyphs || em < 16 || em > 16384 ||
		len(f.table("hmtx")) < 4*full+2*(glyphs-full) || len(f.table("loca")) < size*(glyphs+1) {
		return errors.New("a broken font: its tables do not hold as many letters as it says")
	}
	// Bits of OS/2's fsType: 0x0002 alone forbids embedding, 0x0100 parts of the font, 0x0200 outlines.
	if rights := f.field("OS/2", 8); rights&0xF == 2 || rights&0x300 != 0 {
		return fmt.Errorf("a font that its maker does not allow to embed in files (fsType %#04x); want another", rights)
	}
	return nil
}

// needed returns a file of those tables only that letters are drawn by. What others say, of kerning say, is not used, so it
// need not be in order either.
func (f ttfFile) needed() ttfFile {
	var tables []ttfTable
	for _, tag := range []string{"OS/2", "cmap", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "name"} {
		if data := f.table(tag); data != nil {
			tables = append(tables, ttfTable{tag, data})
		}
	}
	return assembled(append(tables, ttfTable{"post", namelessPost()}))
}

// The bounds of an outline that is put together of parts, which may have parts: as deep as sfnt goes, and far more than
// any letter has.
const (
	partsDeep = 8
	mostParts = 1000
)

// holds reports whether the outline of a glyph, and of all parts that it is put together of, lie within the glyf table.
func (f ttfFile) holds(glyph uint16) bool {
	left := mostParts
	return f.holdsPart(glyph, partsDeep, &left)
}

// holdsPart is holds for a part with depth levels to go; left counts the parts that the whole outline may still have.
func (f ttfFile) holdsPart(glyph uint16, depth int, left *int) bool {
	*left--
	if int(glyph) >= f.field("maxp", 4) || depth == 0 || *left < 0 {
		return false
	}
	from, to := f.span(glyph)
	if from > to || to > len(f.table("glyf")) {
		return false
	}
	outline := f.table("glyf")[from:to]
	found, ok := components(outline)
	return ok && !slices.ContainsFunc(found, func(at int) bool {
		return !f.holdsPart(binary.BigEndian.Uint16(outline[at:]), depth-1, left)
	})
}
