package sheet

import (
	"bytes"
	"image"
	"image/draw"
	_ "image/png"
	"testing"

	"hubrule/internal/outside"
	"hubrule/internal/testsheet"
	"hubrule/render/request"
)

// The line work of a real sheet is the same from both files: poppler's picture of the PDF and librsvg's of the
// SVG differ nowhere by more than a line's edge, one pixel at 150 dpi.
func TestBothFilesShowTheSameSheet(t *testing.T) {
	t.Parallel()
	outside.Need(t, "pdftoppm", "rsvg-convert")
	s := testsheet.Setting(t, "A3")
	s.Labels = request.NoLabels
	for _, name := range []string{"convertible"} {
		path, doc := pdfOf(t, s, []request.Kind{request.Full}, name)
		fromPDF := blackOf(t, outside.Run(t, "pdftoppm", "-r", "150", "-png", "-singlefile", path))
		svg := outside.File(t, "page.svg", testsheet.SvgOf(t, doc.Pages[0]))
		fromSVG := blackOf(t, outside.Run(t, "rsvg-convert", "-b", "white", "-d", "150", "-p", "150", svg))
		// The strip's words are librsvg's own face where ours is not installed: compared above the strip only.
		strip := 265 * 150 * 10 / 254
		for what, pair := range map[string][2]picture{"PDF": {fromPDF, fromSVG}, "SVG": {fromSVG, fromPDF}} {
			if n, at := pair[0].missingIn(pair[1], strip); n > 0 {
				t.Errorf("%s: %d dark pixels only in the %s, the first at %v", name, n, what, at)
			}
		}
	}
}

// picture says which pixels are dark, and which hold any ink: a hair line may be dark in one and grey in the other.
type picture struct {
	dark, inked   []bool
	width, height int
}

func blackOf(t testing.TB, png []byte) picture {
	t.Helper()
	m, _, err := image.Decode(bytes.NewReader(png))
	if err != nil {
		t.Fatal(err)
	}
	b := m.Bounds()
	g := picture{make([]bool, b.Dx()*b.Dy()), make([]bool, b.Dx()*b.Dy()), b.Dx(), b.Dy()}
	pix := pixelsOf(m)
	for i := range g.dark {
		p := pix[4*i:]
		grey := (int(p[0]) + int(p[1]) + int(p[2])) * 0x101 / 3
		g.dark[i], g.inked[i] = grey < 0x7000, grey < 0xf000
	}
	return g
}

// pixelsOf returns red, green, blue and alpha of every pixel: they are read far quicker than by At.
func pixelsOf(m image.Image) []byte {
	b := m.Bounds()
	if m, ok := m.(*image.RGBA); ok && m.Stride == 4*b.Dx() {
		return m.Pix
	}
	flat := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(flat, flat.Rect, m, b.Min, draw.Src)
	return flat.Pix
}

// missingIn counts the dark pixels of g above a row that have no ink within a pixel in o.
func (g picture) missingIn(o picture, rows int) (n int, first image.Point) {
	for y := 2; y < min(rows, g.height, o.height)-2; y++ {
		for x := 2; x < min(g.width, o.width)-2; x++ {
			if !g.dark[y*g.width+x] || o.near(x, y) {
				continue
			}
			if n == 0 {
				first = image.Pt(x, y)
			}
			n++
		}
	}
	return n, first
}

// near reports whether there is ink within a pixel of x, y.
func (g picture) near(x, y int) bool {
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			if g.inked[(y+dy)*g.width+x+dx] {
				return true
			}
		}
	}
	return false
}
