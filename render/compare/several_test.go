package compare_test

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/compare"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/sheet"
)

// fourPlans are vehicles that differ everywhere.
func fourPlans(t *testing.T) (out []layout.Plan) {
	for _, name := range []string{"suv", "sedan", "city", "coupe"} {
		out = append(out, testsheet.Plan(t, name))
	}
	return out
}

// overlayOf composes the overlay of plans.
func overlayOf(t *testing.T, s request.Setting, plans ...layout.Plan) render.Page {
	t.Helper()
	doc, _, err := sheet.Compose(request.Request{Plans: plans, Kinds: []request.Kind{request.Overlay}, Setting: s})
	if err != nil {
		t.Fatal(err)
	}
	return doc.Pages[0]
}

// Four vehicles are told apart by three inks and, in a copy of black and white alone, by their dashes; in every ink that is copied each line
// is darker than the copier's threshold.
func TestSeveralVehiclesDiffer(t *testing.T) {
	t.Parallel()
	const threshold = 158 // of 255, as in the test of hard copies
	for _, ink := range []request.Ink{request.Dark, request.Grey} {
		s := testsheet.Setting(t, "A3")
		s.Ink = ink
		colours, patterns := map[render.Colour]bool{}, map[string]int{}
		for _, m := range overlayOf(t, s, fourPlans(t)...).Marks {
			line, ok := m.(*render.Stroke)
			k := slices.Index([]string{"roof", "p2-roof", "p3-roof", "p4-roof"}, m.Tag().ID)
			if !ok || k < 0 {
				continue
			}
			c := line.Pen.Ink
			if grey := .2126*float64(c.R) + .7152*float64(c.G) + .0722*float64(c.B); grey >= threshold {
				t.Errorf("%s, vehicle %d: %.0f of 255 is lost in a copy", ink, k+1, grey)
			}
			colours[c] = true
			pattern := fmt.Sprint(line.Pen.Dash)
			if other, twice := patterns[pattern]; twice {
				t.Errorf("%s: vehicles %d and %d share the dashes %s", ink, other, k+1, pattern)
			}
			patterns[pattern] = k + 1
		}
		if len(patterns) != 4 || len(colours) < 3 {
			t.Errorf("%s: %d patterns of line in %d inks; want 4 in 3", ink, len(patterns), len(colours))
		}
	}
}

// What two of three vehicles share is drawn as a shared line, not in the dashes of the first of them.
func TestLinesOfTwoOfThree(t *testing.T) {
	t.Parallel()
	plans := []layout.Plan{testsheet.Plan(t, "suv"), testsheet.Pinned(t, "suv", "height=2.3w"), testsheet.Plan(t, "coupe")}
	for _, m := range overlayOf(t, testsheet.Setting(t, "A3"), plans...).Marks {
		if line, ok := m.(*render.Stroke); ok && m.Tag().ID == "sill" && line.Pen.Dash != nil {
			t.Errorf("the sill of two vehicles has the dashes %v of one", line.Pen.Dash)
		}
		if strings.HasPrefix(m.Tag().ID, "p2-sill") {
			t.Errorf("%s is drawn again", m.Tag().ID)
		}
	}
}

// The rake of every A-pillar is on the sheet, at its pillar or in the key, on large and on small papers.
func TestEveryPillarIsNamed(t *testing.T) {
	t.Parallel()
	plans := fourPlans(t)
	for _, name := range []string{"A3", "A4", "A5"} {
		for _, upright := range []bool{false, true} {
			s := testsheet.Setting(t, name)
			if upright {
				s.Paper = s.Paper.Portrait()
			}
			if s.Paper.Width < request.LeastWidth {
				continue
			}
			words := wordsOn(overlayOf(t, s, plans...))
			for _, p := range plans {
				rake := draft.FormatAngle(p.PillarRake())
				if !slices.Contains(words, "A-pillar, "+p.Profile.Title+" "+rake) &&
					!slices.Contains(words, p.Profile.Title+", A-pillar "+rake) {
					t.Errorf("%s: no A-pillar of the %s", s.Paper.Name, p.Profile.Title)
				}
			}
		}
	}
}

// The table of several vehicles begins with the largest change on paper.
func TestLargestChangeFirst(t *testing.T) {
	t.Parallel()
	last := math.Inf(1)
	for _, row := range compare.Changes(fourPlans(t), 46) {
		most := 0.
		for _, w := range row[1:] {
			number, isLength := strings.CutSuffix(strings.Replace(w.Text, "\u2212", "-", 1), " mm")
			if v, err := strconv.ParseFloat(number, 64); err == nil && isLength && strings.ContainsAny(number, "+-") {
				most = max(most, math.Abs(v))
			}
		}
		if most > last {
			t.Errorf("%s changes by %g mm, the figure before it by %g mm", row[0].Text, most, last)
		}
		last = most
	}
	if last != 0 {
		t.Error("figures without a change on paper are missing, or not at the end")
	}
}

// At a reduction every vehicle is drawn at that reduction of itself; at a wheel all wheels are drawn alike, and the sheet says so.
func TestOverlayAtAScale(t *testing.T) {
	t.Parallel()
	plans := fourPlans(t)[:3]
	for _, c := range []struct {
		scale request.Scale
		says  string
	}{
		{request.Scale{Reduction: 20}, "overlay of 3 vehicles at one scale"},
		{request.Scale{Wheel: 36}, "overlay of 3 vehicles, all wheels drawn alike"},
	} {
		s := testsheet.Setting(t, "A3")
		s.Scale = c.scale
		page := overlayOf(t, s, plans...)
		if !slices.Contains(wordsOn(page), c.says) {
			t.Errorf("%v: no words %q", c.scale, c.says)
		}
		file := testsheet.ReadSVG(t, testsheet.SvgOf(t, page))
		ground := file.Shapes["ground"].Num(t, "y1")
		for k, p := range plans {
			want := float64(c.scale.WheelOf(p)) * float64(p.Height())
			if got := ground - file.Shapes[compare.PlanID(k, "roof")].Num(t, "y1"); math.Abs(got-want) > 2e-3 {
				t.Errorf("%v, %s: the roof is %.3f mm up, want %.3f", c.scale, p.Profile.Name, got, want)
			}
		}
	}
}

// A pair whose figures nearly all differ fits on the smallest named paper too: its table is cut, and says so.
func TestPairOnSmallPaper(t *testing.T) {
	t.Parallel()
	words := wordsOn(overlayOf(t, testsheet.Setting(t, "A5"), fourPlans(t)[:2]...))
	if !slices.ContainsFunc(words, func(w string) bool { return strings.HasPrefix(w, "and ") && strings.HasSuffix(w, " more") }) {
		t.Errorf("no row for what is left out: %q", words)
	}
}
