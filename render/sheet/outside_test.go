package sheet

import (
	"bytes"
	"encoding/xml"
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/outside"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/pdf"
	"hubrule/render/png"
	"hubrule/render/request"
)

// pdfOf composes and writes one PDF of several plans.
func pdfOf(t testing.TB, s request.Setting, kinds []request.Kind, names ...string) (string, render.Document) {
	t.Helper()
	job := request.Request{Kinds: kinds, Setting: s}
	for _, n := range names {
		job.Plans = append(job.Plans, testsheet.Plan(t, n))
	}
	doc, _, err := Compose(job)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := pdf.Write(&b, doc); err != nil {
		t.Fatal(err)
	}
	return outside.File(t, "sheets.pdf", b.Bytes()), doc
}

// pngOf draws a page.
func pngOf(t testing.TB, p render.Page, dpi float64) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Write(&b, p, png.Options{DPI: dpi}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Whole sheets, words included, come out in our PNG as poppler draws the PDF: they differ nowhere by more than the edge
// of a line or a letter, one pixel.
func TestPNGShowsTheSameSheet(t *testing.T) {
	t.Parallel()
	outside.Need(t, "pdftoppm")
	for name, kind := range map[string]request.Kind{"pickup": request.Full, "sports": request.Trace} {
		s := testsheet.Setting(t, "A4")
		s.Ink = request.Dark // poppler's and ours are compared where they are dark
		path, doc := pdfOf(t, s, []request.Kind{kind}, name)
		ours, theirs := blackOf(t, pngOf(t, doc.Pages[0], 300)), blackOf(t, outside.Run(t, "pdftoppm", "-r", "300", "-png", "-singlefile", path))
		for what, pair := range map[string][2]picture{"PNG": {ours, theirs}, "PDF": {theirs, ours}} {
			if n, at := pair[0].missingIn(pair[1], ours.height); n > 0 {
				t.Errorf("%s: %d dark pixels only in the %s, the first at %v", name, n, what, at)
			}
		}
		if kind != request.Full {
			continue
		}
		less := doc.Pages[0]
		less.Marks = less.Marks[:len(less.Marks)-1]
		if n, _ := theirs.missingIn(blackOf(t, pngOf(t, less, 300)), ours.height); n == 0 {
			t.Errorf("%s: a mark left out is not noticed", name)
		}
	}
}

// Words stay apart in the written PDF too: poppler's own boxes, for a sample of segments. Poppler's boxes are
// as high as the face's ascent and descent, far more than the ink, so they are cut to the capitals' height.
func TestPopplerSeesNoWordsOverlap(t *testing.T) {
	t.Parallel()
	outside.Need(t, "pdftotext")
	for _, paper := range papers()[3:] {
		path, doc := pdfOf(t, on(paper), []request.Kind{request.Full}, "city", "sedan", "suv", "mid-engine", "pickup-large", "van")
		var html struct {
			Pages []struct {
				Words []struct {
					X0   float64 `xml:"xMin,attr"`
					Y0   float64 `xml:"yMin,attr"`
					X1   float64 `xml:"xMax,attr"`
					Y1   float64 `xml:"yMax,attr"`
					Text string  `xml:",chardata"`
				} `xml:"word"`
			} `xml:"body>doc>page"`
		}
		out := outside.Run(t, "pdftotext", "-bbox", path, "-")
		d := xml.NewDecoder(bytes.NewReader(out))
		d.Strict, d.Entity, d.AutoClose = false, xml.HTMLEntity, xml.HTMLAutoClose
		if err := d.Decode(&html); err != nil {
			t.Fatal(err)
		}
		if len(html.Pages) != len(doc.Pages) {
			t.Fatalf("%d pages, want %d", len(html.Pages), len(doc.Pages))
		}
		for i, page := range html.Pages {
			if len(page.Words) < 40 {
				t.Errorf("%s on %s: only %d words", doc.Pages[i].Title, paper.Name, len(page.Words))
			}
			var boxes []draft.Box
			for _, w := range page.Words {
				// 72 points an inch. Capitals take the middle .698/1.3 of poppler's box of this face.
				high := (w.Y1 - w.Y0) * .46
				mid := (w.Y0 + w.Y1) / 2
				b := draft.Box{
					Min: draft.Point{X: geom.MM(w.X0 * 25.4 / 72), Y: geom.MM((mid - high/2) * 25.4 / 72)},
					Max: draft.Point{X: geom.MM(w.X1 * 25.4 / 72), Y: geom.MM((mid + high/2) * 25.4 / 72)},
				}
				for k, o := range boxes {
					if b.Grow(-.05).Overlaps(o) {
						t.Errorf("%s on %s: %q on %q", doc.Pages[i].Title, paper.Name, w.Text, page.Words[k].Text)
					}
				}
				boxes = append(boxes, b)
			}
		}
	}
}

// The tyre's diameter in pixels at 300 dpi, by poppler from the PDF, by librsvg from the SVG and in our own PNG, is
// the wheel that the strip names, within 0.1 mm; in ours it is the others' within one pixel. Only the tyre is drawn, so nothing hides its edge.
func TestTyreInRasters(t *testing.T) {
	t.Parallel()
	outside.Need(t, "pdftoppm", "rsvg-convert")
	s := testsheet.Setting(t, "A4")
	s.Paper.Height = 120 // a wheel as large as on A4, and fewer pixels
	s.Guides, s.Labels, s.Ink = []request.Guide{"wheels"}, request.NoLabels, request.Dark
	for _, name := range []string{"suv"} {
		path, doc := pdfOf(t, s, []request.Kind{request.Trace}, name)
		f := testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[0]))
		wheel := saidWheel(t, f)
		tyre := f.Shapes["wheel-front"]
		cx, cy := tyre.Num(t, "cx"), tyre.Num(t, "cy")
		svg := outside.File(t, "page.svg", testsheet.SvgOf(t, doc.Pages[0]))
		pictures := map[string][]byte{
			"poppler": outside.Run(t, "pdftoppm", "-r", "300", "-png", "-singlefile", path),
			"librsvg": outside.Run(t, "rsvg-convert", "-b", "white", "-d", "300", "-p", "300", svg),
			"hubrule": pngOf(t, doc.Pages[0], 300),
		}
		const px = 300 / 25.4
		measured := map[string][2]float64{}
		for reader, png := range pictures {
			reach := wheel/2 + 3
			w, h := darkExtent(t, png, image.Rect(int((cx-reach)*px), int((cy-reach)*px), int((cx+reach)*px), int((cy+reach)*px)))
			measured[reader] = [2]float64{w, h}
			for _, got := range []float64{w / px, h / px} {
				if outer := wheel + float64(draft.Wide); math.Abs(got-outer) > .1 {
					t.Errorf("%s: %s measures %.3f mm over the line, want %.3f", name, reader, got, outer)
				}
			}
		}
		for reader, m := range measured {
			if ours := measured["hubrule"]; math.Abs(ours[0]-m[0]) > 1 || math.Abs(ours[1]-m[1]) > 1 {
				t.Errorf("%s: %v pixels in our picture, %v in %s's", name, ours, m, reader)
			}
		}
	}
}

// darkExtent returns the width and height, in pixels, of what is darker than half in a part of a picture.
func darkExtent(t testing.TB, png []byte, part image.Rectangle) (width, height float64) {
	t.Helper()
	m, _, err := image.Decode(bytes.NewReader(png))
	if err != nil {
		t.Fatal(err)
	}
	var dark image.Rectangle
	for y := part.Min.Y; y < part.Max.Y; y++ {
		for x := part.Min.X; x < part.Max.X; x++ {
			if color.GrayModel.Convert(m.At(x, y)).(color.Gray).Y < 128 {
				dark = dark.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return float64(dark.Dx()), float64(dark.Dy())
}

// The same job written twice is the same bytes.
func TestSameJobSameBytes(t *testing.T) {
	t.Parallel()
	var files [2]string
	for i := range files {
		doc, _, err := Compose(request.Request{Plans: []layout.Plan{testsheet.Plan(t, "van"), testsheet.Plan(t, "city")}, Kinds: request.Kinds(), Setting: testsheet.Setting(t, "A4")})
		if err != nil {
			t.Fatal(err)
		}
		var b strings.Builder
		if err := pdf.Write(&b, doc); err != nil {
			t.Fatal(err)
		}
		for _, p := range doc.Pages {
			b.Write(testsheet.SvgOf(t, p))
		}
		files[i] = b.String()
	}
	if files[0] != files[1] {
		t.Error("two runs differ")
	}
}
