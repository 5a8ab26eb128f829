package render_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/internal/outside"
	"hubrule/internal/testfont"
	"hubrule/render"
	"hubrule/render/png"
)

// useFallback sets a face that draws A to F under other letters, for the length of a test.
func useFallback(t testing.TB) {
	t.Helper()
	face, err := fonts.OpenFallback(testfont.Relettered(fonts.Subset([]string{"ABCDEF"}, fonts.Regular), "語😀אבגд"))
	if err != nil {
		t.Fatal(err)
	}
	before := fonts.SetFallback(face)
	t.Cleanup(func() { fonts.SetFallback(before) })
}

// names is a page with names in many scripts, a line each, on a layer of its own.
func names(lines ...string) render.Page {
	page := render.Page{Width: 700, Height: 200, Title: "Names: 語😀", Guides: []render.Guide{{Name: "labels", Title: "Names"}}}
	for i, line := range lines {
		page.Marks = append(page.Marks, &render.Text{Tagged: render.Tagged{Guide: "labels"}, At: render.Point{X: 20, Y: 20 + 10*geom.MM(i)},
			Spans: []render.Span{{Text: line, Height: 3.5, Weight: fonts.Weights()[i%3]}}})
	}
	return page
}

// people are names as a list of pupils may hold them.
func people() []string {
	return []string{"Jürgen <b>Müller</b> & \"Sons\" \\(x)", "王小明", "Zoë 👩\u200d🔧 Smith", "😀", "Łukasz Żółć", "Аня Иванова", "দীপা", "x\u0338y", "A \u200b\u2060B",
		strings.Repeat("wide ", 60), "語語 and 字字"}
}

// plain drops the marks of direction that pdftotext adds.
func plain(text string) string {
	return strings.NewReplacer("\u202a", "", "\u202b", "", "\u202c", "", "\u200e", "", "\u200f", "").Replace(text)
}

// TestNamesComeBackFromPDF: pdftotext reads every name as it was written, whatever the face has of it.
func TestNamesComeBackFromPDF(t *testing.T) {
	outside.Need(t, "pdftotext", "qpdf", "pdffonts")
	for _, added := range []bool{false, true} {
		t.Run(fmt.Sprintf("added=%v", added), func(t *testing.T) {
			if added {
				useFallback(t)
			}
			// Names from right to left have lines of their own: pdftotext guesses the order of mixed ones.
			lines := append(people(), "אבג", "אבג דהו", "علي رضا")
			page := names(lines...)
			path := outside.File(t, "names.pdf", pdfOf(t, page))
			if out := string(outside.Run(t, "qpdf", "--check", path)); !strings.Contains(out, "No syntax or stream encoding errors found") {
				t.Errorf("qpdf --check: %s", out)
			}
			text := plain(string(outside.Run(t, "pdftotext", path, "-")))
			for _, line := range lines {
				if want := strings.TrimSpace(line); !strings.Contains(text, want+"\n") {
					t.Errorf("pdftotext does not give %q back:\n%s", want, text)
				}
			}
			fontLines := string(outside.Run(t, "pdffonts", path))
			if got := strings.Contains(fontLines, "ADDEDX+Added"); got != added {
				t.Errorf("pdffonts: %s", fontLines)
			}
		})
	}
}

// TestBoxesAreNamedInPDF: the box means no letter of its own where a reader does not know ActualText.
func TestBoxesAreNamedInPDF(t *testing.T) {
	outside.Need(t, "qpdf")
	content := pdfPages(t, pdfOf(t, names("a字b")))[0]
	if want := "/Span <</ActualText<FEFF00615B570062>>> BDC\n"; strings.Count(content, want) != 1 || strings.Count(content, "EMC\n") != 2 {
		t.Errorf("want %q and its end, beside that of the layer, in\n%s", want, content)
	}
	if content := pdfPages(t, pdfOf(t, names("plain (words)", "Ærø")))[0]; strings.Contains(content, "ActualText") {
		t.Errorf("words that need no more than their letters have more:\n%s", content)
	}
}

// TestCutWordsSayTheWhole in both formats.
func TestCutWordsSayTheWhole(t *testing.T) {
	outside.Need(t, "pdftotext", "xmllint")
	page := names("Theodo…")
	text := page.Marks[0].(*render.Text)
	text.Spans[0].ActualText = "Theodora <b> & 語"
	text.Spans = append(text.Spans, render.Span{Text: ", trace", Height: 3.5, Weight: render.Regular})
	got := string(outside.Run(t, "pdftotext", outside.File(t, "cut.pdf", pdfOf(t, page)), "-"))
	if want := "Theodora <b> & 語, trace\n"; !strings.Contains(got, want) || strings.Contains(got, "…") {
		t.Errorf("pdftotext reads %q, want %q", got, want)
	}
	svg := svgOf(t, page)
	title := string(outside.Run(t, "xmllint", "--xpath", "string(//*[local-name()='text']/*[local-name()='title'])", outside.File(t, "cut.svg", svg)))
	if want := "Theodora <b> & 語, trace"; strings.TrimSuffix(title, "\n") != want {
		t.Errorf("the title in the SVG is %q, want %q", title, want)
	}
	if !bytes.Contains(svg, []byte(">Theodo…<")) {
		t.Errorf("the SVG draws not the cut name:\n%s", svg)
	}
}

// TestNamesInSVG: every name stands in the file as text, to the last sign.
func TestNamesInSVG(t *testing.T) {
	outside.Need(t, "xmllint")
	useFallback(t)
	for _, line := range append(people(), "אבג 12 (b)") {
		path := outside.File(t, "name.svg", svgOf(t, names(line)))
		got := strings.TrimSuffix(string(outside.Run(t, "xmllint", "--xpath", "string(//*[local-name()='tspan'])", path)), "\n")
		if got != line {
			t.Errorf("%q stands as %q", line, got)
		}
	}
}

// TestNamesLookAlike: poppler's picture of the PDF is ours.
func TestNamesLookAlike(t *testing.T) {
	outside.Need(t, "pdftoppm")
	useFallback(t)
	const dpi = 150
	page := names(append(people(), "אבג (12) ab", "אבגדה")...)
	checkAlike(t, "names", readPNG(t, pngOf(t, page, png.Options{DPI: dpi}), dpi), poppler(t, pdfOf(t, page), dpi))
}
