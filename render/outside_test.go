package render_test

import (
	"bytes"
	"encoding/xml"
	"math"
	"strings"
	"testing"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/internal/outside"
	"hubrule/internal/testpage"
	"hubrule/render"
)

func TestPDFIsInOrder(t *testing.T) {
	t.Parallel()
	outside.Need(t, "qpdf", "pdfinfo", "pdffonts")
	path := outside.File(t, "sample.pdf", pdfOf(t, testpage.Sample(), testpage.Busy()))
	if out := string(outside.Run(t, "qpdf", "--check", path)); !strings.Contains(out, "No syntax or stream encoding errors found") {
		t.Errorf("qpdf --check: %s", out)
	}
	info := string(outside.Run(t, "pdfinfo", "-box", path))
	for _, want := range []string{
		"Title:           Sämple (1)\n", `Author:          A. \ B.` + "\n", "Pages:           2\n",
		"Page size:       1190.55 x 841.89 pts (A3)\n", // ISO 216: A3 is 297 x 420 mm; 1 in = 25.4 mm = 72 pt (CALC)
		"MediaBox:            0.00     0.00  1190.55   841.89\n", "CropBox:             0.00     0.00  1190.55   841.89\n", "TrimBox:             0.00     0.00  1190.55   841.89\n",
	} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo does not say %q:\n%s", want, info)
		}
	}
	lines := strings.Split(strings.TrimSpace(string(outside.Run(t, "pdffonts", path))), "\n")[2:]
	if len(lines) != 3 {
		t.Errorf("%d fonts, want one a weight", len(lines))
	}
	for _, line := range lines {
		f := strings.Fields(line) // name, "CID", "TrueType", encoding, embedded, subset, unicode
		if !strings.Contains(f[0], "+IBMPlexSansCondensed-") || strings.Join(f[1:7], " ") != "CID TrueType Identity-H yes yes yes" {
			t.Errorf("pdffonts: %s", line)
		}
	}
}

// word is a word of a PDF page with its box in points.
type word struct {
	XMin float64 `xml:"xMin,attr"`
	XMax float64 `xml:"xMax,attr"`
	Text string  `xml:",chardata"`
}

func wordsOf(t *testing.T, path string) []word {
	t.Helper()
	var doc struct {
		Words []word `xml:"body>doc>page>word"`
	}
	d := xml.NewDecoder(bytes.NewReader(outside.Run(t, "pdftotext", "-bbox", path, "-")))
	d.Strict = false
	if err := d.Decode(&doc); err != nil {
		t.Fatal(err)
	}
	return doc.Words
}

// TestWordsStandWhereTheModelPutsThem: poppler reads every level word back where fonts.Width places it.
func TestWordsStandWhereTheModelPutsThem(t *testing.T) {
	outside.Need(t, "pdftotext")
	page := testpage.Sample()
	words := wordsOf(t, outside.File(t, "sample.pdf", pdfOf(t, page)))
	const tolerance = 0.05 * 72 / 25.4 // a twentieth of a millimetre, in points
	found := 0
	for _, m := range page.Marks {
		text, ok := m.(*render.Text)
		if !ok || text.Angle != 0 {
			continue
		}
		width := geom.MM(0)
		for _, s := range text.Spans {
			width += fonts.Width(s.Text, s.Height, s.Weight)
		}
		x := text.At.X - map[render.Anchor]geom.MM{render.Start: 0, render.Middle: width / 2, render.End: width}[text.Anchor]
		for _, s := range text.Spans {
			rest := s.Text
			for _, w := range strings.Fields(s.Text) {
				at := strings.Index(rest, w)
				before := fonts.Width(s.Text[:len(s.Text)-len(rest)+at], s.Height, s.Weight)
				rest = rest[at+len(w):]
				upTo := fonts.Width(s.Text[:len(s.Text)-len(rest)], s.Height, s.Weight)
				found++
				checkWord(t, words, word{float64(x+before) * 72 / 25.4, float64(x+upTo) * 72 / 25.4, w}, tolerance)
			}
			x += fonts.Width(s.Text, s.Height, s.Weight)
		}
	}
	if found < 15 {
		t.Errorf("only %d words were looked for", found)
	}
}

func checkWord(t *testing.T, words []word, want word, tolerance float64) {
	t.Helper()
	for _, got := range words {
		if got.Text == want.Text && math.Abs(got.XMin-want.XMin) < tolerance && math.Abs(got.XMax-want.XMax) < tolerance {
			return
		}
	}
	t.Errorf("no word %q from %.2f to %.2f pt; there are %v", want.Text, want.XMin, want.XMax, words)
}

// TestLettersBeyondThePreparedOnes go through gopdf when the file is written; they can be searched, and are seen.
func TestLettersBeyondThePreparedOnes(t *testing.T) {
	t.Parallel()
	outside.Need(t, "pdftotext", "pdftoppm", "rsvg-convert", "qpdf")
	const words = "Łódź Ærøskøbing Čáslav µ"
	if len(fonts.Missing(words)) > 0 {
		t.Fatalf("choose other words: the face has no %q", fonts.Missing(words))
	}
	page := testpage.Sample()
	page.Marks = append(page.Marks, &render.Text{Tagged: render.Tagged{Guide: "labels"}, At: render.Point{X: 50, Y: 250},
		Spans: []render.Span{{Text: words, Height: 3.5, Weight: render.SemiBold}}})
	path := outside.File(t, "letters.pdf", pdfOf(t, page))
	outside.Run(t, "qpdf", "--check", path)
	if text := string(outside.Run(t, "pdftotext", path, "-")); !strings.Contains(text, words) {
		t.Errorf("pdftotext reads %q", text)
	}
	const dpi, edge = 200, 1
	if n, at := beyond(librsvg(t, svgOf(t, page), dpi), poppler(t, pdfOf(t, page), dpi), edge); n > 0 {
		t.Errorf("%d pixels of the SVG's picture are not in the PDF's, the first at %v", n, at)
	}
}

func TestSVGIsXML(t *testing.T) {
	outside.Need(t, "xmllint")
	page := testpage.Sample()
	page.Title, page.Guides[0].Title = `"<&>'`+"\x01", "]]> <!--"
	outside.Run(t, "xmllint", "--noout", outside.File(t, "sample.svg", svgOf(t, page)))
}
