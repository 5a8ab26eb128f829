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
	Letter  rune
	Index   uint16 // in the font file; 0 is the empty box of a missing letter
	Advance int    // its own width
	Kern    int    // to be added before the next letter, 0 for the last
}

// Shape returns the glyphs of text from left to right, one per letter: the face's ligatures are not used,
// so that every writer and reader can tell letters apart.
func Shape(text string, w Weight) []Glyph {
	f := faceOf(w)
	f.lock.Lock()
	defer f.lock.Unlock()
	glyphs := make([]Glyph, 0, len(text))
	for _, letter := range text {
		g := f.glyph(letter)
		if n := len(glyphs); n > 0 {
			glyphs[n-1].Kern = f.kern(glyphs[n-1], g)
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
	sum := 0
	var last Glyph
	for i, letter := range text {
		g := f.glyph(letter)
		sum += g.Advance
		if i > 0 {
			sum += f.kern(last, g)
		}
		last = g
	}
	return sum
}

// Missing returns the letters of text that the face lacks, each once, in order of their code points.
// All three weights cover the same letters. Missing even where the face has a glyph are control and format characters,
// a carriage return or a soft hyphen say, since readers of files disagree on what they look like, and combining marks,
// which nothing here puts over their letter: "é" is one letter of the face, "e" and an accent behind it are not.
func Missing(text string) []rune {
	f := faceOf(Regular)
	f.lock.Lock()
	defer f.lock.Unlock()
	var missing []rune
	for _, letter := range text {
		if f.glyph(letter).Index == 0 || unicode.In(letter, unicode.Cc, unicode.Cf, unicode.M) {
			missing = append(missing, letter)
		}
	}
	slices.Sort(missing)
	return slices.Compact(missing)
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
	return f.read(letter)
}

// kern returns the correction between two neighbouring letters.
func (f *face) kern(left, right Glyph) int {
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
