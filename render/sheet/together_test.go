package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/request"
	"hubrule/segments"
)

// togetherJobs are sheets with several vehicles that each segment has to stand.
func togetherJobs(t testing.TB, i int) []request.Request {
	names := segments.Names()
	at := func(k int) layout.Plan { return testsheet.Plan(t, names[(i+k)%len(names)]) }
	low := testsheet.Pinned(t, names[i], fmt.Sprintf("height=%.3fw", float64(at(0).Height())*.97))
	one, three := []layout.Plan{at(0)}, []layout.Plan{at(0), at(5), at(9)}
	return []request.Request{
		{Plans: one, Against: []layout.Plan{low}, Kinds: []request.Kind{request.Overlay}},
		{Plans: one, Against: []layout.Plan{at(7)}, Kinds: []request.Kind{request.Overlay}},
		{Plans: []layout.Plan{at(0), at(3), at(7), at(12)}, Kinds: []request.Kind{request.Overlay}},
		{Plans: one, Kinds: []request.Kind{request.Spread, request.Thumbnails}},
		{Plans: []layout.Plan{at(0), low}, Kinds: []request.Kind{request.Spread}},
		{Plans: three, Kinds: []request.Kind{request.Spread}},
		{Plans: three, Count: 24, Kinds: []request.Kind{request.Thumbnails}},
		{Plans: one, Count: 2, Kinds: []request.Kind{request.Thumbnails}},
	}
}

// Overlays, spreads and thumbnails of every segment, papers, facings and units by turns: no words on words, no line through words,
// nothing off the page, no id twice; the bar is 100 mm long and the wheel as large as the strip says.
func TestNothingOverlapsTogether(t *testing.T) {
	t.Parallel()
	eachSegment(t, func(t *testing.T, i int, _ layout.Plan) {
		for j, job := range togetherJobs(t, i) {
			for _, paper := range onTurn(i+j, papers()) {
				job.Setting = on(paper)
				job.Setting.Facing, job.Setting.Units = facingOnTurn(i+j/2), unitsOnTurn(i+2*j)
				for _, page := range inOrder(t, job) {
					checkTogether(t, page, job.Setting)
				}
			}
		}
	})
}

func checkTogether(t *testing.T, page render.Page, s request.Setting) {
	t.Helper()
	file := testsheet.ReadSVG(t, testsheet.SvgOf(t, page))
	if file.Repeated != nil {
		t.Errorf("%s: ids twice: %v", page.Title, file.Repeated)
	}
	bar := file.Shapes["check-bar"]
	if got := bar.Num(t, "x2") - bar.Num(t, "x1"); math.Abs(got-100) > .0015 {
		t.Errorf("%s: the bar is %v mm long", page.Title, got)
	}
	if !strings.HasSuffix(page.Title, string(request.Thumbnails)) && !slices.ContainsFunc(file.Texts, func(w testsheet.Text) bool {
		return strings.Contains(w.Words, "unit ")
	}) {
		t.Errorf("%s, %s: no word of the unit", page.Title, describe(s))
	}
	if !strings.HasSuffix(page.Title, string(request.Spread)) {
		if got, want := 2*file.Shapes["wheel-front"].Num(t, "r"), saidWheel(t, file); math.Abs(got-want) > .003 {
			t.Errorf("%s: the wheel is %v mm, said is %v", page.Title, got, want)
		}
	}
}

// What two plans share is drawn once; of two equal plans nothing is drawn twice.
func TestSharedLinesOnce(t *testing.T) {
	t.Parallel()
	s := testsheet.Setting(t, "A3")
	base := testsheet.Plan(t, "suv")
	count := func(against layout.Plan) map[string]int {
		doc, _, err := Compose(request.Request{Plans: []layout.Plan{base}, Against: []layout.Plan{against}, Kinds: []request.Kind{request.Overlay}, Setting: s})
		if err != nil {
			t.Fatal(err)
		}
		out := map[string]int{}
		for id := range testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[0])).Shapes {
			prefix, _, second := strings.Cut(id, "-")
			if second && prefix == "p2" {
				out["second"]++
			}
			out[id]++
		}
		return out
	}
	if n := count(base)["second"]; n != 0 {
		t.Errorf("%d lines of an equal plan", n)
	}
	ids := count(testsheet.Pinned(t, "suv", "height=2.2w"))
	for _, id := range []string{"p2-roof", "p2-outline", "wheel-front", "wheel-rear", "ground", "sill"} {
		if ids[id] != 1 {
			t.Errorf("%s: drawn %d times", id, ids[id])
		}
	}
	for _, id := range []string{"p2-wheel-front", "p2-wheel-rear", "p2-ground", "p2-sill", "p2-nose"} {
		if ids[id] != 0 {
			t.Errorf("%s is shared, and drawn again", id)
		}
	}
}

// An overlay stands on the place of the full sheet of the same command where it fits there, at the same wheel.
func TestOverlayRegisters(t *testing.T) {
	t.Parallel()
	s := testsheet.Setting(t, "A3")
	doc, _, err := Compose(request.Request{Plans: []layout.Plan{testsheet.Plan(t, "suv")}, Against: []layout.Plan{testsheet.Pinned(t, "suv", "height=2.3w")}, Kinds: []request.Kind{request.Full, request.Overlay}, Setting: s})
	if err != nil {
		t.Fatal(err)
	}
	a, b := testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[0])).Shapes["wheel-front"], testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[1])).Shapes["wheel-front"]
	for _, k := range []string{"cx", "cy", "r"} {
		if a.At[k] != b.At[k] {
			t.Errorf("%s: %s on the full sheet, %s on the overlay", k, a.At[k], b.At[k])
		}
	}
}

// Where an overlay does not fit at a reduction, the error names one at which it does, and not much less would.
func TestReductionOfAnOverlay(t *testing.T) {
	t.Parallel()
	r := request.Request{Plans: []layout.Plan{testsheet.Plan(t, "suv"), testsheet.Plan(t, "sedan")}, Kinds: []request.Kind{request.Overlay},
		Setting: testsheet.Setting(t, "A4")}
	at := func(n float64) error {
		r.Setting.Scale = request.Scale{Reduction: n}
		_, _, err := Compose(r)
		return err
	}
	err := at(20)
	var n float64
	if err == nil || !strings.Contains(err.Error(), "(1:") {
		t.Fatalf("at 1:20: %v; want an error with another reduction", err)
	}
	_, after, _ := strings.Cut(err.Error(), "(1:")
	if _, err := fmt.Sscanf(after, "%f", &n); err != nil {
		t.Fatal(err)
	}
	if err := at(n); err != nil {
		t.Errorf("1:%g, which the error names, does not fit: %v", n, err)
	}
	if at(n*.9) == nil {
		t.Errorf("1:%g fits, and the error names only 1:%g", n*.9, n)
	}
}
