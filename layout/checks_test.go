package layout

import (
	"math"
	"strings"
	"testing"

	"hubrule/segments"
)

// find returns the check whose name begins with name and whose limit begins with kind.
func find(t *testing.T, p Plan, name, kind string) Check {
	t.Helper()
	for _, c := range p.Checks() {
		if c.Name == name && strings.HasPrefix(c.Limit, kind) {
			return c
		}
	}
	t.Fatalf("no check %s %s", name, kind)
	return Check{}
}

// An extra high stop lamp is never judged: a plan knows none, and no check names one.
func TestNoHighStopLamp(t *testing.T) {
	for _, c := range Typical(segment(t, "suv")).Checks() {
		if strings.Contains(c.Name, "high") || strings.Contains(c.Name, "third") {
			t.Errorf("check %q", c.Name)
		}
	}
}

// Off-road criteria: 49 CFR 523.5(b)(2) asks four of five, M1G five of six; what is not known counts for neither side.
func TestOffRoadCriteria(t *testing.T) {
	good := Check{Result: Met}
	bad, open := Check{Result: Missed}, Check{Result: Unknown}
	for _, c := range []struct {
		list []Check
		need int
		want CheckResult
	}{
		{[]Check{good, good, good, good, open}, 4, Met},
		{[]Check{good, good, good, bad, open}, 4, Unknown},
		{[]Check{good, good, bad, bad, open}, 4, Missed},
		{[]Check{good, good, good, open, open, good}, 5, Unknown},
		{[]Check{bad, bad, good, open, open, good}, 5, Missed},
	} {
		if got := countMet("", c.list, c.need, "").Result; got != c.want {
			t.Errorf("%v of %d: %v; want %v", c.list, c.need, got, c.want)
		}
	}
	// Limits of 49 CFR 523.5 and M1G at the limit and a hair to both sides.
	for _, c := range []struct{ limit float64 }{{28}, {14}, {20}, {25}} {
		for _, by := range []float64{0, .01, -.01} {
			got := atLeast("", c.limit+by, c.limit, segments.InDegrees, "").Result
			if want := map[bool]CheckResult{true: Met, false: Missed}[by >= 0]; got != want {
				t.Errorf("%v° against %v°: %v", c.limit+by, c.limit, got)
			}
		}
	}
	offRoader, sports := Typical(segment(t, "off-roader")), Typical(segment(t, "sports"))
	if got := find(t, offRoader, "off-road criteria, US", "4").Result; got != Met {
		t.Errorf("the off-roader: %v", got)
	}
	if got := find(t, sports, "off-road criteria, US", "4").Result; got != Missed {
		t.Errorf("the sports car: %v", got)
	}
	if c := find(t, sports, "clearance under both axles, off-road, US", ""); c.Result != Unknown || !math.IsNaN(c.Value) {
		t.Errorf("room under the axles is told as %v", c)
	}
}

// Every typical plan keeps the lamp limits: the profiles were chosen so.
func TestTypicalPlansKeepLampLimits(t *testing.T) {
	for _, name := range segments.Names() {
		for _, c := range Typical(segment(t, name)).Checks() {
			if !strings.Contains(c.Name, "off-road") && c.Result != Met {
				t.Errorf("%s: %s: %.1f, %s", name, c.Name, c.Value, c.Limit)
			}
		}
	}
}
