package fonts

import (
	"encoding/binary"
	"maps"
	"math/bits"
	"slices"
)

// file assembles the new font file (OpenType specification, "Organization of an OpenType font").
func (s *subset) file() []byte {
	glyf, loca := s.outlines()
	tables := []struct {
		tag  string
		data []byte
	}{ // sorted by tag, as the directory wants them
		{"OS/2", s.table("OS/2")},
		{"cmap", s.cmap()},
		{"glyf", glyf},
		{"head", patched(s.table("head"), 8, 0, 0)}, // the sum over the whole file, set below
		{"hhea", patched(s.table("hhea"), 34, uint16(len(s.glyphs)))},
		{"hmtx", s.metrics()},
		{"kern", s.kern()},
		{"loca", loca},
		{"maxp", patched(s.table("maxp"), 4, uint16(len(s.glyphs)))},
		{"name", words(0, 0, 6)},
		{"post", words(3, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0)}, // version 3: glyphs have no names
	}
	out := append(words(1, 0), searchFields(len(tables), 16)...) // version 1.0: TrueType outlines
	at, head := len(out)+16*len(tables), 0
	var body []byte
	for _, t := range tables {
		if t.tag == "head" {
			head = at + len(body)
		}
		out = append(out, t.tag...)
		out = binary.BigEndian.AppendUint32(out, sum(t.data))
		out = binary.BigEndian.AppendUint32(out, uint32(at+len(body)))
		out = binary.BigEndian.AppendUint32(out, uint32(len(t.data)))
		body = append(body, t.data...)
		body = append(body, make([]byte, -len(body)&3)...)
	}
	out = append(out, body...)
	binary.BigEndian.PutUint32(out[head+8:], 0xB1B0AFBA-sum(out))
	return out
}

// outlines returns the glyf table and its index, loca, in the short form.
func (s *subset) outlines() (glyf, loca []byte) {
	for _, g := range s.glyphs {
		loca = binary.BigEndian.AppendUint16(loca, uint16(len(glyf)/2))
		glyf = append(glyf, s.trimmed(s.outline(g))...)
		glyf = append(glyf, make([]byte, len(glyf)&1)...)
	}
	return glyf, binary.BigEndian.AppendUint16(loca, uint16(len(glyf)/2))
}

// metrics returns the hmtx table: advance and left bearing of every glyph.
func (s *subset) metrics() []byte {
	whole := s.table("hmtx")
	var out []byte
	for _, g := range s.glyphs {
		out = append(out, whole[4*int(g):4*int(g)+4]...)
	}
	return out
}

// cmap returns the table from letters to glyphs in format 4, one segment a letter. All letters of the face are
// below U+10000.
func (s *subset) cmap() []byte {
	letters := slices.Sorted(maps.Keys(s.letters))
	var ends, starts, deltas, offsets []uint16
	for _, letter := range letters {
		ends, starts = append(ends, uint16(letter)), append(starts, uint16(letter))
		deltas = append(deltas, s.renumbered[s.letters[letter].Index]-uint16(letter))
	}
	ends, starts, deltas = append(ends, 0xFFFF), append(starts, 0xFFFF), append(deltas, 1)
	offsets = make([]uint16, len(ends))
	segments := slices.Concat(words(ends...), words(0), words(starts...), words(deltas...), words(offsets...))
	fields := searchFields(len(ends), 2)
	binary.BigEndian.PutUint16(fields, uint16(2*len(ends)))
	return slices.Concat(words(0, 1, 3, 1, 0, 12, 4, uint16(14+len(segments)), 0), fields, segments)
}

// kern returns the kerning that occurs, as a kern table with one subtable of pairs.
func (s *subset) kern() []byte {
	pairs := s.sortedKerns()
	out := words(0, 1, 0, uint16(14+6*len(pairs)), 1)
	out = append(out, searchFields(len(pairs), 6)...)
	for _, p := range pairs {
		out = append(out, words(s.renumbered[p[0]], s.renumbered[p[1]], uint16(int16(s.kerns[p])))...)
	}
	return out
}

// searchFields returns a count and the three numbers that tell old programs how to search that many entries of a size.
func searchFields(count, size int) []byte {
	steps := max(bits.Len(uint(count))-1, 0)
	searchRange := size << steps
	return words(uint16(count), uint16(searchRange), uint16(steps), uint16(count*size-searchRange))
}

// patched returns a copy of table with some 16-bit fields from at replaced.
func patched(table []byte, at int, fields ...uint16) []byte {
	out := slices.Clone(table)
	copy(out[at:], words(fields...))
	return out
}

// words returns 16-bit fields as bytes.
func words(fields ...uint16) []byte {
	out := make([]byte, 0, 2*len(fields))
	for _, f := range fields {
		out = binary.BigEndian.AppendUint16(out, f)
	}
	return out
}

// sum returns the checksum of a table, as if it were filled up with zeros to whole 32-bit words.
func sum(data []byte) uint32 {
	var total uint32
	for ; len(data) >= 4; data = data[4:] {
		total += binary.BigEndian.Uint32(data)
	}
	var rest [4]byte
	copy(rest[:], data)
	return total + binary.BigEndian.Uint32(rest[:])
}
