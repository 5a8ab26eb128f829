package sheet

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// Guides chosen by name are drawn, the others absent, words included.
func TestGuidesByName(t *testing.T) {
	t.Parallel()
	for _, g := range request.SideView.Guides() {
		s := testsheet.Setting(t, "A3")
		s.Guides = []request.Guide{g}
		f := sheetsOf(t, testsheet.Plan(t, "suv"), s, request.Full)[0]
		for group := range f.Groups {
			switch name := strings.TrimPrefix(group, "guide-"); name {
			case string(g), "labels", "strip", "frame":
			default:
				t.Errorf("--guides %s draws %s too", g, name)
			}
		}
		if _, ok := f.Groups["guide-"+string(g)]; !ok {
			t.Errorf("--guides %s draws nothing of it", g)
		}
	}
}

// A view draws the guides that its list names, no more and no fewer, when all are chosen.
func TestGuidesOfEachView(t *testing.T) {
	t.Parallel()
	for _, v := range []request.View{request.SideView, request.FrontView, request.RearView, request.TopView, request.ArrangementView, request.PerspectiveView} {
		s := shotSetting(t, "A2", "front-quarter")
		s.Views, s.Guides, s.Outline = []request.View{v}, request.Guides(), request.OutlineOn
		doc, _, err := Compose(request.Request{Plans: []layout.Plan{testsheet.Plan(t, "suv")}, Kinds: []request.Kind{request.Full}, Setting: s})
		if err != nil {
			t.Fatal(err)
		}
		drawn := map[request.Guide]bool{}
		for _, m := range doc.Pages[0].Marks {
			drawn[request.Guide(m.Tag().Guide)] = true
		}
		for _, g := range request.Guides() {
			if listed := slices.Contains(v.Guides(), g); listed != drawn[g] {
				t.Errorf("%s: guide %s is drawn: %v, listed: %v", v, g, drawn[g], listed)
			}
		}
	}
}

// Every number of the sheet is the plan's: a change of one figure changes its words.
func TestNumbersFollowThePlan(t *testing.T) {
	t.Parallel()
	base := testsheet.Plan(t, "suv")
	for _, c := range []struct {
		figure segments.Figure
		value  float64
		want   string
	}{
		{segments.Height, 2.41, "roof 2.41"},
		{segments.Sill, .44, "sill 0.44"},
		{segments.FrontOverhang, .63, "0.63"},
		{segments.RearOverhang, .81, "0.81"},
		{segments.Clearance, .30, "clearance 0.30"},
		{segments.PillarRake, 31, "A-pillar 31°"},
		{segments.ArchGap, .15, "0.15"},
		{segments.WheelsBetween, 2.8, "+ 0.80"},
		{segments.GreenhouseToBody, .625, "1.60 parts"},
		{segments.GlassEnd, .12, "0.12 behind the rear tyre"},
	} {
		v := base.Values()
		v[c.figure] = c.value
		f := sheetsOf(t, layout.Place(base.Profile, v), testsheet.Setting(t, "A3"), request.Full)[0]
		found := false
		for _, w := range f.Texts {
			found = found || w.Words == c.want
		}
		if !found {
			t.Errorf("%s = %v: no words %q on the sheet", c.figure, c.value, c.want)
		}
	}
}

// What is left over of the stack and between the tyres is written on every labelled sheet, however small: short and full labels by turns.
func TestLeftOversAreWritten(t *testing.T) {
	t.Parallel()
	eachSegment(t, func(t *testing.T, i int, p layout.Plan) {
		for k, paper := range papers() {
			for _, labels := range onTurn(i+k, []request.Labels{request.ShortLabels, request.FullLabels}) {
				s := on(paper)
				s.Labels = labels
				said := map[string]bool{}
				for _, w := range sheetsOf(t, p, s, request.Full)[0].Texts {
					said[w.Words] = true
				}
				up := float64(p.Height()) - math.Floor(float64(p.Height()))
				along := p.WheelsBetween() - math.Floor(p.WheelsBetween()+1e-9)
				for what, rest := range map[string]float64{"stack": up, "gap": along} {
					if want := fmt.Sprintf("+ %.2f", rest); rest > .005 && !said[want] {
						t.Errorf("%s, labels %s: the %s lacks %q", paper.Name, labels, what, want)
					}
				}
			}
		}
	})
}

// Every counted wheel has its number on every labelled sheet, however small, and all counts of a sheet have one size.
func TestCountsGoLast(t *testing.T) {
	t.Parallel()
	count := regexp.MustCompile(`^(\+ )?[0-9.]+$`)
	eachSegment(t, func(t *testing.T, i int, p layout.Plan) {
		for k, paper := range append(papers(), testsheet.Paper(t, "A5"), testsheet.Paper(t, "A4").Portrait()) {
			s := on(paper)
			s.Labels = []request.Labels{request.ShortLabels, request.FullLabels}[(i+k)%2]
			doc, _, err := Compose(request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Full}, Setting: s})
			if err != nil {
				t.Fatal(err)
			}
			got, sizes := map[string]int{}, map[geom.MM]bool{}
			for _, m := range doc.Pages[0].Marks {
				w, isText := m.(*render.Text)
				if !isText || w.Guide != "labels" || len(w.Spans) > 1 || !count.MatchString(w.Spans[0].Text) ||
					w.Spans[0].Text == draft.FormatFixed(float64(p.ArchGap()), 2) {
					continue
				}
				got[w.Spans[0].Text]++
				sizes[w.Spans[0].Height] = true
			}
			if len(sizes) != 1 {
				t.Errorf("%s: counts of the sizes %v", paper.Name, sizes)
			}
			between := int(p.WheelsBetween() + 1e-9)
			want := map[string]int{fmt.Sprint(between): 1} // the chain
			for n := 1; n <= max(between, int(p.Height())); n++ {
				for _, counts := range []bool{n <= between, n <= int(p.Height()), n <= int(p.Height()) && (n > 1 || p.TyreRatio() == 1)} {
					if counts {
						want[fmt.Sprint(n)]++
					}
				}
			}
			if want["1"]++; p.TyreRatio() == 1 { // the chain's wheels
				want["1"]++
			}
			for n, times := range want {
				if got[n] != times {
					t.Errorf("%s, labels %s: %q stands %d times on the sheet, want %d", paper.Name, s.Labels, n, got[n], times)
				}
			}
		}
	})
}

// The order of labels on one lane is kept, neighbours keep their gap, and nothing moves that need not.
func TestLaneCentres(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		anchors, sizes []geom.MM
		gap, lo, hi    geom.MM
		want           []geom.MM
	}{
		{[]geom.MM{10, 30}, []geom.MM{4, 4}, 1, 0, 50, []geom.MM{10, 30}},
		{[]geom.MM{10, 12}, []geom.MM{4, 4}, 1, 0, 50, []geom.MM{8.5, 13.5}},
		{[]geom.MM{10, 10, 10}, []geom.MM{4, 4, 4}, 1, 0, 50, []geom.MM{5, 10, 15}},
		{[]geom.MM{1, 2}, []geom.MM{4, 4}, 1, 0, 50, []geom.MM{2, 7}},
		{[]geom.MM{48, 49}, []geom.MM{4, 4}, 1, 0, 50, []geom.MM{43, 48}},
		{[]geom.MM{1, 2, 3}, []geom.MM{4, 4, 4}, 1, 0, 13, nil},
		{nil, nil, 1, 0, 13, []geom.MM{}},
	} {
		got := draft.Lane{Lo: c.lo, Hi: c.hi, Gap: c.gap}.Centres(c.anchors, c.sizes)
		if fmt.Sprint(got) != fmt.Sprint(c.want) || (got == nil) != (c.want == nil) {
			t.Errorf("centres(%v, %v, %v, %v, %v) = %v, want %v", c.anchors, c.sizes, c.gap, c.lo, c.hi, got, c.want)
		}
	}
}
