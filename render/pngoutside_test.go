package render_test

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/outside"
	"hubrule/internal/testpage"
	"hubrule/render"
	"hubrule/render/png"
)

func pngOf(t testing.TB, p render.Page, o png.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Write(&b, p, o); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// compare returns the mean difference of two pictures in levels of 255, where both have pixels, and the number of
// pixels that are white in b and around it, and not quite white in a.
func compare(a, b raster, reach int) (mean float64, stains int) {
	area := a.Rect.Intersect(b.Rect)
	sum := 0.
	for y := range area.Max.Y {
		for x := range area.Max.X {
			v := a.Pix[y*a.Stride+x]
			sum += math.Abs(float64(v) - float64(b.Pix[y*b.Stride+x]))
			if v < 255 && !b.dark(x, y, reach, 255) {
				stains++
			}
		}
	}
	return sum / float64(area.Dx()*area.Dy()), stains
}

// checkAlike compares our picture with another program's.
func checkAlike(t *testing.T, where string, ours, theirs raster) {
	t.Helper()
	if d := theirs.Rect.Size().Sub(ours.Rect.Size()); min(d.X, d.Y) < 0 || max(d.X, d.Y) > 1 { // others round up
		t.Errorf("%s: ours is %v, theirs %v", where, ours.Rect.Size(), theirs.Rect.Size())
	}
	if n, at := beyond(ours, theirs, 1); n > 0 {
		t.Errorf("%s: %d pixels are ours alone, the first at %v", where, n, at)
	}
	if n, at := beyond(theirs, ours, 1); n > 0 {
		t.Errorf("%s: %d pixels are not in ours, the first at %v", where, n, at)
	}
	if _, stains := compare(ours, theirs, 2); stains > 0 {
		t.Errorf("%s: %d pixels of ours are not white, with nothing near in theirs", where, stains)
	}
}

// TestPNGLooksLikeTheOthers: our own picture of a page is poppler's of the PDF and librsvg's of the SVG, to the edge of
// a line: one pixel. Away from every line and letter the paper is left purely white.
func TestPNGLooksLikeTheOthers(t *testing.T) {
	t.Parallel()
	outside.Need(t, "pdftoppm", "rsvg-convert")
	for name, page := range map[string]render.Page{"sample": testpage.Sample(), "hard": testpage.Hard(), "ellipses": ellipses()} {
		dpi := 100
		if name == "hard" {
			dpi = 200
		}
		where := fmt.Sprintf("%s at %d dpi", name, dpi)
		t.Run(where, func(t *testing.T) {
			t.Parallel()
			ours := readPNG(t, pngOf(t, page, png.Options{DPI: float64(dpi)}), dpi)
			fromPDF, fromSVG := poppler(t, pdfOf(t, page), dpi), librsvg(t, svgOf(t, page), dpi)
			checkAlike(t, where+", poppler", ours, fromPDF)
			checkAlike(t, where+", librsvg", ours, fromSVG)
			// Poppler draws all lines a little fatter than the others; librsvg's is the like of ours.
			like, _ := compare(ours, fromSVG, 2)
			far, _ := compare(ours, fromPDF, 2)
			theirs, _ := compare(fromSVG, fromPDF, 2)
			t.Logf("%s: mean difference %.4f levels from librsvg, %.4f from poppler; these two %.4f", where, like, far, theirs)
			if like > 0.1 || far > theirs+0.02 {
				t.Errorf("%s: mean difference %.4f levels from librsvg, %.4f from poppler; these two %.4f", where, like, far, theirs)
			}
		})
	}
	moved := testpage.Sample()
	moved.Marks[1].(*render.Circle).R += 0.3
	if n, _ := beyond(readPNG(t, pngOf(t, moved, png.Options{DPI: 200}), 200), poppler(t, pdfOf(t, testpage.Sample()), 200), 1); n == 0 {
		t.Error("a circle three tenths of a millimetre too large is not noticed")
	}
}

// TestPNGWheelMeasures: within a tenth of a pixel of what it should, and within one pixel of what the others draw.
func TestPNGWheelMeasures(t *testing.T) {
	t.Parallel()
	outside.Need(t, "pdftoppm", "rsvg-convert")
	wheel := testpage.Sample().Marks[1].(*render.Circle)
	page := render.Page{Width: 148, Height: 210, Title: "wheel", Guides: testpage.Sample().Guides, Marks: []render.Mark{wheel}}
	for _, dpi := range []int{96, 300} {
		pixel := 25.4 / float64(dpi)
		got := readPNG(t, pngOf(t, page, png.Options{DPI: float64(dpi)}), dpi).diameter(wheel.Centre, wheel.R)
		if want := 2 * float64(wheel.R); math.Abs(got-want) > pixel/10 {
			t.Errorf("at %d dpi the wheel is %.4f mm wide, want %.4f", dpi, got, want)
		}
		for other, theirs := range map[string]raster{"poppler": poppler(t, pdfOf(t, page), dpi), "librsvg": librsvg(t, svgOf(t, page), dpi)} {
			if want := theirs.diameter(wheel.Centre, wheel.R); math.Abs(got-want) > pixel {
				t.Errorf("at %d dpi the wheel is %.4f mm wide, %s's %.4f", dpi, got, other, want)
			}
		}
	}
}

// TestEvenOdd: by the rule, without anybody's help: the star's middle and what is wound round twice stay empty.
func TestEvenOdd(t *testing.T) {
	const dpi = 100
	img := readPNG(t, pngOf(t, testpage.Hard(), png.Options{DPI: dpi}), dpi)
	const full = 54 // the ink's grey: .299 × 0x20 + .587 × 0x30 + .114 × 0x90 (ITU-R BT.601, MEM)
	for _, tt := range []struct {
		x, y geom.MM
		want uint8
	}{
		{60, 108, full}, {36, 123, full}, {60, 130, 255}, // an arm, another, the middle
		{145, 105, full}, {195, 120, full}, {170, 105, full}, {160, 145, full}, {145, 125, full}, // wound round once
		{170, 120, 255}, {160, 125, 255}, // twice
	} {
		if got := img.GrayAt(int(float64(tt.x)*img.perMM), int(float64(tt.y)*img.perMM)).Y; got != tt.want {
			t.Errorf("at %v, %v: %d, want %d", tt.x, tt.y, got, tt.want)
		}
	}
}

// TestTightCirclesAreSolid: a pen wider than the circle it draws leaves no hole. (Librsvg's does.)
func TestTightCirclesAreSolid(t *testing.T) {
	t.Parallel()
	const dpi = 300
	centre := render.Point{X: 20.01, Y: 20.02}
	for _, r := range []geom.MM{0.05, 0.3, 0.7, 1.4} {
		pen := render.Pen{Width: 3}
		page := render.Page{Width: 40, Height: 40, Guides: []render.Guide{{Name: "dot"}}, Marks: []render.Mark{
			&render.Circle{Tagged: render.Tagged{Guide: "dot"}, Centre: centre, R: r, Pen: pen}}}
		img := readPNG(t, pngOf(t, page, png.Options{DPI: dpi}), dpi)
		for y := range img.Rect.Max.Y {
			for x := range img.Rect.Max.X {
				away := math.Hypot(float64(x)+0.5-float64(centre.X)*img.perMM, float64(y)+0.5-float64(centre.Y)*img.perMM) - float64(r+1.5)*img.perMM
				if v := img.GrayAt(x, y).Y; away < -1 && v > 12 || away > 1 && v < 255 {
					t.Fatalf("radius %v: %d at %d, %d, %.1f pixels beyond the edge", r, v, x, y, away)
				}
			}
		}
	}
}
