package fonts_test

import (
	"bytes"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"hubrule/fonts"
)

var texts = []string{"side glass ends over the back of the rear tyre", "A-pillar 34°, AV To.", "½ × Ærø", "ÀÉÎõü: parts put together", ""}

// TestSubsetDrawsTheSame: every letter of the smaller file has the outline, width and kerning of the whole file.
func TestSubsetDrawsTheSame(t *testing.T) {
	for _, w := range fonts.Weights() {
		file := fonts.Subset(texts, w)
		if err := damaged(file); err != nil {
			t.Errorf("weight %d: %v", w, err)
		}
		if len(file) > 12_000 {
			t.Errorf("weight %d: %d bytes for a few letters", w, len(file))
		}
		small, whole := parse(t, file), parse(t, fonts.TTF(w))
		for _, text := range texts {
			var last rune
			for i, letter := range text {
				compareGlyphs(t, small, whole, letter)
				if i > 0 {
					compareKerning(t, small, whole, [2]rune{last, letter})
				}
				last = letter
			}
		}
	}
}

func parse(t *testing.T, file []byte) *sfnt.Font {
	t.Helper()
	f, err := sfnt.Parse(file)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

const em = fixed.Int26_6(fonts.UnitsPerEm)

func index(t *testing.T, f *sfnt.Font, letter rune) sfnt.GlyphIndex {
	t.Helper()
	i, err := f.GlyphIndex(nil, letter)
	if err != nil || i == 0 {
		t.Fatalf("%q is glyph %d, %v", letter, i, err)
	}
	return i
}

func compareGlyphs(t *testing.T, small, whole *sfnt.Font, letter rune) {
	t.Helper()
	i, j := index(t, small, letter), index(t, whole, letter)
	got, err := small.LoadGlyph(nil, i, em, nil)
	if err != nil {
		t.Fatalf("%q: %v", letter, err)
	}
	want, err := whole.LoadGlyph(nil, j, em, nil)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("%q: outline differs (-whole +subset):\n%s", letter, diff)
	}
	a, _ := small.GlyphAdvance(nil, i, em, font.HintingNone)
	b, _ := whole.GlyphAdvance(nil, j, em, font.HintingNone)
	if a != b {
		t.Errorf("%q is %d wide, want %d", letter, a, b)
	}
}

func compareKerning(t *testing.T, small, whole *sfnt.Font, pair [2]rune) {
	t.Helper()
	kern := func(f *sfnt.Font) fixed.Int26_6 {
		k, err := f.Kern(&sfnt.Buffer{}, index(t, f, pair[0]), index(t, f, pair[1]), em, font.HintingNone)
		if err != nil && err != sfnt.ErrNotFound {
			t.Fatal(err)
		}
		return k
	}
	if got, want := kern(small), kern(whole); got != want {
		t.Errorf("%q: kerning %d, want %d", pair, got, want)
	}
}

func TestSubsetIsTheSameInAnyOrder(t *testing.T) {
	backwards := slices.Clone(texts)
	slices.Reverse(backwards)
	if !bytes.Equal(fonts.Subset(texts, fonts.Regular), fonts.Subset(append(backwards, texts...), fonts.Regular)) {
		t.Error("the order of texts changes the file")
	}
}

func BenchmarkSubset(b *testing.B) {
	for b.Loop() {
		fonts.Subset(texts, fonts.Regular)
	}
}
