package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/compare"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// pinned solves a segment with pins like "height=2.2w".
func pinned(t testing.TB, segment string, pins ...string) layout.Plan {
	t.Helper()
	p, err := segments.Find(segment)
	if err != nil {
		t.Fatal(err)
	}
	b := segments.Brief{Profile: p}
	for _, text := range pins {
		figure, v, _ := strings.Cut(text, "=")
		f, ok := segments.Lookup(figure)
		if !ok {
			t.Fatalf("no figure %s", figure)
		}
		pin, err := segments.ParsePin(f, v)
		if err != nil {
			t.Fatal(err)
		}
		b.Pins = append(b.Pins, pin)
	}
	plan, err := layout.Solve(b)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

// togetherJobs are sheets with several vehicles that each segment has to stand.
func togetherJobs(t testing.TB, i int) []request.Request {
	names := segments.Names()
	at := func(k int) layout.Plan { return testsheet.Plan(t, names[(i+k)%len(names)]) }
	low := pinned(t, names[i], fmt.Sprintf("height=%.3fw", float64(at(0).Height())*.97))
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
			for _, paper := range onTurn(i+j, request.Papers()) {
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
		return strings.Contains(w.Words, counting.UnitName(s.Units))
	}) {
		t.Errorf("%s, %s: no word of the unit", page.Title, describe(s))
	}
	if !strings.HasSuffix(page.Title, string(request.Spread)) {
		if got, want := 2*file.Shapes["wheel-front"].Num(t, "r"), saidWheel(t, file); math.Abs(got-want) > .003 {
			t.Errorf("%s: the wheel is %v mm, said is %v", page.Title, got, want)
		}
	}
}

// words returns all words of one page of a job.
func wordsOf(t testing.TB, job request.Request) []string {
	t.Helper()
	doc, _, err := Compose(job)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, w := range testsheet.WrittenOn(doc.Pages[0]) {
		out = append(out, w.Text)
	}
	return out
}

// Every number comes from the plan: pins move them all, on the sheet and in the drawing.
func TestPinsMoveTheSheetsTogether(t *testing.T) {
	t.Parallel()
	s := testsheet.Setting(t, "A3")
	base := testsheet.Plan(t, "suv")
	bent := pinned(t, "suv", "height=2.2w", "pillar-rake=33", "length=6.5w")
	over := request.Request{Plans: []layout.Plan{base}, Against: []layout.Plan{bent}, Kinds: []request.Kind{request.Overlay}, Setting: s}
	words := wordsOf(t, over)
	doc, _, _ := Compose(over)
	file := testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[0]))
	wheel := 2 * file.Shapes["wheel-front"].Num(t, "r")
	ground := file.Shapes["ground"].Num(t, "y1")
	for f := range segments.FigureCount {
		if compare.Unseen(f) || !base.Profile.Form.Has(f) || compare.FigureValue(base, f, request.Wheels) == compare.FigureValue(bent, f, request.Wheels) {
			continue
		}
		i := slices.Index(words, compare.FigureWords(f.String()))
		if i < 0 {
			t.Errorf("no row for %s", f)
			continue
		}
		if got := words[i+1 : i+3]; got[0] != compare.FigureValue(base, f, request.Wheels) || got[1] != compare.FigureValue(bent, f, request.Wheels) {
			t.Errorf("%s: row %v, want %s %s", f, got, compare.FigureValue(base, f, request.Wheels), compare.FigureValue(bent, f, request.Wheels))
		}
		if f == segments.Height {
			if want := draft.Fixed((bent.Value(f)-base.Value(f))*wheel, 1) + " mm"; words[i+4] != want {
				t.Errorf("height on paper %s, want %s", words[i+4], want)
			}
		}
	}
	for id, want := range map[string]geom.Wheels{"roof": base.Height(), "p2-roof": bent.Height()} {
		if got := (ground - file.Shapes[id].Num(t, "y1")) / wheel; math.Abs(got-float64(want)) > 2e-4 {
			t.Errorf("%s is at %.4f wheels, want %.4f", id, got, want)
		}
	}

	for _, p := range []layout.Plan{base, bent} {
		job := request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Spread}, Setting: s}
		words := wordsOf(t, job)
		for f := range segments.FigureCount {
			if f.Info().Role != segments.Declared || !p.Profile.Form.Has(f) {
				continue
			}
			r := p.Profile.Figures[f].Range
			i := slices.Index(words, compare.FigureWords(f.String()))
			want := []string{compare.FigureAs(p, f, r.Lo, request.Wheels), compare.FigureAs(p, f, r.Hi, request.Wheels), compare.FigureValue(p, f, request.Wheels)}
			if i < 0 || !slices.Equal(words[i+1:i+4], want) {
				t.Errorf("%s: row of %v; want %v", f, words[max(0, i):min(len(words), i+5)], want)
			}
		}
		doc, _, _ := Compose(job)
		spread := testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[0]))
		for _, st := range p.FigureStatuses() {
			if st.Figure.Info().Role != segments.Declared {
				continue
			}
			line, dot := spread.Shapes["range-"+st.Figure.String()], spread.Shapes["value-"+st.Figure.String()]
			lo, hi := line.Num(t, "x1"), line.Num(t, "x2")
			share := (dot.Num(t, "cx") - lo) / (hi - lo)
			want := (st.Value - st.Range.Lo) / (st.Range.Hi - st.Range.Lo)
			if math.Abs(share-want) > 1e-3 {
				t.Errorf("%s: dot at %.3f of its range, want %.3f", st.Figure, share, want)
			}
		}
	}

	for _, p := range []layout.Plan{base, bent} {
		doc, _, err := Compose(request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Thumbnails}, Setting: s})
		if err != nil {
			t.Fatal(err)
		}
		f := testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[0]))
		for i := range 12 {
			wheel := 2 * f.Shapes[compare.PlanID(i, "wheel-front")].Num(t, "r")
			high := f.Shapes[compare.PlanID(i, "ground")].Num(t, "y1") - f.Shapes[compare.PlanID(i, "roof")].Num(t, "y1")
			if math.Abs(high/wheel-float64(p.Height())) > 2e-3 {
				t.Errorf("thumbnail %d is %.3f wheels high, want %.3f", i+1, high/wheel, p.Height())
			}
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
	ids := count(pinned(t, "suv", "height=2.2w"))
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
	doc, _, err := Compose(request.Request{Plans: []layout.Plan{testsheet.Plan(t, "suv")}, Against: []layout.Plan{pinned(t, "suv", "height=2.3w")}, Kinds: []request.Kind{request.Full, request.Overlay}, Setting: s})
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
