package fonts

import (
	"slices"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Glyph is one letter of a shaped text. Advance and Kern are in font units.
type Glyph struct {
	Letter   rune
	Index    uint16 // in the font file; 0 is the empty box of a missing letter
	Fallback bool   // the font file is the fallback face's, see SetFallback
	Advance  int    // its own width
	Kern     int    // to be added before the next letter, 0 for the last unless it is a combining mark
}

// Missing reports whether neither the face nor the fallback has g's letter.
func (g Glyph) Missing() bool { return g.Index == 0 }

// Shape returns the glyphs of text from left to right, one per letter that is seen: the face's ligatures are not used,
// so that every writer and reader can tell letters apart. Letters that run from right to left come in the order in
// which they are seen, format characters not at all. Letters that the face lacks come from the fallback face, or are
// the empty box. A combining mark stands over the middle of its letter and has no width, unless it is a box.
func Shape(text string, w Weight) []Glyph {
	f := faceOf(w)
	f.lock.Lock()
	defer f.lock.Unlock()
	glyphs := make([]Glyph, 0, len(text))
	base := 0 // the last letter that is no mark
	for _, letter := range visualOrder(text) {
		g, n := f.glyph(letter), len(glyphs)
		switch {
		case n == 0:
		case isMark(letter) && !g.Missing():
			back := f.inkCentre(g) + glyphs[base].Advance/2 // from behind the letter to where the mark's ink is over it
			glyphs[n-1].Kern -= back
			g.Kern = back - g.Advance
		default:
			glyphs[n-1].Kern += f.kern(glyphs[n-1], g)
			base = n
		}
		glyphs = append(glyphs, g)
	}
	return glyphs
}

// Missing returns the letters of text that neither the face nor the fallback has, each once, in the order in which
// they stand. All three weights cover the same letters. Such a letter is drawn as the face's empty box.
func Missing(text string) []rune {
	var missing []rune
	for _, letter := range text {
		for _, g := range Shape(string(letter), Regular) { // none if it is never seen
			if g.Missing() && !slices.Contains(missing, letter) {
				missing = append(missing, letter)
			}
		}
	}
	return missing
}

// Control returns the first control character or end of a line in text, which no line of words can hold: readers of
// files disagree on what it looks like.
func Control(text string) (letter rune, found bool) {
	for _, letter := range text {
		if unicode.In(letter, unicode.Cc, unicode.Zl, unicode.Zp) {
			return letter, true
		}
	}
	return 0, false
}

// face is a font file and what was looked up in it.
type face struct {
	ttf    ttfFile
	font   *sfnt.Font
	lock   sync.Mutex
	buffer sfnt.Buffer
	glyphs map[rune]Glyph // letters that the file lacks have index 0
	kerns  map[uint32]int // by both glyphs, the left one in the higher bits
}

// newFace parses a font file.
func newFace(ttf ttfFile) (*face, error) {
	font, err := sfnt.Parse(ttf)
	return &face{ttf: ttf, font: font, glyphs: map[rune]Glyph{}, kerns: map[uint32]int{}}, err
}

// faceOf returns the face of w, one of the embedded weights.
func faceOf(w Weight) *face { return faces[w]() }

var faces = map[Weight]func() *face{Regular: embedded(regular), Medium: embedded(medium), SemiBold: embedded(semiBold)}

// embedded returns a function that parses an embedded file once.
func embedded(ttf []byte) func() *face {
	return sync.OnceValue(func() *face { return must(newFace(ttf)) })
}

// must panics on errors of the embedded files: they are part of the program, and a test reads them whole.
func must[T any](v T, err error) T {
	if err != nil {
		panic("fonts: " + err.Error())
	}
	return v
}

// oneEm makes sfnt answer in font units: the smallest step of its fixed-point numbers is one unit.
const oneEm = fixed.Int26_6(UnitsPerEm)

// glyph returns the glyph of letter, the fallback's where f lacks it, without kerning.
func (f *face) glyph(letter rune) Glyph {
	g, ok := f.glyphs[letter]
	if !ok {
		g = must(f.read(letter))
		f.glyphs[letter] = g
	}
	if other := fallback.Load(); other != nil && g.Missing() {
		if own := other.glyph(letter); !own.Missing() {
			return own
		}
	}
	return g
}

// inkCentre returns how far right of its origin the ink of g has its middle.
func (f *face) inkCentre(g Glyph) int {
	if g.Fallback {
		f = CurrentFallback().face
		f.lock.Lock()
		defer f.lock.Unlock()
	}
	b, _, err := f.font.GlyphBounds(&f.buffer, sfnt.GlyphIndex(g.Index), oneEm, font.HintingNone)
	return int(must(b, err).Min.X+b.Max.X) / 2
}

// kern returns the correction between two neighbouring letters of the face from its GPOS table; others have none, so
// that readers of embedded fonts need no more than their letters.
func (f *face) kern(left, right Glyph) int {
	if left.Fallback || right.Fallback || left.Missing() || right.Missing() {
		return 0
	}
	pair := uint32(left.Index)<<16 | uint32(right.Index)
	k, ok := f.kerns[pair]
	if !ok {
		found, err := f.font.Kern(&f.buffer, sfnt.GlyphIndex(left.Index), sfnt.GlyphIndex(right.Index), oneEm, font.HintingNone)
		if err == sfnt.ErrNotFound {
			err = nil
		}
		k = int(must(found, err))
		f.kerns[pair] = k
	}
	return k
}

// read returns the glyph of letter from the font file.
func (f *face) read(letter rune) (Glyph, error) {
	index, err := f.font.GlyphIndex(&f.buffer, letter)
	if err != nil {
		return Glyph{}, err
	}
	advance, err := f.font.GlyphAdvance(&f.buffer, index, oneEm, font.HintingNone)
	return Glyph{Letter: letter, Index: uint16(index), Advance: int(advance)}, err
}
