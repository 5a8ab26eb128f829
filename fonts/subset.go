package fonts

import (
	"encoding/binary"
	"maps"
	"slices"
)

// Subset returns a TrueType file of weight w that holds only the letters of texts and the kerning that occurs
// between them, for embedding in an SVG. Letters that the face lacks are a copy of its empty box there; letters of the
// fallback face are left out, see SubsetFallback. Hinting is left out: what is drawn there is drawn large or printed.
// The same texts give the same bytes, in whatever order they come.
func Subset(texts []string, w Weight) []byte {
	s := newSubset(TTF(w))
	s.gather(texts, w, false)
	s.number()
	return s.file()
}

// SubsetFallback returns a TrueType file of the fallback face that holds only the letters that texts take from it, nothing
// if they take none.
func SubsetFallback(texts []string) []byte {
	added := CurrentFallback()
	if added == nil {
		return nil
	}
	s := newSubset(added.ttf)
	s.gather(texts, Regular, true)
	if len(s.letters) == 0 {
		return nil
	}
	s.number()
	return s.file()
}

// subset gathers what a smaller font file holds. Glyph indices are those of the whole file unless said otherwise.
type subset struct {
	ttf        ttfFile
	letters    map[rune]uint16 // their glyphs, 0 for one that is missing
	kerns      map[[2]uint16]int
	glyphs     []uint16          // in the order of the new file; the empty box comes first, as it must
	renumbered map[uint16]uint16 // index in the new file
}

func newSubset(ttf ttfFile) *subset {
	return &subset{ttf: ttf, letters: map[rune]uint16{}, kerns: map[[2]uint16]int{}, renumbered: map[uint16]uint16{}}
}

// gather takes the letters of texts that come from the face, or those from the fallback.
func (s *subset) gather(texts []string, w Weight, added bool) {
	for _, text := range texts {
		glyphs := Shape(text, w)
		for i, g := range glyphs {
			if g.Fallback != added {
				continue
			}
			s.letters[g.Letter] = g.Index
			if g.Kern != 0 && !isMark(g.Letter) && !isMark(glyphs[i+1].Letter) { // marks are set by whoever draws them
				s.kerns[[2]uint16{g.Index, glyphs[i+1].Index}] = g.Kern
			}
		}
	}
}

// number fixes the glyphs of the new file: the box, the letters, the parts that letters are composed of, and the box
// once more for missing letters: readers take a letter that has the first glyph from another font.
func (s *subset) number() {
	s.add(0)
	for _, letter := range slices.Sorted(maps.Keys(s.letters)) {
		s.add(s.letters[letter])
	}
	s.addComponents()
	if slices.Contains(slices.Collect(maps.Values(s.letters)), 0) {
		s.renumbered[0] = uint16(len(s.glyphs))
		s.glyphs = append(s.glyphs, 0)
	}
}

// addComponents adds the parts that the glyphs are composed of.
func (s *subset) addComponents() {
	for i := 0; i < len(s.glyphs); i++ { // grows while it runs: parts may have parts
		outline := s.ttf.outline(s.glyphs[i])
		found, _ := components(outline)
		for _, at := range found {
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

// Flags of a part in a composite glyph (OpenType specification, "glyf").
const (
	wordArguments  = 0x0001
	oneScale       = 0x0008
	moreParts      = 0x0020
	twoScales      = 0x0040
	matrix         = 0x0080
	hasInstruction = 0x0100
)

// components returns where in an outline the indices of its parts stand; a simple outline has none. It is not ok where
// an outline ends before all that it says is there.
func components(outline []byte) (found []int, ok bool) {
	if len(outline) == 0 {
		return nil, true
	}
	if len(outline) < 10 {
		return nil, false
	}
	if contours := int(int16(binary.BigEndian.Uint16(outline))); contours >= 0 {
		at := 10 + 2*contours
		return nil, at+2 <= len(outline) && at+2+int(binary.BigEndian.Uint16(outline[at:])) <= len(outline)
	}
	for at := 10; at+4 <= len(outline); {
		flags := binary.BigEndian.Uint16(outline[at:])
		found = append(found, at+2)
		at = componentEnd(at, flags)
		if flags&moreParts == 0 {
			return found, at <= len(outline)
		}
	}
	return found, false
}

// componentEnd returns the end of the part of a composite outline that starts at at.
func componentEnd(at int, flags uint16) int {
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

// unhinted returns a copy of an outline without hinting instructions and with its parts renumbered.
func (s *subset) unhinted(outline []byte) []byte {
	if len(outline) == 0 {
		return nil
	}
	if found, _ := components(outline); found != nil {
		last := found[len(found)-1] - 2
		end := componentEnd(last, binary.BigEndian.Uint16(outline[last:]))
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
