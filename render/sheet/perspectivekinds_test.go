package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/render"
	"hubrule/render/request"
)

// TestPerspectiveKindsAreInOrder: steps, practice and answer overlap nothing, on large and small papers, from several cameras.
func TestPerspectiveKindsAreInOrder(t *testing.T) {
	t.Parallel()
	for i, c := range []struct{ segment, camera, paper string }{
		{"suv", "front-quarter", "A3"}, {"mid-engine", "front-high", "A4"}, {"van", "rear-low", "A3"}, {"pickup-large", "rear-quarter", "A1"}, {"convertible", "front-long", "letter"},
	} {
		s := shotSetting(t, c.paper, c.camera)
		s.Facing = []request.Facing{request.Left, request.Right}[i%2]
		for _, page := range shotPages(t, testsheet.Plan(t, c.segment), s, request.Full, request.Trace, request.Steps, request.Practice, request.Answer) {
			if err := page.Check(); err != nil {
				t.Error(err)
			}
			for _, fault := range testsheet.Faults(page) {
				t.Errorf("%v, %s: %s", c, page.Title, fault)
			}
		}
	}
}

// TestPerspectivePracticeAndAnswer: the answer is solved on the practice sheet's place, holds what the student is asked for, and the practice sheet
// holds none of it.
func TestPerspectivePracticeAndAnswer(t *testing.T) {
	t.Parallel()
	p, _ := bent(t, "suv", "sporty", .8)
	var files []testsheet.SVG
	for _, page := range shotPages(t, p, shotSetting(t, "A3", "front-quarter"), request.Practice, request.Answer) {
		files = append(files, testsheet.ReadSVG(t, testsheet.SvgOf(t, page)))
	}
	practice, answer := files[0], files[1]
	if a, b := practice.Shapes["wheel-front-left"].At["d"], answer.Shapes["wheel-front-left"].At["d"]; a != b {
		t.Errorf("the near wheel lies at %s and at %s", a, b)
	}
	for _, id := range []string{"wheel-rear-left", "wheel-front-right", "between-1", "pillar-left", "centre-line"} {
		if _, there := practice.Shapes[id]; there {
			t.Errorf("the practice sheet gives %s", id)
		}
		if _, there := answer.Shapes[id]; !there {
			t.Errorf("the answer sheet lacks %s", id)
		}
	}
	arc := testsheet.PathSteps(t, answer.Shapes["wheel-rear-left"].At["d"])[1].Numbers
	degrees := fmt.Sprintf("%.0f", math.Asin(arc[1]/arc[0])*180/math.Pi)
	for _, want := range []string{degrees, fmt.Sprintf("%.2f", float64(p.Height())), fmt.Sprintf("%.2f", float64(p.Belt()))} {
		if !slices.Contains(testsheet.WordsOn(answer), want) {
			t.Errorf("the answer sheet does not say %s: %q", want, testsheet.WordsOn(answer))
		}
		if slices.Contains(testsheet.WordsOn(practice), want) {
			t.Errorf("the practice sheet says %s", want)
		}
	}
}

// TestPerspectiveLevels: each level gives what the one below gives, and more; none gives the A-pillars; nothing overlaps.
func TestPerspectiveLevels(t *testing.T) {
	t.Parallel()
	more := []string{"wheel-front-left", "wheel-rear-left", "between-1", "wheel-front-right"}
	for level := 1; level <= len(more); level++ {
		s := shotSetting(t, "A4", "rear-quarter")
		s.Given = level
		page := shotPages(t, testsheet.Plan(t, "van"), s, request.Practice)[0]
		if err := page.Check(); err != nil {
			t.Error(err)
		}
		for _, fault := range testsheet.Faults(page) {
			t.Errorf("level %d: %s", level, fault)
		}
		drawn := testsheet.ReadSVG(t, testsheet.SvgOf(t, page)).Shapes
		for i, id := range append(more, "pillar-left") {
			if _, there := drawn[id]; there != (i < level) {
				t.Errorf("level %d: %s is there: %v", level, id, there)
			}
		}
	}
}

// TestPerspectiveGuides: a sheet holds the guides that are chosen, every third one at a time, and their words.
func TestPerspectiveGuides(t *testing.T) {
	t.Parallel()
	p, all := testsheet.Plan(t, "suv"), request.PerspectiveView.Guides()
	for turn := range 3 {
		s := shotSetting(t, "A3", "front-quarter")
		for i := turn; i < len(all); i += 3 {
			s.Guides = append(s.Guides, all[i])
		}
		for k, page := range shotPages(t, p, s, request.Full, request.Trace) {
			drawn := map[request.Guide]int{}
			for _, m := range page.Marks {
				drawn[request.Guide(m.Tag().Guide)]++
			}
			for _, guide := range s.Guides {
				if drawn[guide] == 0 && k == 0 {
					t.Errorf("no mark of guide %s", guide)
				}
				delete(drawn, guide)
			}
			for _, words := range []request.Guide{"labels", "strip", "frame"} {
				delete(drawn, words)
			}
			if len(drawn) > 0 {
				t.Errorf("with guides %v sheet %d has marks of %v", s.Guides, k+1, drawn)
			}
		}
	}
}

// TestPerspectiveSteps: the sentences speak of this plan and this camera, and each step's own lines are the heavy ones.
func TestPerspectiveSteps(t *testing.T) {
	t.Parallel()
	page := shotPages(t, testsheet.Plan(t, "van"), shotSetting(t, "A3", "rear-quarter"), request.Steps)[0]
	p := testsheet.Plan(t, "van")
	text := strings.Join(testsheet.WordsOn(testsheet.ReadSVG(t, testsheet.SvgOf(t, page))), " ")
	for _, want := range []string{fmt.Sprintf("%.2f long", float64(p.Length())), fmt.Sprintf("%.2f high", float64(p.Height())), fmt.Sprintf("count %d clear", int(p.WheelsBetween()))} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in: %s", want, text)
		}
	}
	width := func(id string) float64 {
		for _, m := range page.Marks {
			if m.Tag().ID != id {
				continue
			}
			switch m := m.(type) {
			case *render.Ellipse:
				return float64(m.Pen.Width)
			case *render.Stroke:
				return float64(m.Pen.Width)
			}
		}
		t.Fatalf("no %s", id)
		return 0
	}
	for _, c := range []struct{ fresh, drawn string }{{"step-2-box", "step-3-box"}, {"step-3-wheel-front-left", "step-4-wheel-front-left"}, {"step-4-wheel-inner-front-right", "step-5-wheel-inner-front-right"}, {"step-6-glass-left", "step-7-glass-left"}} {
		if a, b := width(c.fresh), width(c.drawn); a < 2*b {
			t.Errorf("%s is %v wide, %s %v", c.fresh, a, c.drawn, b)
		}
	}
}
