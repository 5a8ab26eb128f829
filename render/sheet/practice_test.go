package sheet

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// said lists the words of the only sheet of kind.
func said(t *testing.T, p layout.Plan, s request.Setting, kind request.Kind) []string {
	t.Helper()
	var out []string
	for _, w := range sheetsOf(t, p, s, kind)[0].Texts {
		out = append(out, w.Words)
	}
	return out
}

// Every number of the answer sheet is the plan's: a change of a figure changes its blanks.
func TestAnswersFollowThePlan(t *testing.T) {
	t.Parallel()
	base, s := testsheet.Plan(t, "suv"), testsheet.Setting(t, "A3")
	s.Labels = request.NoLabels // only the blanks' numbers
	for _, c := range []struct {
		figure segments.Figure
		value  float64
		want   []string
	}{
		{segments.WheelsBetween, 2.87, []string{"2.87", "3.87"}}, // and the wheelbase: between + two half wheels
		{segments.Height, 2.41, []string{"2.41"}},
		{segments.Sill, .44, []string{"0.44"}},
		{segments.GreenhouseToBody, .625, []string{"1.60"}},
		{segments.FrontOverhang, .63, []string{"0.63"}},
		{segments.RearOverhang, .81, []string{"0.81"}},
		{segments.PillarAim, .67, []string{"0.67"}},
		{segments.ArchGap, .15, []string{"0.15"}},
		{segments.GlassEnd, .12, []string{"0.12"}},
	} {
		v := base.Values()
		v[c.figure] = c.value
		p := layout.Place(base.Profile, v)
		words := said(t, p, s, request.Answer)
		for _, want := range append(c.want, draft.FormatFixed(float64(p.Length()), 2), draft.FormatFixed(float64(p.Belt()), 2)) {
			if !slices.Contains(words, want) {
				t.Errorf("%s = %v: no %q in %q", c.figure, c.value, want, words)
			}
		}
	}
}

// A range beside a figure holds what the sheet shows, and what the profile allows: at typical values and far out of the ranges.
func TestRangesHoldTheAnswer(t *testing.T) {
	t.Parallel()
	for _, name := range segments.Names() {
		for _, by := range []float64{0, 1, -1, 3} {
			p := testsheet.Plan(t, name)
			v := p.Values()
			v[segments.FrontOverhang] += by * p.Profile.Figures[segments.FrontOverhang].Range.HalfWidth()
			d := &counting.Drawing{Plan: layout.Place(p.Profile, v), Units: request.Wheels}
			for _, b := range d.Blanks(inventsAll) {
				lo, value, hi := number(t, b.Lo), number(t, b.Value), number(t, b.Hi)
				if lo > value || value > hi || lo >= hi {
					t.Errorf("%s: %s %s is not inside %s to %s", name, b.Name, b.Value, b.Lo, b.Hi)
				}
			}
		}
	}
}

// The derived ranges, worked by hand from the sport utility's declared ones: each sum's ends are sums of ends.
func TestRangesOfSums(t *testing.T) {
	t.Parallel()
	p := testsheet.Plan(t, "suv")
	f := p.Profile.Figures
	between, front, rear := f[segments.WheelsBetween].Range, f[segments.FrontOverhang].Range, f[segments.RearOverhang].Range
	blanks := (&counting.Drawing{Plan: p, Units: request.Wheels}).Blanks(inventsAll)
	for i, want := range map[int][2]float64{
		11: {between.Lo + 1, between.Hi + 1},
		7:  {between.Lo + front.Lo + rear.Lo + 2, between.Hi + front.Hi + rear.Hi + 2},
	} {
		if b := blanks[i]; b.Lo != draft.FormatFixed(want[0], 2) || b.Hi != draft.FormatFixed(want[1], 2) {
			t.Errorf("%s: %s to %s, want %.2f to %.2f", b.Name, b.Lo, b.Hi, want[0], want[1])
		}
	}
}

// number reads a number as sheets print it.
func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.Replace(s, "\u2212", "-", 1), 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Each level gives more, and none gives an answer: no figure of the plan is written on a practice sheet, nor its pins.
func TestPracticeGivesNoAnswer(t *testing.T) {
	t.Parallel()
	p, _ := bent(t, "suv", "sporty", .8)
	s := testsheet.Setting(t, "A3")
	for level, want := range map[int]map[string]bool{
		request.GivenWheels:  {"wheel-rear": true, "roof": false, "between-1": false, "nose": false, "pillar": false},
		request.GivenLevels:  {"wheel-rear": true, "roof": true, "between-1": false, "nose": false, "pillar": false},
		request.GivenCounted: {"wheel-rear": true, "roof": true, "between-1": true, "nose": false, "pillar": false},
		request.GivenMost:    {"wheel-rear": true, "roof": true, "between-1": true, "nose": true, "pillar": false, "glass-end": true, "lamp-front": true},
	} {
		s.Given = level
		f := sheetsOf(t, p, s, request.Practice)[0]
		for id, there := range want {
			if _, drawn := f.Shapes[id]; drawn != there {
				t.Errorf("level %d: %s drawn %v, want %v", level, id, drawn, there)
			}
		}
		blanks, text := (&counting.Drawing{Plan: p, Units: request.Wheels}).Blanks(inventsAll), said(t, p, s, request.Practice)
		for _, b := range blanks {
			if strings.Contains(b.Value, ".") && slices.Contains(text, b.Value) {
				t.Errorf("level %d: the answer %s to %q is on the sheet", level, b.Value, b.Name)
			}
		}
		all := strings.Join(text, "\n")
		for _, not := range []string{"sporty", counting.FormatOnVehicle(p, p.Height(), request.Wheels), counting.FormatOnVehicle(p, p.Length(), request.Wheels), "(", "outline"} {
			if strings.Contains(all, not) {
				t.Errorf("level %d says %q:\n%s", level, not, all)
			}
		}
		if level == request.GivenMost && !strings.Contains(all, "all guides but the A-pillar") {
			t.Errorf("level 4 does not say what is missing:\n%s", all)
		}
	}
}

// A practice sheet alone keeps no room for the words of an answer: it is drawn larger than with one, and leaves only the ends of the road
// free beside the guides that the student draws.
func TestPracticeAloneKeepsNoLanes(t *testing.T) {
	t.Parallel()
	for i, name := range segments.Names() {
		for _, paper := range onTurn(i, papers()) {
			p, s := testsheet.Plan(t, name), on(paper)
			alone := sheetsOf(t, p, s, request.Practice)[0]
			wheel, both := saidWheel(t, alone), saidWheel(t, sheetsOf(t, p, s, request.Practice, request.Answer)[0])
			if wheel <= both {
				t.Errorf("%s on %s: a wheel of %g mm alone, %g with the answer", name, paper.Name, wheel, both)
			}
			s.Scale = request.Scale{Wheel: geom.MM(wheel + 2)}
			if _, _, err := Compose(request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Practice}, Setting: s}); err == nil {
				t.Errorf("%s on %s: %g mm fit too", name, paper.Name, wheel+2)
			}
		}
	}
}

// inventsAll gives nothing: every blank has the segment's range.
func inventsAll(request.Guide) bool { return false }
