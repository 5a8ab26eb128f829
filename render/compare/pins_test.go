package compare_test

import (
	"math"
	"slices"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/compare"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/sheet"
	"hubrule/segments"
)

// pinnedPair returns a typical plan and one bent by pins.
func pinnedPair(t *testing.T) []layout.Plan {
	return []layout.Plan{testsheet.Plan(t, "suv"), testsheet.Pinned(t, "suv", "height=2.2w", "pillar-rake=33", "length=6.5w")}
}

// wordsOf returns all words of one page of a job.
func wordsOf(t testing.TB, job request.Request) []string {
	t.Helper()
	doc, _, err := sheet.Compose(job)
	if err != nil {
		t.Fatal(err)
	}
	return wordsOn(doc.Pages[0])
}

// wordsOn returns all words of a page.
func wordsOn(page render.Page) (out []string) {
	for _, w := range testsheet.WrittenOn(page) {
		out = append(out, w.Text)
	}
	return out
}

// Every number comes from the plan: pins move the numbers of the table and the lines of the drawing.
func TestPinsMoveTheOverlay(t *testing.T) {
	t.Parallel()
	s := testsheet.Setting(t, "A3")
	plans := pinnedPair(t)
	base, bent := plans[0], plans[1]
	over := request.Request{Plans: []layout.Plan{base}, Against: []layout.Plan{bent}, Kinds: []request.Kind{request.Overlay}, Setting: s}
	words := wordsOf(t, over)
	doc, _, _ := sheet.Compose(over)
	file := testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[0]))
	wheel := 2 * file.Shapes["wheel-front"].Num(t, "r")
	ground := file.Shapes["ground"].Num(t, "y1")
	for f := range segments.FigureCount {
		if compare.NotCompared(f) || !base.Profile.Form.Has(f) {
			continue
		}
		before, after := compare.FigureValue(base, f, request.Wheels), compare.FigureValue(bent, f, request.Wheels)
		if before == after {
			continue
		}
		i := slices.Index(words, compare.FigureName(f))
		if i < 0 {
			t.Errorf("no row for %s", f)
			continue
		}
		if got := words[i+1 : i+3]; got[0] != before || got[1] != after {
			t.Errorf("%s: row %v, want %s %s", f, got, before, after)
		}
		if f == segments.Height {
			if want := draft.FormatFixed((bent.Value(f)-base.Value(f))*wheel, 1) + " mm"; words[i+4] != want {
				t.Errorf("height on paper %s, want %s", words[i+4], want)
			}
		}
	}
	for id, want := range map[string]geom.Wheels{"roof": base.Height(), "p2-roof": bent.Height()} {
		if got := (ground - file.Shapes[id].Num(t, "y1")) / wheel; math.Abs(got-float64(want)) > 2e-4 {
			t.Errorf("%s is at %.4f wheels, want %.4f", id, got, want)
		}
	}
}

// Pins move the dots of a spread within their ranges, and the printed values.
func TestPinsMoveTheSpread(t *testing.T) {
	t.Parallel()
	s := testsheet.Setting(t, "A3")
	for _, p := range pinnedPair(t) {
		job := request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Spread}, Setting: s}
		words := wordsOf(t, job)
		for f := range segments.FigureCount {
			if f.Info().Role != segments.Declared || !p.Profile.Form.Has(f) {
				continue
			}
			r := p.Profile.Figures[f].Range
			i := slices.Index(words, compare.FigureName(f))
			want := []string{
				compare.FormatFigure(p, f, r.Lo, request.Wheels), compare.FormatFigure(p, f, r.Hi, request.Wheels),
				compare.FigureValue(p, f, request.Wheels),
			}
			if i < 0 || !slices.Equal(words[i+1:i+4], want) {
				t.Errorf("%s: row of %v; want %v", f, words[max(0, i):min(len(words), i+5)], want)
			}
		}
		doc, _, _ := sheet.Compose(job)
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
}

// Pins change the height of every thumbnail.
func TestPinsMoveTheThumbnails(t *testing.T) {
	t.Parallel()
	s := testsheet.Setting(t, "A3")
	for _, p := range pinnedPair(t) {
		doc, _, err := sheet.Compose(request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Thumbnails}, Setting: s})
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
