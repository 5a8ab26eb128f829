package fonts_test

import (
	"bytes"
	"encoding/binary"
	"os"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/image/font/sfnt"

	"hubrule/fonts"
	"hubrule/internal/testfont"
)

// useFallback sets a face that draws A to F under other letters, for the length of a test.
func useFallback(t testing.TB) *fonts.Fallback {
	t.Helper()
	face, err := fonts.OpenFallback(strange())
	if err != nil {
		t.Fatal(err)
	}
	before := fonts.SetFallback(face)
	t.Cleanup(func() { fonts.SetFallback(before) })
	return face
}

// strange is a font file with a CJK letter, a Hebrew one, an emoji, a combining mark, a letter put together of two
// parts, and one letter that the sheets' face has too.
func strange() []byte {
	return testfont.Relettered(fonts.Subset([]string{"ABCDÉF"}, fonts.Regular), "語א😀\u0338Fé")
}

// withFields returns a copy of ttf with some bytes of a table replaced.
func withFields(ttf []byte, tag string, at int, with ...byte) []byte {
	out := slices.Clone(ttf)
	copy(table(out, tag)[at:], with)
	return out
}

func TestOpenAdded(t *testing.T) {
	whole := strange()
	renamed := bytes.Replace(whole, []byte("glyf"), []byte("glyx"), 1)
	tests := []struct {
		name string
		ttf  []byte
		want string
	}{
		{"nothing", nil, "not a font; want a TrueType font, a .ttf"},
		{"text", []byte("segment: suv\n"), "not a font; want a TrueType font, a .ttf"},
		{"PostScript", []byte("OTTO\x00\x0a"), "a font with PostScript outlines (CFF); want one with TrueType outlines, a .ttf"},
		{"collection", []byte("ttcf\x00\x01"), "a collection of several fonts (.ttc); want the file of one font, a .ttf"},
		{"web", []byte("wOF2\x00\x01"), "a font packed for web pages; want it unpacked, a .ttf"},
		{"start", whole[:8], "a font that ends too early; is it whole?"},
		{"directory", whole[:40], "a font that ends too early; is it whole?"},
		{"half", whole[:len(whole)/2], "a font that ends too early; is it whole?"},
		{"no outlines", renamed, "a font without outlines of the TrueType kind (no glyf table); want a .ttf with them"},
		{"no letters", bytes.Replace(whole, []byte("cmap"), []byte("cmax"), 1), `a broken font: its table "cmap" is missing or too short`},
		{"too many glyphs", withFields(whole, "maxp", 4, 0xff, 0xff), "a broken font: its tables do not hold as many letters as it says"},
		{"forbidden", withFields(whole, "OS/2", 8, 0, 2), "a font that its maker does not allow to embed in files (fsType 0x0002); want another"},
		{"first glyph", withFields(whole, "loca", 0, 0xff, 0xff), "a broken font: its first glyph lies outside of its tables"},
		{"letters elsewhere", withFields(whole, "cmap", 8, 0xff), "a broken font: invalid cmap table"},
	}
	for _, tt := range tests {
		if _, err := fonts.OpenFallback(tt.ttf); err == nil || err.Error() != tt.want {
			t.Errorf("%s: OpenAdded: %v\nwant %s", tt.name, err, tt.want)
		}
	}
}

// TestAddedLettersDrawTheirOutlines: they are as wide and look like the letters that the test's font draws them by.
func TestAddedLettersDrawTheirOutlines(t *testing.T) {
	useFallback(t)
	for letter, like := range map[string]string{"語": "A", "א": "B", "😀": "C"} {
		for _, w := range fonts.Weights() {
			got, want := fonts.Shape(letter, w)[0], fonts.Shape(like, fonts.Regular)[0]
			if !got.Fallback || got.Missing() || got.Advance != want.Advance {
				t.Errorf("Shape(%q, %d) = %+v, want it as wide as %+v", letter, w, got, want)
			}
			if diff := cmp.Diff(fonts.Outline(want, fonts.Regular), fonts.Outline(got, w)); diff != "" {
				t.Errorf("%q does not look like %q (-want +got):\n%s", letter, like, diff)
			}
		}
	}
	for _, own := range "Fé" {
		if g := fonts.Shape(string(own), fonts.Regular)[0]; g.Fallback {
			t.Errorf("%q comes from the fallback face, though the sheets' face has it", own)
		}
	}
	if got := fonts.Missing("A語字😀א"); !slices.Equal(got, []rune{'字'}) {
		t.Errorf("missing %q, want 字 alone", got)
	}
}

// TestMarksStandOverTheirLetter: a combining mark's ink has its middle over the letter's, and it takes no room.
func TestMarksStandOverTheirLetter(t *testing.T) {
	useFallback(t)
	for _, mark := range []string{"\u0301", "\u0338"} { // the face's own and the fallback's
		glyphs := fonts.Shape("nx"+mark+"n", fonts.Regular)
		if got, want := fonts.Width("nx"+mark+mark+"n", 1, fonts.Regular), fonts.Width("n", 1, fonts.Regular)*2+fonts.Width("x", 1, fonts.Regular); max(got-want, want-got) > .05 {
			t.Errorf("%q: %v wide, without marks %v", mark, got, want)
		}
		from := glyphs[1].Advance + glyphs[1].Kern // the mark's origin, from that of x
		ink := fonts.Outline(glyphs[2], fonts.Regular)
		lo, hi := ink[0].To.X, ink[0].To.X
		for _, run := range ink.Flatten(8) {
			for _, p := range run {
				lo, hi = min(lo, p.X), max(hi, p.X)
			}
		}
		if got, want := float64(from)+float64(lo+hi)/2, float64(glyphs[1].Advance)/2; got < want-3 || got > want+3 {
			t.Errorf("%q: middle %.0f units from x's origin, want %.0f", mark, got, want)
		}
	}
}

// TestSubsetsHaveBoxes: a missing letter has a glyph of its own there, one that looks like the box, or a browser would
// look for the letter elsewhere; a letter of the fallback face has none.
func TestSubsetsHaveBoxes(t *testing.T) {
	face := useFallback(t)
	small := parse(t, fonts.Subset([]string{"ab語字👩"}, fonts.Regular))
	box, err := parse(t, fonts.TTF(fonts.Regular)).LoadGlyph(nil, 0, em, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, letter := range "字👩" {
		got, err := small.LoadGlyph(nil, index(t, small, letter), em, nil)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(box, got); diff != "" {
			t.Errorf("%q is not the box (-want +got):\n%s", letter, diff)
		}
	}
	if i, _ := small.GlyphIndex(nil, '語'); i != 0 {
		t.Errorf("語 is glyph %d of the face's own subset", i)
	}
	added := parse(t, fonts.SubsetFallback([]string{"ab語😀字"}))
	whole := parse(t, strange())
	for _, letter := range "語😀" {
		compareGlyphs(t, added, whole, letter)
	}
	if fonts.SubsetFallback([]string{"ab字"}) != nil {
		t.Error("a file for words without letters of the fallback face")
	}
	file := parse(t, face.File([]rune("😀語😀é")))
	for i, letter := range []rune("😀語😀é") {
		got, err := file.LoadGlyph(nil, sfnt.GlyphIndex(i+1), em, nil)
		if err != nil {
			t.Fatal(err)
		}
		got = slices.Clone(got)
		want, err := whole.LoadGlyph(nil, index(t, whole, letter), em, nil)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("glyph %d is not %q (-want +got):\n%s", i+1, letter, diff)
		}
	}
}

// TestBrokenFacesDoNotPanic: whatever byte of a font is wrong, its letters are drawn or count as missing.
func TestBrokenFacesDoNotPanic(t *testing.T) {
	whole := strange()
	for at := range whole {
		broken := slices.Clone(whole)
		broken[at] ^= 0xff
		useFace(t, broken)
	}
	for n := 0; n < len(whole); n += 7 {
		useFace(t, whole[:n])
	}
}

func FuzzOpenFallback(f *testing.F) {
	f.Add(strange())
	f.Add(patchedLong(strange()))
	f.Fuzz(func(t *testing.T, ttf []byte) { useFace(t, ttf) })
}

// patchedLong says that the index of outlines is in the long form.
func patchedLong(ttf []byte) []byte { return withFields(ttf, "head", 50, 0, 1) }

// useFace does with a face all that writers do.
func useFace(t *testing.T, ttf []byte) {
	face, err := fonts.OpenFallback(ttf)
	if err != nil {
		return
	}
	defer fonts.SetFallback(fonts.SetFallback(face))
	const text = "語x\u0338א😀é字"
	var letters []rune
	for _, g := range fonts.Shape(text, fonts.Regular) {
		fonts.Outline(g, fonts.Regular)
		if g.Fallback {
			letters = append(letters, g.Letter)
		}
	}
	fonts.SubsetFallback([]string{text})
	face.File(letters)
	face.Family()
	face.Extents()
}

// TestInstalledFace reads a real font of wide coverage, with its outlines' index in the long form, where the system has one.
func TestInstalledFace(t *testing.T) {
	ttf, err := os.ReadFile("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf")
	if err != nil {
		t.Skip("no DejaVu Sans is installed where Debian has it")
	}
	if binary.BigEndian.Uint16(table(ttf, "head")[50:]) != 1 {
		t.Error("the index of outlines is in the short form; want another font here")
	}
	face, err := fonts.OpenFallback(ttf)
	if err != nil {
		t.Fatal(err)
	}
	defer fonts.SetFallback(fonts.SetFallback(face))
	if got := face.Family(); got != "DejaVu Sans" {
		t.Errorf("family %q", got)
	}
	whole, added := parse(t, ttf), parse(t, fonts.SubsetFallback([]string{"אبج😀ẍ"}))
	for _, letter := range "אبج😀ẍ" {
		compareGlyphs(t, added, whole, letter)
	}
}
