package layout

import (
	"math"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// ahead returns how far the screen's foot stands ahead of the A-pillar's line at the cowl, from its aim and rake.
func ahead(p Plan) float64 {
	return float64(p.Cowl()-p.PillarAim())/p.PillarRake().Tan() - float64(p.ScreenBase())
}

// The screen's foot keeps its distance from the A-pillar whatever moves that, unless a limit says so.
func TestScreenRidesWithPillar(t *testing.T) {
	solved := 0
	for _, p := range segments.All() {
		want := ahead(Typical(p))
		for _, pin := range []string{"pillar-aim=0.6w", "pillar-rake=40", "height=2.2w", "cowl=1.5w", "front-overhang=1.1w"} {
			figure, value, _ := strings.Cut(pin, "=")
			plan, err := Solve(brief(t, p.Name, figure, value))
			if err != nil {
				continue
			}
			solved++
			if got := ahead(plan); math.Abs(got-want) > 1e-5 && plan.stops[segments.ScreenBase] == "" {
				t.Errorf("%s with %s: the screen's foot stands %.4f ahead of the pillar; want %.4f", p.Name, pin, got, want)
			}
			if got := ahead(plan); got < .08-1e-5 {
				t.Errorf("%s with %s: the screen's foot stands %.4f ahead of the pillar", p.Name, pin, got)
			}
		}
	}
	if solved < 60 {
		t.Errorf("only %d of 90 plans were solved", solved)
	}
}

// A pinned foot stands where it was pinned, and the A-pillar makes room for it; what cannot be is a clash that says what can.
func TestPinnedScreen(t *testing.T) {
	free, err := Solve(brief(t, "suv"))
	if err != nil {
		t.Fatal(err)
	}
	plan, err := Solve(brief(t, "suv", "screen-base", "0.3w"))
	if err != nil || plan.ScreenBase() != .3 || plan.PillarFoot() != free.PillarFoot() {
		t.Errorf("screen's base at %v, A-pillar's foot at %v; want .3 and %v; %v", plan.ScreenBase(), plan.PillarFoot(), free.PillarFoot(), err)
	}
	plan, err = Solve(brief(t, "suv", "screen-base", "1.2w"))
	if err != nil || math.Abs(ahead(plan)-.08) > 1e-5 || plan.PillarFoot().X <= free.PillarFoot().X {
		t.Errorf("pinned behind the A-pillar: %.4f ahead of it, which stands at %v; %v", ahead(plan), plan.PillarFoot(), err)
	}
	_, err = Solve(brief(t, "suv", "screen-base", "1.2w", "pillar-aim", "0.9w", "pillar-rake", "34"))
	clash, ok := err.(*Clash)
	if !ok || len(clash.Sets) != 1 || !strings.Contains(clash.Error(), "screen's foot 0.08w ahead of the A-pillar") {
		t.Fatalf("%v", err)
	}
	for _, pin := range clash.Sets[0].Pins {
		if pin.Figure != segments.ScreenBase {
			continue
		}
		want := float64(geom.Wheels(1.6-.9)/geom.Wheels(geom.Degrees(34).Tan())) - .08
		if math.Abs(pin.Nearest-want) > 1e-3 {
			t.Errorf("nearest screen-base %v; want %.4f", pin.Nearest, want)
		}
	}
}
