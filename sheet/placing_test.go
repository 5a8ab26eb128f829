package sheet

import (
	"fmt"
	"math"
	"testing"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

func plan(t testing.TB, name string) layout.Plan {
	t.Helper()
	p, err := segments.Find(name)
	if err != nil {
		t.Fatal(err)
	}
	return layout.Typical(p)
}

func paper(t testing.TB, name string) request.Paper {
	t.Helper()
	p, ok := request.FindPaper(name)
	if !ok {
		t.Fatalf("no paper %s", name)
	}
	return p
}

func setting(t testing.TB, paperName string) request.Setting {
	return on(paper(t, paperName))
}

// written is a line of words on a finished page with the box of its ink, measured here anew: capitals
// stand on the baseline, nothing of the letters in use reaches further than 0.3 of them below it.
type written struct {
	text string
	box  draft.Box
}

func writtenOn(p render.Page) []written {
	var out []written
	for _, m := range p.Marks {
		t, ok := m.(*render.Text)
		if !ok {
			continue
		}
		var w written
		var width, tall geom.MM
		for _, s := range t.Spans {
			width += fonts.Width(s.Text, s.Height, s.Weight)
			tall = max(tall, s.Height)
			w.text += s.Text
		}
		x := t.At.X - width*geom.MM(t.Anchor)/2
		w.box = draft.Box{Min: draft.Point{X: x, Y: t.At.Y - tall}, Max: draft.Point{X: x + width, Y: t.At.Y + .3*tall}}
		if t.Angle == 90 { // x turns up, and up turns left
			y := t.At.Y - width + width*geom.MM(t.Anchor)/2
			w.box = draft.Box{Min: draft.Point{X: t.At.X - tall, Y: y}, Max: draft.Point{X: t.At.X + .3*tall, Y: y + width}}
		}
		out = append(out, w)
	}
	return out
}

// drawnOn returns every line of a page as straight pieces, each with half its width.
func drawnOn(p render.Page) (out []draft.Segment, half []geom.MM) {
	out, half = make([]draft.Segment, 0, 16*len(p.Marks)), make([]geom.MM, 0, 16*len(p.Marks))
	add := func(path render.Path, width geom.MM) {
		for _, run := range path.Flatten(24) {
			for i := 1; i < len(run); i++ {
				out, half = append(out, draft.Segment{A: run[i-1], B: run[i]}), append(half, width/2)
			}
		}
	}
	for _, m := range p.Marks {
		switch m := m.(type) {
		case *render.Stroke:
			add(m.Path, m.Pen.Width)
		case *render.Ellipse:
			add(m.Path(), m.Pen.Width)
		case *render.Circle:
			path := render.Path{}
			for i, c := range geom.CircleCubics(m.Centre, m.R) {
				if i == 0 {
					path = path.Move(c[0])
				}
				path = path.Curve(c[1], c[2], c[3])
			}
			add(path, m.Pen.Width)
		}
	}
	return out, half
}

// faults checks a finished page: words clear of words and of every line, everything inside the margin.
func faults(p render.Page) []string {
	var out []string
	margin := draft.Box{Max: draft.Point{X: p.Width, Y: p.Height}}.Grow(-draft.PrinterEdge + 1e-6)
	words := writtenOn(p)
	lines, half := drawnOn(p)
	for i, w := range words {
		if !margin.Contains(w.box) {
			out = append(out, fmt.Sprintf("%q leaves the margin", w.text))
		}
		for _, v := range words[i+1:] {
			if w.box.Overlaps(v.box) {
				out = append(out, fmt.Sprintf("%q on %q", w.text, v.text))
			}
		}
		for k, l := range lines {
			if l.Meets(w.box.Grow(half[k])) {
				out = append(out, fmt.Sprintf("a line at %.1f,%.1f through %q", l.A.X, l.A.Y, w.text))
				break
			}
		}
	}
	for k, l := range lines {
		// Caps are butt: along an axis-parallel line its width counts only across.
		if !margin.Contains(span2(l, half[k])) {
			out = append(out, fmt.Sprintf("a line at %.1f,%.1f leaves the margin", l.A.X, l.A.Y))
		}
	}
	return out
}

func span2(s draft.Segment, half geom.MM) draft.Box {
	b := draft.Box{Min: draft.Point{X: min(s.A.X, s.B.X), Y: min(s.A.Y, s.B.Y)}, Max: draft.Point{X: max(s.A.X, s.B.X), Y: max(s.A.Y, s.B.Y)}}
	d := s.B.Sub(s.A).Unit()
	x, y := half*geom.MM(math.Abs(float64(d.Y))), half*geom.MM(math.Abs(float64(d.X)))
	b.Min, b.Max = b.Min.Sub(draft.Point{X: x, Y: y}), b.Max.Add(draft.Point{X: x, Y: y})
	return b
}

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
		for k, paper := range request.Papers() {
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
		for _, f := range faults(page) {
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
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		s := on(p)
		for _, s.Frame = range []bool{false, true} {
			for _, name := range segments.Names() {
				job := request.Request{Plans: []layout.Plan{plan(t, name)}, Kinds: []request.Kind{request.Trace}, Setting: s}
				for _, page := range inOrder(t, job) {
					saidWheel(t, readSVG(t, svgOf(t, page)))
				}
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
	t.Parallel()
	doc, _, err := Compose(request.Request{Plans: []layout.Plan{plan(t, "suv")}, Kinds: []request.Kind{request.Full}, Setting: setting(t, "A3")})
	if err != nil {
		t.Fatal(err)
	}
	page := doc.Pages[0]
	some := writtenOn(page)[3].box
	for what, m := range map[string]render.Mark{
		"words on words":       &render.Text{At: draft.Point{X: some.Min.X, Y: some.Max.Y}, Spans: []render.Span{{Text: "x", Height: 2.5, Weight: render.Regular}}},
		"a line through words": &render.Stroke{Path: render.Path{}.Move(some.Min).Line(some.Max), Pen: render.Pen{Width: .13}},
		"a line off the page":  &render.Stroke{Path: render.Path{}.Move(draft.Point{X: 4, Y: 100}).Line(draft.Point{X: 9, Y: 100}), Pen: render.Pen{Width: .13}},
		"words off the page":   &render.Text{At: draft.Point{X: 300, Y: 295}, Spans: []render.Span{{Text: "x", Height: 2.5, Weight: render.Regular}}},
	} {
		bad := page
		bad.Marks = append(append([]render.Mark(nil), page.Marks...), m)
		if len(faults(bad)) == 0 {
			t.Errorf("%s: not seen", what)
		}
	}
}

func BenchmarkComposeFull(b *testing.B) {
	job := request.Request{Plans: []layout.Plan{plan(b, "suv")}, Kinds: []request.Kind{request.Full}, Setting: setting(b, "A3")}
	for b.Loop() {
		if _, _, err := Compose(job); err != nil {
			b.Fatal(err)
		}
	}
}
