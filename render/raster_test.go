package render_test

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/outside"
	"hubrule/internal/testpage"
	"hubrule/render"
)

// raster is a page in grey, as somebody else's program draws it.
type raster struct {
	*image.Gray
	perMM float64
}

func decoded(t *testing.T, data []byte) image.Image {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

func readPNG(t *testing.T, data []byte, dpi int) raster {
	t.Helper()
	img := decoded(t, data)
	grey, ok := img.(*image.Gray)
	if !ok {
		grey = image.NewGray(img.Bounds())
		draw.Draw(grey, grey.Rect, img, image.Point{}, draw.Src)
	}
	return raster{grey, float64(dpi) / 25.4}
}

// poppler draws the first page of a PDF.
func poppler(t *testing.T, pdf []byte, dpi int) raster {
	t.Helper()
	path := outside.File(t, "page.pdf", pdf)
	root := filepath.Join(t.TempDir(), "page")
	outside.Run(t, "pdftoppm", "-r", fmt.Sprint(dpi), "-singlefile", "-gray", "-png", path, root)
	data, err := os.ReadFile(root + ".png")
	if err != nil {
		t.Fatal(err)
	}
	return readPNG(t, data, dpi)
}

// TestMain shows librsvg the folder of the font files, since it does not read embedded fonts.
func TestMain(m *testing.M) {
	os.Exit(func() int {
		fonts, err := filepath.Abs("../fonts")
		if err != nil {
			panic(err)
		}
		dir, err := os.MkdirTemp("", "fontconfig")
		if err != nil {
			panic(err)
		}
		defer os.RemoveAll(dir)
		conf := filepath.Join(dir, "fonts.conf")
		text := fmt.Appendf(nil, "<fontconfig><dir>%s</dir><cachedir>%s</cachedir></fontconfig>", fonts, dir)
		if err := errors.Join(os.WriteFile(conf, text, 0o666), os.Setenv("FONTCONFIG_FILE", conf)); err != nil {
			panic(err)
		}
		return m.Run()
	}())
}

// librsvg draws an SVG on white.
func librsvg(t *testing.T, svg []byte, dpi int) raster {
	t.Helper()
	d := fmt.Sprint(dpi)
	return readPNG(t, outside.Run(t, "rsvg-convert", "-d", d, "-p", d, "-b", "white", outside.File(t, "page.svg", svg)), dpi)
}

// dark reports whether any pixel within reach of x, y is darker than the threshold.
func (r raster) dark(x, y, reach int, threshold uint8) bool {
	for v := max(y-reach, 0); v <= min(y+reach, r.Rect.Max.Y-1); v++ {
		for u := max(x-reach, 0); u <= min(x+reach, r.Rect.Max.X-1); u++ {
			if r.Pix[v*r.Stride+u] < threshold {
				return true
			}
		}
	}
	return false
}

// beyond counts the clearly dark pixels of a that have nothing at all dark within reach in b.
func beyond(a, b raster, reach int) (count int, first image.Point) {
	for y := range a.Rect.Max.Y {
		for x := range a.Rect.Max.X {
			if a.Pix[y*a.Stride+x] < 100 && !b.dark(x, y, reach, 200) {
				if count++; count == 1 {
					first = image.Pt(x, y)
				}
			}
		}
	}
	return count, first
}

// TestBothFormatsLookAlike: poppler's picture of the PDF and librsvg's of the SVG differ nowhere by more than the
// edge of a line: one pixel of 0.13 mm. Words are included.
func TestBothFormatsLookAlike(t *testing.T) {
	t.Parallel()
	outside.Need(t, "pdftoppm", "rsvg-convert")
	const dpi, edge = 200, 1
	fromPDF, fromSVG := poppler(t, pdfOf(t, testpage.Sample()), dpi), librsvg(t, svgOf(t, testpage.Sample()), dpi)
	if fromPDF.Rect.Size() != fromSVG.Rect.Size() {
		t.Logf("sizes: PDF %v, SVG %v", fromPDF.Rect.Size(), fromSVG.Rect.Size())
	}
	if n, at := beyond(fromPDF, fromSVG, edge); n > 0 {
		t.Errorf("%d pixels of the PDF's picture are not in the SVG's, the first at %v", n, at)
	}
	if n, at := beyond(fromSVG, fromPDF, edge); n > 0 {
		t.Errorf("%d pixels of the SVG's picture are not in the PDF's, the first at %v", n, at)
	}
	moved := testpage.Sample()
	moved.Marks[0].(*render.Stroke).Path[1].To.Y += 0.5
	if n, _ := beyond(poppler(t, pdfOf(t, moved), dpi), fromSVG, edge); n == 0 {
		t.Error("a line half a millimetre off is not noticed")
	}
}

// diameter measures the circle round c along its level diameter: between the middles of both strokes.
func (r raster) diameter(c render.Point, radius geom.MM) float64 {
	row := int(float64(c.Y) * r.perMM)
	middle := func(x geom.MM) float64 {
		ink, moment := 0., 0.
		for u := int(float64(x-1) * r.perMM); u <= int(float64(x+1)*r.perMM); u++ {
			v := 255 - float64(r.GrayAt(u, row).Y)
			ink, moment = ink+v, moment+v*(float64(u)+0.5)
		}
		return moment / ink
	}
	return (middle(c.X+radius) - middle(c.X-radius)) / r.perMM
}

// TestTheWheelMeasuresWhatItShould at 300 dots an inch, in both formats.
func TestTheWheelMeasuresWhatItShould(t *testing.T) {
	t.Parallel()
	outside.Need(t, "pdftoppm", "rsvg-convert")
	const dpi = 300
	wheel := testpage.Sample().Marks[1].(*render.Circle)
	page := render.Page{Width: 148, Height: 210, Title: "wheel", Guides: testpage.Sample().Guides, Marks: []render.Mark{wheel}}
	for format, r := range map[string]raster{"PDF": poppler(t, pdfOf(t, page), dpi), "SVG": librsvg(t, svgOf(t, page), dpi)} {
		if got, want := r.diameter(wheel.Centre, wheel.R), 2*float64(wheel.R); math.Abs(got-want) > 0.1 {
			t.Errorf("%s: the wheel is %.3f mm wide, want %.3f", format, got, want)
		} else {
			t.Logf("%s: the wheel is %.3f mm wide", format, got)
		}
	}
}
