package fonts

import (
	"errors"
	"fmt"
	"strings"
	"sync/atomic"

	"golang.org/x/image/font/sfnt"
)

// Fallback is a face of the user's own, in one weight, that has letters which the sheets' face lacks.
type Fallback struct {
	*face
	name string
}

// OpenFallback reads a TrueType file. The error says what the file is instead: one of another kind, a broken or truncated
// one, one that may not be embedded. A single broken outline is no error: its letter counts as one that the face lacks.
func OpenFallback(ttf []byte) (*Fallback, error) {
	if err := ttfFile(ttf).check(); err != nil {
		return nil, err
	}
	f, err := newFace(ttfFile(ttf).needed())
	if err != nil {
		return nil, fmt.Errorf("a broken font: %s", strings.TrimPrefix(err.Error(), "sfnt: "))
	}
	if !f.ttf.holds(0) {
		return nil, errors.New("a broken font: its first glyph lies outside of its tables")
	}
	name, _ := f.font.Name(&f.buffer, sfnt.NameIDFamily) // a font without a name is as good
	return &Fallback{f, name}, nil
}

// fallback is the fallback face of this process.
var fallback atomic.Pointer[Fallback]

// SetFallback makes a the face that letters come from which the sheets' face lacks, nil for none, and returns the one
// before. It holds for the whole process: call it once, before the first word is measured.
func SetFallback(a *Fallback) (before *Fallback) { return fallback.Swap(a) }

// CurrentFallback returns the fallback face, nil without one.
func CurrentFallback() *Fallback { return fallback.Load() }

// Family returns the name of the face as installed fonts spell it, without signs that a style sheet would have to
// quote; it may be empty.
func (a *Fallback) Family() string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' || r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' {
			return r
		}
		return -1
	}, a.name))
}

// FallbackFamily returns the name by which the fallback face is embedded: its own, so that programs that do not read
// embedded fonts find it where it is installed.
func FallbackFamily() string {
	if name := CurrentFallback().Family(); name != "" && name != Family {
		return name
	}
	return "Added"
}

// Extents are measures of a face in font units, of which UnitsPerEm make an em.
type Extents struct {
	MinX, MinY, MaxX, MaxY int // what the ink of all letters lies within, y up from the baseline
	Ascent, Descent        int // of a line; Descent is negative
}

// Extents returns the measures of the face.
func (a *Fallback) Extents() Extents {
	length := func(table string, at int) int {
		return int(int16(a.ttf.field(table, at))) * UnitsPerEm / a.ttf.field("head", 18)
	}
	return Extents{
		MinX: length("head", 36), MinY: length("head", 38), MaxX: length("head", 40), MaxY: length("head", 42),
		Ascent: length("hhea", 4), Descent: length("hhea", 6),
	}
}

// File returns a TrueType file whose glyph i+1 draws letter i of those given, all of which the face has to have, for
// embedding in a PDF.
func (a *Fallback) File(letters []rune) []byte {
	s := newSubset(a.ttf)
	s.add(0)
	for _, letter := range letters {
		index := a.glyph(letter).Index
		if _, ok := s.renumbered[index]; !ok {
			s.renumbered[index] = uint16(len(s.glyphs))
		}
		s.glyphs = append(s.glyphs, index) // two letters may look alike
	}
	s.addComponents()
	return s.file()
}

// glyph returns the glyph of letter, one that is missing if the face has none that can be drawn.
func (a *Fallback) glyph(letter rune) Glyph {
	a.lock.Lock()
	defer a.lock.Unlock()
	if g, ok := a.glyphs[letter]; ok {
		return g
	}
	g, err := a.read(letter)
	if err == nil && !g.Missing() && a.ttf.holds(g.Index) {
		_, err = a.font.LoadGlyph(&a.buffer, sfnt.GlyphIndex(g.Index), oneEm, nil)
		g.Fallback = err == nil
	}
	if !g.Fallback {
		g = Glyph{Letter: letter}
	}
	a.glyphs[letter] = g
	return g
}
