package sheet

import (
	"fmt"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// together lists the kinds that are drawn together in tests: a sheet with blanks makes the figures beside it smaller, so that those
// without are tested by themselves too.
func together() [][]request.Kind {
	return [][]request.Kind{{request.Full, request.Trace}, {request.Full, request.Practice, request.Answer}, {request.Practice}, {request.Steps}}
}

// Every segment on every paper, with facings, label styles, units, orientations and frames by turns: no words on words, no line
// through words, nothing within 5 mm of the paper's edge.
func TestNothingOverlaps(t *testing.T) {
	t.Parallel()
	eachSegment(t, func(t *testing.T, i int, p layout.Plan) {
		for k, paper := range papers() {
			for g, kinds := range together() {
				// A segment meets every setting on three papers; on one paper, the number of settings and 5 sharing no factor,
				// twelve segments meet them all.
				turn := 5*i + 4*k + g
				for _, s := range settingsOnTurn(turn, paper) {
					s.Given = request.GivenWheels + turn%request.GivenMost
					inOrder(t, request.Request{Plans: []layout.Plan{p}, Kinds: kinds, Setting: s})
				}
			}
		}
	})
}

// inOrder composes a job, checks every page for faults and returns the pages.
func inOrder(t *testing.T, job request.Request) []render.Page {
	t.Helper()
	doc, _, err := Compose(job)
	if err != nil {
		t.Errorf("%s, %v, %s: %v", job.Title(), job.Kinds, describe(job.Setting), err)
		return nil
	}
	for _, page := range doc.Pages {
		for _, f := range testsheet.Faults(page) {
			t.Errorf("%s, %s: %s", page.Title, describe(job.Setting), f)
		}
	}
	return doc.Pages
}

func describe(s request.Setting) string {
	return fmt.Sprintf("%s %gx%g %s %s %s frame=%v", s.Paper.Name, s.Paper.Width, s.Paper.Height, s.Facing, s.Labels, s.Units, s.Frame)
}

// The least paper that is let pass holds a trace sheet of every segment, bar, wheel and advice included.
func TestLeastPapers(t *testing.T) {
	t.Parallel()
	for _, p := range []request.Paper{{Name: "180x240mm", Width: request.LeastWidth, Height: 240}, {Name: "180x105mm", Width: request.LeastWidth, Height: request.LeastHeight}, {Name: "A5", Width: 210, Height: 148}} {
		if err := p.Check(nil); err != nil {
			t.Fatal(err)
		}
		s := on(p)
		for _, s.Frame = range []bool{false, true} {
			for _, name := range segments.Names() {
				job := request.Request{Plans: []layout.Plan{testsheet.Plan(t, name)}, Kinds: []request.Kind{request.Trace}, Setting: s}
				for _, page := range inOrder(t, job) {
					saidWheel(t, testsheet.ReadSVG(t, testsheet.SvgOf(t, page)))
				}
			}
		}
	}
}

// The checker itself sees planted faults.
func TestFaultsAreSeen(t *testing.T) {
	t.Parallel()
	doc, _, err := Compose(request.Request{Plans: []layout.Plan{testsheet.Plan(t, "suv")}, Kinds: []request.Kind{request.Full}, Setting: testsheet.Setting(t, "A3")})
	if err != nil {
		t.Fatal(err)
	}
	page := doc.Pages[0]
	some := testsheet.WrittenOn(page)[3].Box
	for what, m := range map[string]render.Mark{
		"words on words":       &render.Text{At: draft.Point{X: some.Min.X, Y: some.Max.Y}, Spans: []render.Span{{Text: "x", Height: 2.5, Weight: render.Regular}}},
		"a line through words": &render.Stroke{Path: render.Path{}.Move(some.Min).Line(some.Max), Pen: render.Pen{Width: .13}},
		"a line off the page":  &render.Stroke{Path: render.Path{}.Move(draft.Point{X: 4, Y: 100}).Line(draft.Point{X: 9, Y: 100}), Pen: render.Pen{Width: .13}},
		"words off the page":   &render.Text{At: draft.Point{X: 300, Y: 295}, Spans: []render.Span{{Text: "x", Height: 2.5, Weight: render.Regular}}},
	} {
		bad := page
		bad.Marks = append(append([]render.Mark(nil), page.Marks...), m)
		if len(testsheet.Faults(bad)) == 0 {
			t.Errorf("%s: not seen", what)
		}
	}
}

func BenchmarkComposeFull(b *testing.B) {
	job := request.Request{Plans: []layout.Plan{testsheet.Plan(b, "suv")}, Kinds: []request.Kind{request.Full}, Setting: testsheet.Setting(b, "A3")}
	for b.Loop() {
		if _, _, err := Compose(job); err != nil {
			b.Fatal(err)
		}
	}
}

// sheetsOf composes and writes one plan's sheets and reads them back.
func sheetsOf(t testing.TB, p layout.Plan, s request.Setting, kinds ...request.Kind) []testsheet.SVG {
	t.Helper()
	doc, _, err := Compose(request.Request{Plans: []layout.Plan{p}, Kinds: kinds, Setting: s})
	if err != nil {
		t.Fatal(err)
	}
	var out []testsheet.SVG
	for _, page := range doc.Pages {
		out = append(out, testsheet.ReadSVG(t, testsheet.SvgOf(t, page)))
	}
	return out
}
