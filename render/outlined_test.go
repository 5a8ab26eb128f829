package render_test

import (
	"bytes"
	"strings"
	"testing"

	"hubrule/internal/outside"
	"hubrule/internal/testpage"
	"hubrule/render"
	"hubrule/render/png"
	"hubrule/render/svg"
)

func outlinedOf(t testing.TB, p render.Page) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := svg.WriteOutlined(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Words as outlines: librsvg, which does not read embedded fonts and does not have the face, draws what poppler draws of the PDF; every
// word is still there for a screen reader.
func TestOutlinedWordsLookAlike(t *testing.T) {
	t.Parallel()
	outside.Need(t, "pdftoppm", "rsvg-convert")
	const dpi, edge = 200, 1
	turned := &render.Text{Tagged: render.Tagged{Guide: "labels"}, At: render.Point{X: 40, Y: 60}, Angle: 30, Anchor: render.Middle,
		Spans: []render.Span{{Text: "AVATAR ", Height: 3, Weight: render.Regular}, {Text: "2.35 & <w>", Height: 5, Weight: render.SemiBold}}}
	page := render.Page{Width: 80, Height: 100, Guides: testpage.Sample().Guides, Marks: []render.Mark{turned}}
	if len(page.Guides) == 0 {
		t.Fatal("no guides")
	}
	turned.Guide = page.Guides[0].Name
	file := outlinedOf(t, page)
	fromPDF, fromSVG := poppler(t, pdfOf(t, page), dpi), librsvg(t, file, dpi)
	for what, n := range map[string]int{"PDF's": first(beyond(fromPDF, fromSVG, edge)), "SVG's": first(beyond(fromSVG, fromPDF, edge))} {
		if n > 0 {
			t.Errorf("%d pixels of the %s picture are not in the other", n, what)
		}
	}
	if blank := librsvg(t, outlinedOf(t, render.Page{Width: 80, Height: 100}), dpi); first(beyond(fromPDF, blank, edge)) == 0 {
		t.Error("missing words are not noticed")
	}
	text := string(file)
	if !strings.Contains(text, `aria-label="AVATAR 2.35 &amp; &lt;w>"`) && !strings.Contains(text, `aria-label="AVATAR 2.35 &amp; &lt;w&gt;"`) {
		t.Error("the words are not labelled")
	}
	for _, not := range []string{"<text", "font-face", "font-family", "transform"} {
		if strings.Contains(text, not) {
			t.Errorf("the file has %s", not)
		}
	}
}

func first[T any](n int, _ T) int { return n }

// The outlines stand where the raster writer puts them, right-to-left letters and letters of a fallback face included.
func TestOutlinedNamesLookAlike(t *testing.T) {
	outside.Need(t, "rsvg-convert")
	useFallback(t)
	const dpi = 150
	page := names(append(people(), "אבג (12) ab", "אבגדה")...)
	checkAlike(t, "names", readPNG(t, pngOf(t, page, png.Options{DPI: dpi}), dpi), librsvg(t, outlinedOf(t, page), dpi))
}
