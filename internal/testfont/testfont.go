// Package testfont makes small TrueType files for tests that need a face with strange letters: real faces of wide
// coverage are too large to keep with the project.
package testfont

import (
	"encoding/binary"
	"slices"
)

// Relettered returns the TrueType file ttf with other letters: letter i of letters is drawn by glyph i+1 of ttf, which
// has to have that many glyphs. It panics on a file that is not whole.
func Relettered(ttf []byte, letters string) []byte {
	type entry struct {
		tag  string
		data []byte
	}
	var tables []entry
	for i := range int(binary.BigEndian.Uint16(ttf[4:])) {
		head := ttf[12+16*i:]
		at, n := binary.BigEndian.Uint32(head[8:]), binary.BigEndian.Uint32(head[12:])
		tables = append(tables, entry{string(head[:4]), ttf[at : at+n]})
		if tables[i].tag == "cmap" {
			tables[i].data = cmap([]rune(letters))
		}
	}
	out, body := slices.Clone(ttf[:12]), []byte(nil)
	for _, t := range tables {
		out = append(append(out, t.tag...), 0, 0, 0, 0) // nobody looks at the sums
		out = binary.BigEndian.AppendUint32(out, uint32(12+16*len(tables)+len(body)))
		out = binary.BigEndian.AppendUint32(out, uint32(len(t.data)))
		body = append(append(body, t.data...), make([]byte, -len(t.data)&3)...)
	}
	return append(out, body...)
}

// cmap returns the table from letters to glyphs in format 12 (OpenType specification, "cmap").
func cmap(letters []rune) []byte {
	var groups []byte
	for _, letter := range slices.Sorted(slices.Values(letters)) {
		for _, field := range []int{int(letter), int(letter), slices.Index(letters, letter) + 1} {
			groups = binary.BigEndian.AppendUint32(groups, uint32(field))
		}
	}
	out := []byte{0, 0, 0, 1, 0, 3, 0, 10, 0, 0, 0, 12, 0, 12, 0, 0}
	for _, field := range []int{16 + len(groups), 0, len(letters)} {
		out = binary.BigEndian.AppendUint32(out, uint32(field))
	}
	return append(out, groups...)
}
