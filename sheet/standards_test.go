package sheet

import (
	"bytes"
	"image"
	_ "image/png"
	"math"
	"slices"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/outside"
	"hubrule/render/request"
)

// ISO 216 (SEEN): A1 to A4, trimmed sizes in mm; ANSI/ASME Y14.1 (SEEN): letter and tabloid, 8.5 × 11 and 11 × 17 in.
// Legal, 8.5 × 14 in, is custom of the US paper trade (MEM).
func TestPapers(t *testing.T) {
	for name, want := range map[string][2]geom.MM{
		"A1": {841, 594}, "A2": {594, 420}, "A3": {420, 297}, "A4": {297, 210},
		"letter": {11 * 25.4, 8.5 * 25.4}, "tabloid": {17 * 25.4, 11 * 25.4}, "legal": {14 * 25.4, 8.5 * 25.4},
	} {
		p := paper(t, name)
		if math.Abs(float64(p.Width-want[0])) > 1e-9 || math.Abs(float64(p.Height-want[1])) > 1e-9 {
			t.Errorf("%s is %g × %g mm, want %g × %g", name, p.Width, p.Height, want[0], want[1])
		}
		if up := p.Upright(); up.Width != want[1] && math.Abs(float64(up.Width-want[1])) > 1e-9 {
			t.Errorf("%s upright is %g mm wide", name, up.Width)
		}
	}
	if len(request.Papers()) != 7 {
		t.Errorf("%d papers are told, 7 are checked", len(request.Papers()))
	}
	// ISO 5457 (1999 edition, 2nd-hand): A3 has a drawing space of 390 × 277 mm, A4 upright one of 180 × 277.
	for _, c := range []struct {
		p             request.Paper
		width, height geom.MM
	}{{paper(t, "A3"), 390, 277}, {paper(t, "A4").Upright(), 180, 277}} {
		if s := spaceOf(c.p); s.Width() != c.width || s.Height() != c.height {
			t.Errorf("drawing space of %s: %g × %g, want %g × %g", c.p.Name, s.Width(), s.Height(), c.width, c.height)
		}
	}
}

// ISO 128 (SEEN): line widths 0.13 0.18 0.25 0.35 0.5 0.7 1.0 1.4 2.0 mm, wide to narrow 2 : 1; elements in line
// widths: gap 3, short dash 6, dash 12, long dash 24. ISO 3098 (SEEN): lettering 1.8 2.5 3.5 5 7 10 mm, lines 1.4 to
// 1.9 heights apart. Both series grow by √2, rounded, so what is 1.4 times as large on big paper stands in them again
// within 2.5 %.
func TestLinesAndLettering(t *testing.T) {
	widths := []float64{.13, .18, .25, .35, .5, .7, 1, 1.4, 2}
	heights := []float64{1.8, 2.5, 3.5, 5, 7, 10}
	in := func(series []float64, v geom.MM, grow float64) bool {
		return slices.ContainsFunc(series, func(s float64) bool { return math.Abs(s-float64(v)*grow) < .025*s })
	}
	for _, name := range []string{"A3", "A1"} {
		grow := growthOf(paper(t, name))
		for _, w := range []geom.MM{wide, narrow, hair} {
			if !in(widths, w, grow) {
				t.Errorf("line width %g on %s is not of ISO 128", float64(w)*grow, name)
			}
		}
		for _, h := range []geom.MM{small, medium, large} {
			if !in(heights, h, grow) {
				t.Errorf("lettering of %g mm on %s is not of ISO 3098", float64(h)*grow, name)
			}
		}
	}
	if wide != 2*narrow {
		t.Errorf("wide to narrow is %g : 1", wide/narrow)
	}
	if leading < 1.4 || leading > 1.9 {
		t.Errorf("lines stand %g heights apart", leading)
	}
	elements := []float64{3, 6, 12, 24}
	for what, k := range map[string]lineKind{
		"counted": countedLine(), "axle": axleLine(), "roof": roofLine(), "sill": sillLine(), "glass": glassLine(), "aim": aimLine(),
	} {
		for i, d := range k.dash {
			// A chain's dot is 2 widths here, not the standard's half: printers and copiers drop a dot of 0.125 mm.
			if !slices.Contains(elements, d) && (i == 0 || d != 2) {
				t.Errorf("%s: element of %g line widths", what, d)
			}
			if i%2 == 1 && d != 3 {
				t.Errorf("%s: gap of %g line widths, want 3", what, d)
			}
		}
	}
}

// The line work of a real sheet is the same from both files: poppler's picture of the PDF and librsvg's of the
// SVG differ nowhere by more than a line's edge, one pixel at 150 dpi.
func TestBothFilesShowTheSameSheet(t *testing.T) {
	outside.Need(t, "pdftoppm", "rsvg-convert")
	s := setting(t, "A3")
	s.Labels = request.NoLabels
	for _, name := range []string{"suv", "mid-engine", "convertible"} {
		path, doc := pdfOf(t, s, []request.Kind{request.Full}, name)
		fromPDF := blackOf(t, outside.Run(t, "pdftoppm", "-r", "150", "-png", "-singlefile", path))
		svg := outside.File(t, "page.svg", svgOf(t, doc.Pages[0]))
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
	for y := range g.height {
		for x := range g.width {
			r, gr, bl, _ := m.At(b.Min.X+x, b.Min.Y+y).RGBA()
			grey := (r + gr + bl) / 3
			g.dark[y*g.width+x], g.inked[y*g.width+x] = grey < 0x7000, grey < 0xf000
		}
	}
	return g
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
