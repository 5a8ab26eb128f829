package sheet

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// A legend covers nothing, shows only lines that its sheet has, each once, and leaves the other sheets of the request on its place.
func TestLegend(t *testing.T) {
	t.Parallel()
	views := append([][]request.View{{request.PerspectiveView}}, flatJobs()...)
	eachSegment(t, func(t *testing.T, i int, p layout.Plan) {
		seen := [][]request.View{{request.SideView}}
		if i%3 == 0 || everySetting() {
			seen = append(seen, onTurn(i/3, views)...)
		}
		for n, v := range seen {
			s := settingsOnTurn(3*i+n, onTurn(5*i+n, papers())[0])[0]
			s.Views, s.Camera, s.Legend = v, shotSetting(t, "A3", "front-quarter").Camera, true
			if s.Checks = i%2 == 0; v[0] != request.SideView {
				s.Checks = false
			}
			doc, _, err := Compose(request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Full, request.Trace}, Setting: s})
			if err != nil {
				t.Fatalf("%s %v: %v", describe(s), v, err)
			}
			checkLegend(t, fmt.Sprintf("%s %v", describe(s), v), doc.Pages[0])
			if len(legendOf(doc.Pages[1])) > 0 {
				t.Errorf("%s %v: a legend on the trace sheet", describe(s), v)
			}
			if v[0] == request.SideView {
				registers(t, testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[0])), testsheet.ReadSVG(t, testsheet.SvgOf(t, doc.Pages[1])), doc.Pages[1].Title)
			}
		}
	})
}

// legendOf lists the marks of a page's legend.
func legendOf(p render.Page) (out []render.Mark) {
	for _, m := range p.Marks {
		if m.Tag().Guide == "legend" {
			out = append(out, m)
		}
	}
	return out
}

func checkLegend(t *testing.T, what string, p render.Page) {
	t.Helper()
	for _, fault := range testsheet.Faults(p) {
		t.Errorf("%s: %s", what, fault)
	}
	var fills []*render.Fill
	var extents []draft.Extent
	for _, m := range p.Marks {
		if f, ok := m.(*render.Fill); ok {
			fills, extents = append(fills, f), append(extents, draft.ExtentOf(f))
		}
	}
	var names []string
	lines := 0
	for _, m := range legendOf(p) {
		switch m := m.(type) {
		case *render.Text:
			if name := m.Spans[0].Text; slices.Contains(names, name) {
				t.Errorf("%s: %q twice", what, name)
			}
			names = append(names, m.Spans[0].Text)
		case *render.Stroke:
			lines++
			if !slices.ContainsFunc(p.Marks, func(o render.Mark) bool {
				return o.Tag().Guide != "legend" && fmt.Sprint(penOf(o)) == fmt.Sprint(m.Pen)
			}) {
				t.Errorf("%s: nothing is drawn like the line beside %q", what, names)
			}
		}
		for i, extent := range extents {
			if extent.Intersects(boxOf(m)) {
				t.Errorf("%s: the legend covers the %s", what, fills[i].Guide)
			}
		}
	}
	if lines != len(names) || lines < 6 {
		t.Errorf("%s: %d lines and %q", what, lines, names)
	}
	for _, o := range p.Marks {
		// Ticks, centre marks and the ring of the aim are no kinds of line of their own.
		if tag := o.Tag(); tag.ID == "" || strings.HasPrefix(tag.ID, "tick") || tag.ID == "pillar-mark" ||
			slices.Contains([]string{"legend", "strip", "frame", "ticks"}, tag.Guide) {
			continue
		}
		if pen := penOf(o); pen.Width > 0 && !slices.ContainsFunc(legendOf(p), func(m render.Mark) bool {
			return fmt.Sprint(penOf(m)) == fmt.Sprint(pen)
		}) {
			t.Errorf("%s: the legend %q says nothing of the line %q of %s", what, names, o.Tag().ID, o.Tag().Guide)
		}
	}
}

// penOf returns the pen of a line.
func penOf(m render.Mark) render.Pen {
	switch m := m.(type) {
	case *render.Stroke:
		return m.Pen
	case *render.Circle:
		return m.Pen
	case *render.Ellipse:
		return m.Pen
	}
	return render.Pen{}
}

// boxOf returns the box of a line or of words.
func boxOf(m render.Mark) draft.Box {
	page := render.Page{Marks: []render.Mark{m}}
	if words := testsheet.WrittenOn(page); words != nil {
		return words[0].Box
	}
	line, _ := testsheet.DrawnOn(page)
	return draft.Box{Min: line[0].A, Max: line[0].B}
}
