package pdf

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"hubrule/fonts"
	"hubrule/render"
)

// TestSpliceNoticesChanges: a document of gopdf's that looks in any way different is refused, never half used.
func TestSpliceNoticesChanges(t *testing.T) {
	doc := preparedDocument(t, render.Regular)
	if _, err := splice(doc); err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"/Subtype /Type0", "/DescendantFonts", "/Subtype /CIDFontType2", "/FontDescriptor", "/FontFile2", "/ToUnicode",
		"/Length1", "endstream", "endobj", "xref", " 0 obj"} {
		if !bytes.Contains(doc, []byte(key)) {
			t.Errorf("gopdf's document lacks %s", key)
		}
		changed := bytes.ReplaceAll(doc, []byte(key), []byte(strings.Repeat("x", len(key))))
		if _, err := splice(changed); err == nil {
			t.Errorf("no error without %s", key)
		}
	}
	for n := 0; n < len(doc); n += 97 {
		if _, err := splice(doc[:n]); err == nil {
			t.Errorf("no error when only %d of %d bytes are there", n, len(doc))
		}
		if _, err := splice(doc[n+1:]); err == nil {
			t.Errorf("no error without the first %d bytes", n+1)
		}
	}
}

// TestGlyphNumbersAgree: pages are written with sfnt's glyph numbers, gopdf's subset must have those glyphs.
func TestGlyphNumbersAgree(t *testing.T) {
	for _, w := range fonts.Weights() {
		s, err := splice(preparedDocument(t, w))
		if err != nil {
			t.Fatal(err)
		}
		for _, g := range fonts.Shape(string(preparedLetters()), w) {
			if want := fmt.Sprintf("%d[%d]", g.Index, g.Advance); !strings.Contains(s.glyphs, want) {
				t.Errorf("weight %d: %q is glyph %d, %d wide; gopdf's widths do not say so", w, g.Letter, g.Index, g.Advance)
			}
		}
	}
}

// TestFaceHasThePreparedLetters: gopdf would write a space for a letter that it does not find.
func TestFaceHasThePreparedLetters(t *testing.T) {
	if missing := fonts.Missing(string(preparedLetters())); len(missing) > 0 {
		t.Errorf("the face has no %q", missing)
	}
}

func TestToUnicodeInBlocks(t *testing.T) {
	letters := map[uint16]fonts.Glyph{}
	for _, g := range fonts.Shape(string(preparedLetters()), render.Regular) {
		letters[g.Index] = g
	}
	table := string(toUnicode(letters))
	if !strings.Contains(table, "100 beginbfchar\n") || strings.Count(table, "beginbfchar") != 2 {
		t.Errorf("%d letters in blocks of at most 100 (Adobe Technical Note 5014): %.600s", len(letters), table)
	}
}
