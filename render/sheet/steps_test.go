package sheet

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// Every number of the steps is the plan's: a change of a figure changes its sentence.
func TestStepsFollowThePlan(t *testing.T) {
	t.Parallel()
	base := testsheet.Plan(t, "suv")
	for _, c := range []struct {
		figure segments.Figure
		value  float64
		want   string
	}{
		{segments.WheelsBetween, 2.87, "Count 2 clear wheels and 0.87 of a wheel"},
		{segments.Height, 2.41, "the roof is 2.41 wheels up."},
		{segments.Sill, .44, "Set the sill at 0.44,"},
		{segments.GreenhouseToBody, .625, "to the roof 1 to 1.60"},
		{segments.BeltRise, 2.3, "rise 2.3° through"},
		{segments.FrontOverhang, .63, "0.63 of a wheel ahead,"},
		{segments.RearOverhang, .81, "0.81 behind."},
		{segments.PillarAim, .67, "from 0.67 up the front axle line"},
		{segments.PillarRake, 31, "at 31° and"},
		{segments.GlassEnd, .12, "0.12 behind the rear tyre."},
		{segments.ArchGap, .15, "Open the arches by 0.15,"},
	} {
		v := base.Values()
		v[c.figure] = c.value
		p := layout.Place(base.Profile, v)
		text := strings.Join(said(t, p, testsheet.Setting(t, "A3"), request.Steps), " ")
		lamps := fmt.Sprintf("front lamp at %.2f and the rear lamp at %.2f", p.FrontLamp(), p.RearLamp())
		for _, want := range []string{c.want, lamps} {
			if !strings.Contains(text, want) {
				t.Errorf("%s = %v: no %q in %q", c.figure, c.value, want, text)
			}
		}
	}
}

// On every steps sheet the bar is 100 mm, the wheel what the strip says, and each panel's figure stands right of its own sentence:
// every segment on one paper facing left and on another facing right.
func TestRulerOfSteps(t *testing.T) {
	t.Parallel()
	eachSegment(t, func(t *testing.T, i int, p layout.Plan) {
		for k, facing := range []request.Facing{request.Left, request.Right} {
			for _, paper := range onTurn(i+3*k, papers()) {
				s := on(paper)
				s.Facing = facing
				checkPanels(t, sheetsOf(t, p, s, request.Steps)[0], s)
			}
		}
	})
}

func checkPanels(t *testing.T, f testsheet.SVG, s request.Setting) {
	t.Helper()
	bar, said := f.Shapes["check-bar"], saidWheel(t, f)
	if long := bar.Num(t, "x2") - bar.Num(t, "x1"); math.Abs(long-100) > .005 {
		t.Errorf("%s: the bar is %.3f mm", s.Paper.Name, long)
	}
	for i := 1; i <= counting.PanelCount; i++ {
		wheel := f.Shapes[fmt.Sprintf("step-%d-wheel-front", i)]
		if drawn := 2 * wheel.Num(t, "r"); math.Abs(drawn-said) > .005 {
			t.Errorf("%s, step %d: the wheel is %.3f mm, the strip says %g", s.Paper.Name, i, drawn, said)
		}
		middle := float64(s.Paper.Width+draft.FilingMargin-draft.OtherMargin) / 2
		if onRight := wheel.Num(t, "cx") > middle; onRight != (i%2 == 0) {
			t.Errorf("%s %s: the figure of step %d stands in the other column", s.Paper.Name, s.Facing, i)
		}
	}
}

// What a step adds is drawn wider than what stood there before.
func TestNewIsHeavy(t *testing.T) {
	t.Parallel()
	for what, k := range map[string]draft.LineStyle{
		"ground": counting.GroundLine(), "counted": counting.CountedLine(), "roof": counting.RoofLine(), "guide": counting.GuideLine(), "sill": counting.SillLine(), "outline": counting.OutlineLine(), "pillar": counting.PillarLine(),
	} {
		if k.Heavier().Width < 1.9*k.Lighter().Width {
			t.Errorf("%s: new %g mm, old %g", what, k.Heavier().Width, k.Lighter().Width)
		}
	}
}
