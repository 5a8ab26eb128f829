package draft

import (
	"math"
	"slices"
	"testing"

	"hubrule/internal/geom"
	"hubrule/render/request"
)

// ISO 216 (SEEN): A0 to A5, trimmed sizes in mm; ANSI/ASME Y14.1 (SEEN): letter and tabloid, 8.5 × 11 and 11 × 17 in.
// Legal, 8.5 × 14 in, is custom of the US paper trade (MEM).
func TestPapers(t *testing.T) {
	sizes := map[string][2]geom.MM{
		"A0": {1189, 841}, "A1": {841, 594}, "A5": {210, 148}, "A2": {594, 420}, "A3": {420, 297}, "A4": {297, 210},
		"letter": {11 * 25.4, 8.5 * 25.4}, "tabloid": {17 * 25.4, 11 * 25.4}, "legal": {14 * 25.4, 8.5 * 25.4},
	}
	for _, p := range request.Papers() {
		name, want := p.Name, sizes[p.Name]
		if math.Abs(float64(p.Width-want[0])) > 1e-9 || math.Abs(float64(p.Height-want[1])) > 1e-9 {
			t.Errorf("%s is %g × %g mm, want %g × %g", name, p.Width, p.Height, want[0], want[1])
		}
		if up := p.Portrait(); up.Width != want[1] && math.Abs(float64(up.Width-want[1])) > 1e-9 {
			t.Errorf("%s upright is %g mm wide", name, up.Width)
		}
	}
	// ISO 5457 (1999 edition, 2nd-hand): A3 has a drawing space of 390 × 277 mm, A4 upright one of 180 × 277.
	for _, c := range []struct {
		p             request.Paper
		width, height geom.MM
	}{{paperCalled(t, "A3"), 390, 277}, {paperCalled(t, "A4").Portrait(), 180, 277}} {
		if s := NewCanvas(request.Setting{Paper: c.p}).Space; s.Width() != c.width || s.Height() != c.height {
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
		grow := enlargementOf(paperCalled(t, name))
		for _, w := range []geom.MM{Wide, Narrow, Hair} {
			if !in(widths, w, grow) {
				t.Errorf("line width %g on %s is not of ISO 128", float64(w)*grow, name)
			}
		}
		for _, h := range []geom.MM{Small, Medium, Large} {
			if !in(heights, h, grow) {
				t.Errorf("lettering of %g mm on %s is not of ISO 3098", float64(h)*grow, name)
			}
		}
	}
	if Wide != 2*Narrow {
		t.Errorf("wide to narrow is %g : 1", Wide/Narrow)
	}
	if leading < 1.4 || leading > 1.9 {
		t.Errorf("lines stand %g heights apart", leading)
	}
}

func paperCalled(t testing.TB, name string) request.Paper {
	t.Helper()
	p, ok := request.FindPaper(name)
	if !ok {
		t.Fatalf("no paper %s", name)
	}
	return p
}
