package fonts

import (
	"cmp"
	"encoding/binary"
	"maps"
	"math/bits"
	"slices"
)

// file assembles the new font file (OpenType specification, "Organization of an OpenType font").
func (s *subset) file() []byte {
	glyf, loca, long := s.outlines()
	return assembled([]ttfTable{
		{"OS/2", s.ttf.table("OS/2")},
		{"cmap", s.cmap()},
		{"glyf", glyf},
		{"head", withFields(withFields(s.ttf.table("head"), 8, 0, 0), 50, long)}, // the sum over the whole file, set below
		{"hhea", withFields(s.ttf.table("hhea"), 34, uint16(len(s.glyphs)))},
		{"hmtx", s.metrics()},
		{"kern", s.kern()},
		{"loca", loca},
		{"maxp", withFields(s.ttf.table("maxp"), 4, uint16(len(s.glyphs)))},
		{"name", words16(0, 0, 6)},
		{"post", namelessPost()},
	})
}

// namelessPost returns a table of version 3: glyphs have no names.
func namelessPost() []byte { return words16(3, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0) }

// ttfTable is a table of a font file.
type ttfTable struct {
	tag  string
	data []byte
}

// assembled returns a font file of tables sorted by tag, as its directory wants them.
func assembled(tables []ttfTable) []byte {
	out := append(words16(1, 0), searchFields(len(tables), 16)...) // version 1.0: TrueType outlines
	at, head := len(out)+16*len(tables), 0
	var body []byte
	for _, t := range tables {
		if t.tag == "head" {
			head = at + len(body)
		}
		out = appendWords32(append(out, t.tag...), checksum(t.data), uint32(at+len(body)), uint32(len(t.data)))
		body = append(body, t.data...)
		body = append(body, make([]byte, -len(body)&3)...)
	}
	out = append(out, body...)
	binary.BigEndian.PutUint32(out[head+8:], 0xB1B0AFBA-checksum(out))
	return out
}

// outlines returns the glyf table and its index, loca, and whether that is in the long form, 1, or the short one, 0.
func (s *subset) outlines() (glyf, loca []byte, long uint16) {
	starts := []uint32{0}
	for _, g := range s.glyphs {
		glyf = append(glyf, s.unhinted(s.ttf.outline(g))...)
		glyf = append(glyf, make([]byte, len(glyf)&1)...)
		starts = append(starts, uint32(len(glyf)))
	}
	if len(glyf)/2 > 0xFFFF {
		return glyf, appendWords32(nil, starts...), 1
	}
	for _, at := range starts {
		loca = append(loca, words16(uint16(at/2))...)
	}
	return glyf, loca, 0
}

// metrics returns the hmtx table: advance and left bearing of every glyph.
func (s *subset) metrics() []byte {
	var out []byte
	for _, g := range s.glyphs {
		out = append(out, s.ttf.metric(g)...)
	}
	return out
}

// cmap returns the table from letters to glyphs: in format 4, one segment a letter, and where there are letters beyond
// U+FFFF, in format 12 too, one group a letter.
func (s *subset) cmap() []byte {
	letters := slices.Sorted(maps.Keys(s.letters))
	var ends, starts, deltas, offsets []uint16
	groups := []byte{}
	for _, letter := range letters {
		glyph := s.renumbered[s.letters[letter]]
		groups = appendWords32(groups, uint32(letter), uint32(letter), uint32(glyph))
		if letter < 0xFFFF {
			ends, starts, deltas = append(ends, uint16(letter)), append(starts, uint16(letter)), append(deltas, glyph-uint16(letter))
		}
	}
	ends, starts, deltas = append(ends, 0xFFFF), append(starts, 0xFFFF), append(deltas, 1)
	offsets = make([]uint16, len(ends))
	segments := slices.Concat(words16(ends...), words16(0), words16(starts...), words16(deltas...), words16(offsets...))
	fields := searchFields(len(ends), 2)
	binary.BigEndian.PutUint16(fields, uint16(2*len(ends)))
	basic := slices.Concat(words16(4, uint16(14+len(segments)), 0), fields, segments)
	if n := len(letters); n == 0 || letters[n-1] <= 0xFFFF {
		return append(words16(0, 1, 3, 1, 0, 12), basic...)
	}
	full := appendWords32(words16(12, 0), uint32(16+len(groups)), 0, uint32(len(letters)))
	const head = 20
	return slices.Concat(appendWords32(words16(0, 2, 3, 1, 0, head, 3, 10), uint32(head+len(basic))), basic, full, groups)
}

// kern returns the kerning that occurs, as a kern table with one subtable of pairs, by left, then right glyph.
func (s *subset) kern() []byte {
	pairs := slices.SortedFunc(maps.Keys(s.kerns), func(a, b [2]uint16) int {
		return cmp.Or(cmp.Compare(s.renumbered[a[0]], s.renumbered[b[0]]), cmp.Compare(s.renumbered[a[1]], s.renumbered[b[1]]))
	})
	out := words16(0, 1, 0, uint16(14+6*len(pairs)), 1)
	out = append(out, searchFields(len(pairs), 6)...)
	for _, p := range pairs {
		out = append(out, words16(s.renumbered[p[0]], s.renumbered[p[1]], uint16(int16(s.kerns[p])))...)
	}
	return out
}

// searchFields returns a count and the three numbers that tell old programs how to search that many entries of a size.
func searchFields(count, size int) []byte {
	steps := max(bits.Len(uint(count))-1, 0)
	searchRange := size << steps
	return words16(uint16(count), uint16(searchRange), uint16(steps), uint16(count*size-searchRange))
}

// withFields returns a copy of table with some 16-bit fields from at replaced.
func withFields(table []byte, at int, fields ...uint16) []byte {
	out := slices.Clone(table)
	copy(out[at:], words16(fields...))
	return out
}

// words16 returns 16-bit fields as bytes.
func words16(fields ...uint16) []byte {
	out, _ := binary.Append(nil, binary.BigEndian, fields)
	return out
}

// appendWords32 appends 32-bit fields as bytes.
func appendWords32(out []byte, fields ...uint32) []byte {
	out, _ = binary.Append(out, binary.BigEndian, fields)
	return out
}

// checksum returns the checksum of a table, as if it were filled up with zeros to whole 32-bit words.
func checksum(data []byte) uint32 {
	var total uint32
	for ; len(data) >= 4; data = data[4:] {
		total += binary.BigEndian.Uint32(data)
	}
	var rest [4]byte
	copy(rest[:], data)
	return total + binary.BigEndian.Uint32(rest[:])
}
