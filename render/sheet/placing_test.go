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

// Every segment on every paper, facing, label style and unit: no words on words, no line through words,
// nothing within 5 mm of the paper's edge.
func TestNothingOverlaps(t *testing.T) {
	pages := 0
	for _, name := range segments.Names() {
		p := testsheet.Plan(t, name)
		for _, paperName := range []string{"A4", "A3", "A2", "A1", "letter", "tabloid", "legal"} {
			for _, s := range settings(testsheet.Setting(t, paperName)) {
				for _, kinds := range together() {
					s.Given = 1 + pages%4
					doc, _, err := Compose(request.Request{Plans: []layout.Plan{p}, Kinds: kinds, Setting: s})
					if err != nil {
						t.Errorf("%s %v %s: %v", name, kinds, describe(s), err)
						continue
					}
					for _, page := range doc.Pages {
						pages++
						for _, f := range testsheet.Faults(page) {
							t.Errorf("%s, %s: %s", page.Title, describe(s), f)
						}
					}
				}
			}
		}
	}
	t.Logf("%d pages", pages)
}

func describe(s request.Setting) string {
	return fmt.Sprintf("%s %gx%g %s %s %s frame=%v", s.Paper.Name, s.Paper.Width, s.Paper.Height, s.Facing, s.Labels, s.Units, s.Frame)
}

// settings varies facing, label style, units, orientation and frame.
func settings(s request.Setting) []request.Setting {
	var out []request.Setting
	for _, s.Facing = range []request.Facing{request.Left, request.Right} {
		for _, s.Labels = range []request.Labels{request.NoLabels, request.ShortLabels, request.FullLabels} {
			for _, s.Units = range []request.Units{request.Wheels, request.Millimetres, request.Inches} {
				out = append(out, s)
			}
		}
	}
	s.Frame, s.Labels, s.Units = true, request.FullLabels, request.Wheels
	out = append(out, s)
	s.Frame, s.Paper = false, s.Paper.Upright()
	out = append(out, s)
	s.Frame = true
	return append(out, s)
}

// The least paper that is let pass holds a trace sheet of every segment, bar, wheel and advice included.
func TestLeastPapers(t *testing.T) {
	for _, p := range []request.Paper{{Name: "180x240mm", Width: request.LeastWidth, Height: 240}, {Name: "180x105mm", Width: request.LeastWidth, Height: request.LeastHeight}, {Name: "A5", Width: 210, Height: 148}} {
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		s := testsheet.Setting(t, "A3")
		s.Paper = p
		for _, s.Frame = range []bool{false, true} {
			for _, name := range segments.Names() {
				doc, _, err := Compose(request.Request{Plans: []layout.Plan{testsheet.Plan(t, name)}, Kinds: []request.Kind{request.Trace}, Setting: s})
				if err != nil {
					t.Fatalf("%s on %s: %v", name, p.Name, err)
				}
				for _, f := range testsheet.Faults(doc.Pages[0]) {
					t.Errorf("%s on %s, frame %v: %s", name, p.Name, s.Frame, f)
				}
				saidWheel(t, testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[0])))
			}
		}
	}
	for _, p := range []request.Paper{{Name: "narrow", Width: request.LeastWidth - 1, Height: 300}, {Name: "low", Width: 300, Height: request.LeastHeight - 1}, {Name: "vast", Width: request.MostPaper + 1, Height: 300}} {
		if p.Check() == nil {
			t.Errorf("%s paper passes", p.Name)
		}
	}
}

// The checker itself sees planted faults.
func TestFaultsAreSeen(t *testing.T) {
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
