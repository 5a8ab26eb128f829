package testsheet

import (
	"fmt"
	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
	"math"
	"strings"
	"testing"
)

func Plan(t testing.TB, name string) layout.Plan {
	t.Helper()
	p, err := segments.Find(name)
	if err != nil {
		t.Fatal(err)
	}
	return layout.Typical(p)
}

// Pinned solves a segment with pins like "height=2.2w".
func Pinned(t testing.TB, segment string, pins ...string) layout.Plan {
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

func Paper(t testing.TB, name string) request.Paper {
	t.Helper()
	p, ok := request.FindPaper(name)
	if !ok {
		t.Fatalf("no paper %s", name)
	}
	return p
}

func Setting(t testing.TB, paperName string) request.Setting {
	return request.Setting{Paper: Paper(t, paperName), Facing: request.Left, Labels: request.FullLabels, Units: request.Wheels}
}

// written is a line of words on a finished page with the box of its ink, measured here anew: capitals
// stand on the baseline, nothing of the letters in use reaches further than 0.3 of them below it.
type written struct {
	Text string
	Box  draft.Box
}

func WrittenOn(p render.Page) []written {
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
			w.Text += s.Text
		}
		x := t.At.X - width*geom.MM(t.Anchor)/2
		w.Box = draft.Box{Min: draft.Point{X: x, Y: t.At.Y - tall}, Max: draft.Point{X: x + width, Y: t.At.Y + .3*tall}}
		if t.Angle == 90 { // x turns up, and up turns left
			y := t.At.Y - width + width*geom.MM(t.Anchor)/2
			w.Box = draft.Box{Min: draft.Point{X: t.At.X - tall, Y: y}, Max: draft.Point{X: t.At.X + .3*tall, Y: y + width}}
		}
		out = append(out, w)
	}
	return out
}

// DrawnOn returns every line of a page as straight pieces, each with half its width.
func DrawnOn(p render.Page) (out []draft.Segment, half []geom.MM) {
	type run struct {
		points []draft.Point
		half   geom.MM
	}
	var runs []run
	pieces := 0
	add := func(path render.Path, width geom.MM) {
		for _, points := range path.Flatten(24) {
			runs, pieces = append(runs, run{points, width / 2}), pieces+len(points)
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
	out, half = make([]draft.Segment, 0, pieces), make([]geom.MM, 0, pieces)
	for _, r := range runs {
		for i := 1; i < len(r.points); i++ {
			out, half = append(out, draft.Segment{A: r.points[i-1], B: r.points[i]}), append(half, r.half)
		}
	}
	return out, half
}

// inRun is how many lines share a box.
const inRun = 24

// firstThrough returns the first line through a box of words, or −1.
func firstThrough(words draft.Box, lines []draft.Segment, half []geom.MM, boxes, runs []draft.Box) int {
	for r, run := range runs {
		if !run.Overlaps(words) {
			continue
		}
		for k := r * inRun; k < min(len(lines), (r+1)*inRun); k++ {
			if boxes[k].Overlaps(words) && lines[k].Intersects(words.Grow(half[k])) {
				return k
			}
		}
	}
	return -1
}

// Faults checks a finished page: words clear of words and of every line, everything inside the margin.
func Faults(p render.Page) []string {
	var out []string
	margin := draft.Box{Max: draft.Point{X: p.Width, Y: p.Height}}.Grow(-draft.PrinterEdge + 1e-6)
	words := WrittenOn(p)
	lines, half := DrawnOn(p)
	boxes := make([]draft.Box, len(lines)) // of what a word has to keep clear of, to pass over most lines quickly
	var runs []draft.Box                   // of several lines in a row each, for the same reason
	for k, l := range lines {
		boxes[k] = geom.BoxOf(l.A, l.B).Grow(half[k])
		if k%inRun == 0 {
			runs = append(runs, boxes[k])
		}
		run := &runs[k/inRun]
		*run = geom.BoxOf(run.Min, run.Max, boxes[k].Min, boxes[k].Max)
	}
	for i, w := range words {
		if !margin.Contains(w.Box) {
			out = append(out, fmt.Sprintf("%q leaves the margin", w.Text))
		}
		for _, v := range words[i+1:] {
			if w.Box.Overlaps(v.Box) {
				out = append(out, fmt.Sprintf("%q on %q", w.Text, v.Text))
			}
		}
		if k := firstThrough(w.Box, lines, half, boxes, runs); k >= 0 {
			out = append(out, fmt.Sprintf("a line at %.1f,%.1f through %q", lines[k].A.X, lines[k].A.Y, w.Text))
		}
	}
	for k, l := range lines {
		if !margin.Contains(boxes[k]) && !margin.Contains(extentOf(l, half[k])) {
			out = append(out, fmt.Sprintf("a line at %.1f,%.1f leaves the margin", l.A.X, l.A.Y))
		}
	}
	return out
}

// extentOf is the box of a line and its width. Caps are butt: along an axis-parallel line its width counts only across.
func extentOf(s draft.Segment, half geom.MM) draft.Box {
	b := draft.Box{Min: draft.Point{X: min(s.A.X, s.B.X), Y: min(s.A.Y, s.B.Y)}, Max: draft.Point{X: max(s.A.X, s.B.X), Y: max(s.A.Y,
		s.B.Y)}}
	d := s.B.Sub(s.A).Unit()
	x, y := half*geom.MM(math.Abs(float64(d.Y))), half*geom.MM(math.Abs(float64(d.X)))
	b.Min, b.Max = b.Min.Sub(draft.Point{X: x, Y: y}), b.Max.Add(draft.Point{X: x, Y: y})
	return b
}

func WordsOn(f SVG) []string {
	var out []string
	for _, text := range f.Texts {
		out = append(out, text.Words)
	}
	return out
}
