package layout

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hubrule/segments"
)

// lampLimit is one limit of a lamp height as published, and what of the plan's lamp box it is held against.
type lampLimit struct {
	name  string
	least bool
	mm    float64
	rear  bool
	share float64 // of the lamp's depth above its base: 0 lower edge, ½ centre, 1 upper edge
}

// Every lamp height that is checked. By edges: UN R48, 09 series, 6.2.4, 6.5.4, 6.7.4, 6.9.4, 6.10.4 (2nd-hand); StVZO §50(3), §51(3),
// §53(1), §53(2) (SEEN). By centres: 49 CFR 571.108 Table I-a, 15 in and 72 in (SEEN); 22 in and 54 in (lower beam's cell 2nd-hand).
func lampLimits() []lampLimit {
	const front, rear = false, true
	return []lampLimit{
		{"dipped beam, lower edge", true, 500, front, 0},
		{"dipped beam, upper edge", false, 1200, front, 1},
		{"headlamp, centre", true, 22 * 25.4, front, .5},
		{"headlamp, centre", false, 54 * 25.4, front, .5},
		{"front direction indicator, lower edge", true, 350, front, 0},
		{"front direction indicator, upper edge", false, 1500, front, 1},
		{"front position lamp, lower edge", true, 250, front, 0},
		{"front position lamp, lower edge, Germany", true, 350, front, 0},
		{"front position lamp, upper edge", false, 1500, front, 1},
		{"rear position lamp, lower edge", true, 350, rear, 0},
		{"rear position lamp, upper edge", false, 1500, rear, 1},
		{"stop lamp, lower edge", true, 350, rear, 0},
		{"stop lamp, upper edge", false, 1500, rear, 1},
		{"tail and stop lamp, centre", true, 15 * 25.4, rear, .5},
		{"tail and stop lamp, centre", false, 72 * 25.4, rear, .5},
	}
}

// with returns p with the lamp moved so that what l speaks of stands at mm.
func (l lampLimit) with(p Plan, mm float64) Plan {
	lamp := segments.FrontLamp
	if l.rear {
		lamp = segments.RearLamp
	}
	p.figures[lamp] = mm/p.Value(segments.Wheel) - l.share*p.Value(segments.LampDepth)
	return p
}

// All lamp checks, and no others (so none for an extra high stop lamp), at the limit and a hair to both sides.
func TestEveryLampLimit(t *testing.T) {
	const hair = .002 // mm; twice what rounding is allowed
	limits := lampLimits()
	for _, name := range []string{"suv", "sports", "van"} {
		p := Typical(segment(t, name))
		if got := len(p.Checks()) - len(p.OffRoadChecks()); got != len(limits) {
			t.Fatalf("%d lamp checks; want %d", got, len(limits))
		}
		for i, l := range limits {
			inside := hair
			if !l.least {
				inside = -hair
			}
			for _, step := range []struct {
				by   float64
				want CheckResult
			}{{0, Met}, {inside, Met}, {-inside, Missed}} {
				c := l.with(p, l.mm+step.by).Checks()[i]
				words := fmt.Sprintf("at most %g mm", l.mm)
				if l.least {
					words = fmt.Sprintf("at least %g mm", l.mm)
				}
				if c.Name != l.name || c.Limit != words || c.Result != step.want || math.Abs(c.Value-l.mm-step.by) > 1e-9 {
					t.Errorf("%s: %+v; want %s %s, %v at %v", name, c, l.name, words, step.want, l.mm+step.by)
				}
			}
		}
	}
}

// A corner at the wheel centre's height has the angle asin(r/x) (CALC), so plans can be put on a limit exactly.
// 49 CFR 523.5(b)(2): 28, 14, 20 degrees, 200 mm (SEEN). M1G: 25, 20, 20 degrees, 200 mm (Dir. 87/403/EEC, in a quotation: 2nd-hand).
func TestOffRoadLimitsOfPlans(t *testing.T) {
	p := Typical(segment(t, "mid-engine")) // rear tyres larger than front ones
	if p.TyreRatio() == 1 {
		t.Fatal("mid-engine has equal tyres")
	}
	sin := func(deg float64) float64 { return math.Sin(deg * math.Pi / 180) }
	approach := func(v *segments.Values, deg float64) {
		v[segments.Chin], v[segments.ChinSetback], v[segments.FrontOverhang] = .5, 0, .5/sin(deg)-.5
	}
	departure := func(v *segments.Values, deg float64) {
		r := float64(p.RearRadius())
		v[segments.TailLow], v[segments.TailSetback], v[segments.RearOverhang] = r, 0, r/sin(deg)-r
	}
	breakover := func(v *segments.Values, deg float64) { // equal tyres: worst half-way
		v[segments.RearWheel], v[segments.Clearance], v[segments.Wheelbase] = v[segments.Wheel], .5, 1/sin(deg/2)
	}
	clearance := func(v *segments.Values, mm float64) { v[segments.Clearance] = mm / v[segments.Wheel] }
	for _, c := range []struct {
		name  string
		limit float64
		set   func(*segments.Values, float64)
	}{
		{"approach angle, off-road, US", 28, approach},
		{"departure angle, off-road, US", 20, departure},
		{"breakover angle, off-road, US", 14, breakover},
		{"clearance, running, off-road, US", 200, clearance},
		{"approach angle, off-road, EU", 25, approach},
		{"departure angle, off-road, EU", 20, departure},
		{"breakover angle, off-road, EU", 20, breakover},
		{"clearance between the axles, off-road, EU", 200, clearance},
	} {
		for _, step := range []struct {
			by   float64
			want CheckResult
		}{{0, Met}, {.002, Met}, {-.002, Missed}} {
			q := p
			c.set(&q.figures, c.limit+step.by)
			got := find(t, q, c.name, "at least")
			if got.Result != step.want || math.Abs(got.Value-c.limit-step.by) > 1e-9 {
				t.Errorf("%s: %v, %v; want %v, %v", c.name, got.Value, got.Result, c.limit+step.by, step.want)
			}
		}
	}
}

// Enough of the criteria are met if they are however the open ones turn out; too few if they are however; else nobody knows.
// Every combination of five and of six criteria against all ways in which the open ones may turn out.
func TestCriteriaHoweverTheOpenOnesTurnOut(t *testing.T) {
	for _, of := range []struct{ need, among int }{{4, 5}, {5, 6}} {
		list := make([]Check, of.among)
		for code := range int(math.Pow(3, float64(of.among))) {
			for i := range list {
				list[i].Result = CheckResult(code % 3)
				code /= 3
			}
			reached, missed := false, false
			for ways := range 1 << of.among { // one bit a criterion: how it would turn out if it is open
				met := 0
				for i, c := range list {
					if c.Result == Met || c.Result == Unknown && ways>>i&1 == 1 {
						met++
					}
				}
				reached, missed = reached || met >= of.need, missed || met < of.need
			}
			want := Unknown
			if !missed {
				want = Met
			} else if !reached {
				want = Missed
			}
			if got := countMet("", list, of.need, "").Result; got != want {
				t.Errorf("%d of %v: %v, want %v", of.need, list, got, want)
			}
		}
	}
}

// What every check of every segment is told as: a name that begins with its lamp or angle, a limit, a source, no word of approval,
// a value unless nobody knows it.
func TestChecksAreTold(t *testing.T) {
	begins := []string{"dipped beam", "headlamp", "front ", "rear ", "stop lamp", "tail ", "approach angle", "breakover angle", "departure angle", "clearance", "off-road criteria"}
	for _, p := range segments.All() {
		seen := map[string]bool{}
		for _, c := range Typical(p).Checks() {
			if !slices.ContainsFunc(begins, func(b string) bool { return strings.HasPrefix(c.Name, b) }) {
				t.Errorf("%s: name %q", p.Name, c.Name)
			}
			if c.Limit == "" || c.Source == "" || math.IsNaN(c.Value) != (c.Result == Unknown && c.Unit != segments.AsCount) {
				t.Errorf("%s: %+v", p.Name, c)
			}
			for _, word := range []string{"legal", "approv", "compl", "certif", "permit"} {
				if strings.Contains(strings.ToLower(c.Name+c.Limit+c.Source), word) {
					t.Errorf("%s: %q speaks of approval", p.Name, c.Name)
				}
			}
			if key := c.Name + c.Limit; seen[key] {
				t.Errorf("%s: %s is told twice", p.Name, key)
			} else {
				seen[key] = true
			}
		}
	}
}
