package sheet

import (
	"maps"
	"math"
	"strings"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// What a small paper or a screen holds is drawn without a fault; what it does not hold is refused with a cure.
func TestSmallPapers(t *testing.T) {
	t.Parallel()
	least := request.Paper{Name: "least", Width: request.LeastProjectedWidth, Height: request.LeastProjectedHeight}
	eachSegment(t, func(t *testing.T, i int, p layout.Plan) {
		for n, paper := range []request.Paper{testsheet.Paper(t, "A5"), request.PixelsIn("1920x1080px", 1920, 1080, 200),
			request.PixelsIn("1080x1920px", 1080, 1920, 150)} {
			drawn := 0
			for k, kind := range request.Kinds() {
				s := on(paper)
				s.Labels = []request.Labels{request.FullLabels, request.NoLabels}[(i+n+k)%2]
				s.Facing, s.Units = facingOnTurn(i+n), unitsOnTurn(i+n+k)
				if trySmall(t, request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{kind}, Setting: s}) {
					drawn++
				}
			}
			if drawn < 2 { // at least the trace sheet and the demonstration
				t.Errorf("%s holds %d kinds of sheet", paper.Name, drawn)
			}
		}
		if !trySmall(t, request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Demonstration}, Setting: on(least)}) {
			t.Error("the least page does not hold a demonstration")
		}
	})
}

// trySmall reports whether sheets fit, and finds the faults of what is drawn and of what is said.
func trySmall(t *testing.T, r request.Request) bool {
	t.Helper()
	doc, _, err := Compose(r)
	if err != nil {
		if !strings.Contains(err.Error(), r.Setting.Paper.Cure()) {
			t.Errorf("%v on %s: %v", r.Kinds, r.Setting.Paper.Name, err)
		}
		return false
	}
	for _, page := range doc.Pages {
		for _, fault := range testsheet.Faults(page) {
			t.Errorf("%v on %s: %s", r.Kinds, r.Setting.Paper.Name, fault)
		}
	}
	return true
}

// The pages of a demonstration are the panels of the steps one by one: together they have the same lines, drawn alike, and the sentences.
// On a page twice as large, words and lines are twice as large.
func TestDemonstration(t *testing.T) {
	t.Parallel()
	for i, view := range []request.View{request.SideView, request.PerspectiveView} {
		p, s := testsheet.Plan(t, "suv"), shotSetting(t, "A3", "rear-quarter")
		s.Views, s.Facing = []request.View{view}, facingOnTurn(i)
		steps := pensOf(shotPages(t, p, s, request.Steps), 1)
		large := shotPages(t, p, s, request.Demonstration)
		s.Paper = request.Paper{Name: "half", Width: 210, Height: 148.5}
		small := shotPages(t, p, s, request.Demonstration)
		if len(large) != request.StepCount {
			t.Errorf("%s: %d pages", view, len(large))
		}
		k := draft.NewCanvas(s).Projected().Enlargement
		if got := pensOf(small, 1/k); !maps.Equal(got, steps) || len(got) < 50 {
			t.Errorf("%s: %d lines, the steps have %d, or they are drawn otherwise", view, len(got), len(steps))
		}
		if got := pensOf(large, .5/k); !maps.Equal(got, steps) {
			t.Errorf("%s: on a page twice as large lines are not twice as wide", view)
		}
		for n, page := range large {
			a, b := textsOf(page), textsOf(small[n])
			if len(a) != len(b) || math.Abs(float64(a[0].Spans[0].Height-2*b[0].Spans[0].Height)) > 1e-9 || a[0].Spans[0].Height < 10 {
				t.Errorf("%s, page %d: words %+v and on half the page %+v", view, n+1, a[0], b[0])
			}
		}
	}
}

// pensOf returns how wide each line of a step is drawn, in hundredths of a millimetre, times k.
func pensOf(pages []render.Page, k float64) map[string]int {
	out := map[string]int{}
	for _, page := range pages {
		for _, m := range page.Marks {
			if id := m.Tag().ID; strings.HasPrefix(id, "step-") {
				_, half := testsheet.DrawnOn(render.Page{Marks: []render.Mark{m}})
				out[id] = int(math.Round(float64(half[0]) * 200 * k))
			}
		}
	}
	return out
}

// textsOf lists the words of a page.
func textsOf(p render.Page) (out []*render.Text) {
	for _, m := range p.Marks {
		if t, ok := m.(*render.Text); ok && t.Guide == "strip" {
			out = append(out, t)
		}
	}
	return out
}
