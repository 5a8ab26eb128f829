package fonts

import (
	"fmt"
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
	return f.shape(text)
}

func (f *face) shape(text string) []Glyph {
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

// units returns the width of text in font units, kerning included.
func units(text string, w Weight) int {
	f := faceOf(w)
	f.lock.Lock()
	defer f.lock.Unlock()
	sum, before := 0, 0
	for i, letter := range text {
		at, ok := place(letter)
		if !ok || letter == softHyphen {
			return sumOf(f.shape(text))
		}
		sum += f.prepared.glyph(letter, at).Advance
		if i > 0 {
			sum += f.prepared.kern(before, at)
		}
		before = at
	}
	return sum
}

func sumOf(glyphs []Glyph) int {
	sum := 0
	for _, g := range glyphs {
		sum += g.Advance + g.Kern
	}
	return sum
}

// Missing returns the letters of text that neither the face nor the fallback has, each once, in the order in which
// they stand. All three weights cover the same letters. Such a letter is drawn as the face's empty box.
func Missing(text string) []rune {
	f := faceOf(Regular)
	f.lock.Lock()
	defer f.lock.Unlock()
	var missing []rune
	for _, letter := range text {
		if _, ok := place(letter); ok || isInvisible(letter) || slices.Contains(missing, letter) {
			continue
		}
		if f.glyph(letter).Missing() {
			missing = append(missing, letter)
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

// face is one weight: what lies prepared of it, and its font file for every other letter.
type face struct {
	prepared metrics
	font     func() *sfnt.Font // parsed at the first letter that is not prepared; most commands have none
	lock     sync.Mutex
	buffer   sfnt.Buffer
}

// faceOf returns the face of w.
func faceOf(w Weight) *face {
	switch w {
	case Regular:
		return regularFace()
	case Medium:
		return mediumFace()
	case SemiBold:
		return semiBoldFace()
	default:
		panic(fmt.Sprintf("fonts: no weight %d", w))
	}
}

var (
	regularFace  = sync.OnceValue(func() *face { return newFace(regular, prepared400) })
	mediumFace   = sync.OnceValue(func() *face { return newFace(medium, prepared500) })
	semiBoldFace = sync.OnceValue(func() *face { return newFace(semiBold, prepared600) })
)

func newFace(ttf []byte, prepared metrics) *face {
	return &face{prepared: prepared, font: sync.OnceValue(func() *sfnt.Font { return parse(ttf) })}
}

// parse panics on a broken file: the files are part of the program, and a test reads them whole.
func parse(ttf []byte) *sfnt.Font {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic("fonts: " + err.Error())
	}
	return f
}

// oneEm makes sfnt answer in font units: the smallest step of its fixed-point numbers is one unit.
const oneEm = fixed.Int26_6(UnitsPerEm)

// glyph returns the glyph of letter, without kerning.
func (f *face) glyph(letter rune) Glyph {
	if at, ok := place(letter); ok {
		return f.prepared.glyph(letter, at)
	}
	g := f.read(letter)
	if added := fallback.Load(); added != nil && g.Missing() {
		if own, ok := added.glyph(letter); ok {
			return own
		}
	}
	return g
}

// inkCentre returns how far right of its origin the ink of g has its middle.
func (f *face) inkCentre(g Glyph) int {
	if g.Fallback {
		return fallback.Load().inkCentre(g)
	}
	b, _, err := f.font().GlyphBounds(&f.buffer, sfnt.GlyphIndex(g.Index), oneEm, font.HintingNone)
	if err != nil {
		panic("fonts: " + err.Error())
	}
	return int(b.Min.X+b.Max.X) / 2
}

// kern returns the correction between two neighbouring letters of the face; others have none, so that readers of
// embedded fonts need no more than their letters.
func (f *face) kern(left, right Glyph) int {
	if left.Fallback || right.Fallback || left.Missing() || right.Missing() {
		return 0
	}
	at, ok := place(left.Letter)
	next, ok2 := place(right.Letter)
	if ok && ok2 {
		return f.prepared.kern(at, next)
	}
	return f.readKern(left, right)
}

// read returns the glyph of letter from the font file.
func (f *face) read(letter rune) Glyph {
	index, err := f.font().GlyphIndex(&f.buffer, letter)
	if err != nil {
		panic("fonts: " + err.Error())
	}
	advance, err := f.font().GlyphAdvance(&f.buffer, index, oneEm, font.HintingNone)
	if err != nil {
		panic("fonts: " + err.Error())
	}
	return Glyph{Letter: letter, Index: uint16(index), Advance: int(advance)}
}

// readKern returns the correction between two neighbouring letters from the file's GPOS table.
func (f *face) readKern(left, right Glyph) int {
	k, err := f.font().Kern(&f.buffer, sfnt.GlyphIndex(left.Index), sfnt.GlyphIndex(right.Index), oneEm, font.HintingNone)
	if err != nil && err != sfnt.ErrNotFound {
		panic("fonts: " + err.Error())
	}
	return int(k)
}
