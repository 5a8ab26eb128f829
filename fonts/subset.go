package fonts

import (
	"cmp"
	"encoding/binary"
	"maps"
	"slices"
)

// Subset returns a TrueType file of weight w that holds only the letters of texts and the kerning that occurs
// between them, for embedding in an SVG. Hinting is left out: what is drawn there is drawn large or printed.
// The same texts give the same bytes, in whatever order they come.
func Subset(texts []string, w Weight) []byte {
	s := subset{ttf: TTF(w), letters: map[rune]Glyph{}, kerns: map[[2]uint16]int{}, renumbered: map[uint16]uint16{}}
	for _, text := range texts {
		s.gather(Shape(text, w))
	}
	s.number()
	return s.file()
}

// subset gathers what a smaller font file holds. Glyph indices are those of the whole file unless said otherwise.
type subset struct {
	ttf        []byte
	letters    map[rune]Glyph
	kerns      map[[2]uint16]int
	glyphs     []uint16          // in the order of the new file; the empty box comes first, as it must
	renumbered map[uint16]uint16 // index in the new file
}

func (s *subset) gather(glyphs []Glyph) {
	for i, g := range glyphs {
		if _, ok := s.letters[g.Letter]; !ok {
			s.letters[g.Letter] = g
		}
		if g.Kern != 0 {
			s.kerns[[2]uint16{g.Index, glyphs[i+1].Index}] = g.Kern
		}
	}
}

// number fixes the glyphs of the new file: the box, the letters, and the parts that letters are composed of.
func (s *subset) number() {
	s.add(0)
	for _, letter := range slices.Sorted(maps.Keys(s.letters)) {
		s.add(s.letters[letter].Index)
	}
	for i := 0; i < len(s.glyphs); i++ { // grows while it runs: parts may have parts
		outline := s.outline(s.glyphs[i])
		for _, at := range parts(outline) {
			s.add(binary.BigEndian.Uint16(outline[at:]))
		}
	}
}

func (s *subset) add(glyph uint16) {
	if _, ok := s.renumbered[glyph]; !ok {
		s.renumbered[glyph] = uint16(len(s.glyphs))
		s.glyphs = append(s.glyphs, glyph)
	}
}

// outline returns the glyph's record in the glyf table; an empty one has no outline.
func (s *subset) outline(glyph uint16) []byte {
	loca, glyf := s.table("loca"), s.table("glyf")
	from := binary.BigEndian.Uint16(loca[2*glyph:]) // the short form; a test holds the files to it
	to := binary.BigEndian.Uint16(loca[2*glyph+2:])
	return glyf[2*int(from) : 2*int(to)]
}

// table returns a table of the whole file.
func (s *subset) table(tag string) []byte {
	for entry := s.ttf[12:]; ; entry = entry[16:] {
		if string(entry[:4]) == tag {
			at, n := binary.BigEndian.Uint32(entry[8:]), binary.BigEndian.Uint32(entry[12:])
			return s.ttf[at : at+n]
		}
	}
}

// Flags of a part in a composite glyph (OpenType specification, "glyf").
const (
	wordArguments  = 0x0001
	oneScale       = 0x0008
	moreParts      = 0x0020
	twoScales      = 0x0040
	matrix         = 0x0080
	hasInstruction = 0x0100
)

// parts returns where in a composite outline the indices of its parts stand; a simple outline has none.
func parts(outline []byte) []int {
	if len(outline) == 0 || int16(binary.BigEndian.Uint16(outline)) >= 0 {
		return nil
	}
	var found []int
	for at := 10; ; {
		flags := binary.BigEndian.Uint16(outline[at:])
		found = append(found, at+2)
		at = partEnd(at, flags)
		if flags&moreParts == 0 {
			return found
		}
	}
}

// partEnd returns the end of the part of a composite outline that starts at at.
func partEnd(at int, flags uint16) int {
	at += 6
	if flags&wordArguments != 0 {
		at += 2
	}
	switch {
	case flags&oneScale != 0:
		at += 2
	case flags&twoScales != 0:
		at += 4
	case flags&matrix != 0:
		at += 8
	}
	return at
}

// trimmed returns a copy of an outline without hinting instructions and with its parts renumbered.
func (s *subset) trimmed(outline []byte) []byte {
	if len(outline) == 0 {
		return nil
	}
	if found := parts(outline); found != nil {
		last := found[len(found)-1] - 2
		end := partEnd(last, binary.BigEndian.Uint16(outline[last:]))
		out := slices.Clone(outline[:end])
		for _, at := range found {
			flags := binary.BigEndian.Uint16(out[at-2:])
			binary.BigEndian.PutUint16(out[at-2:], flags&^hasInstruction)
			binary.BigEndian.PutUint16(out[at:], s.renumbered[binary.BigEndian.Uint16(out[at:])])
		}
		return out
	}
	contours := int(binary.BigEndian.Uint16(outline))
	at := 10 + 2*contours
	instructions := int(binary.BigEndian.Uint16(outline[at:]))
	out := append(slices.Clone(outline[:at]), 0, 0)
	return append(out, outline[at+2+instructions:]...)
}

// sortedKerns returns the pairs by left, then right glyph of the new file, as a kern table wants them.
func (s *subset) sortedKerns() [][2]uint16 {
	return slices.SortedFunc(maps.Keys(s.kerns), func(a, b [2]uint16) int {
		return cmp.Or(cmp.Compare(s.renumbered[a[0]], s.renumbered[b[0]]), cmp.Compare(s.renumbered[a[1]], s.renumbered[b[1]]))
	})
}
