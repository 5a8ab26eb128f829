package sheet

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/segments"
)

// What studios teach about a premium sport utility, read back from the written SVG by a reader that shares
// no code with the writer. Common practice of the trade; no published source.
func TestStudioPracticeOfASportUtility(t *testing.T) {
	t.Parallel()
	f := sheetsOf(t, testsheet.Plan(t, "suv"), testsheet.Setting(t, "A3"), request.Full)[0]
	get := func(id, attribute string) float64 {
		t.Helper()
		s, ok := f.Shapes[id]
		if !ok {
			t.Fatalf("no %s in the file", id)
		}
		return s.Num(t, attribute)
	}
	wheel := 2 * get("wheel-front", "r")
	ground := get("ground", "y1")
	up := func(y float64) float64 { return (ground - y) / wheel } // in wheels
	front, rear := get("wheel-front", "cx"), get("wheel-rear", "cx")
	radius := wheel / 2
	within := func(what string, got, lo, hi float64) {
		t.Helper()
		if got < lo-1e-4 || got > hi+1e-4 {
			t.Errorf("%s: %.4f, want %.4f to %.4f", what, got, lo, hi)
		}
	}
	within("wheels between the tyres", (rear-front)/wheel-1, 3, 3)
	counted := 0
	for id := range f.Shapes {
		if n, ok := strings.CutPrefix(id, "between-"); ok && n != "rest" {
			counted++
			i, _ := strconv.Atoi(n)
			within("place of "+id, (get(id, "cx")-front)/wheel, float64(i), float64(i))
		}
	}
	if counted != 3 {
		t.Errorf("%d counted wheels between, want 3", counted)
	}
	within("wheels high", up(get("roof", "y1")), 2.3, 2.4)
	roof, sill := up(get("roof", "y1")), up(get("sill", "y1"))
	belt := up(get("belt-level", "y1"))
	within("body side ÷ greenhouse", (belt-sill)/(roof-belt), 1.998, 2.002)
	within("A-pillar on the front axle line: its x", (get("pillar-aim", "x1")-front)/wheel, 0, 0)
	within("A-pillar on the front axle line, between wheel centre and wheel top", up(get("pillar-aim", "y1")), .5, 1)
	slope := func(id string) float64 {
		return (get(id, "y1") - get(id, "y2")) / (get(id, "x2") - get(id, "x1"))
	}
	within("the pillar and its extension are one line", slope("pillar-aim")-slope("pillar"), -.001, .001)
	within("side glass ends at the back of the rear wheel", (get("glass-end", "x1")-rear-radius)/wheel, 0, 0)
	// "About half a wheel" is taken as .45 to .6, and a sill is some way off the ground: .05 (both our own reading).
	within("front overhang beyond the tyre, about half a wheel", (front-radius-get("nose", "x1"))/wheel, .45, .6)
	within("rear overhang beyond the tyre", (get("tail", "x1")-rear-radius)/wheel, .7, .8)
	within("sill between ground and wheel centre", sill, .05, .5)
	lamp := up(get("lamp-front-top", "y1")) - up(get("lamp-front", "y1"))
	within("rear lamp one lamp higher", up(get("lamp-rear", "y1"))-up(get("lamp-front", "y1")), lamp-.0003, lamp+.0003)
}

// The counting grammar and the rule's ids, for every segment: whole wheels touch each other, the rest stops at
// the rear tyre, tenths follow the front tyre's rear edge.
func TestCountsOfEverySegment(t *testing.T) {
	t.Parallel()
	for _, name := range segments.Names() {
		p := testsheet.Plan(t, name)
		f := sheetsOf(t, p, testsheet.Setting(t, "A3"), request.Full)[0]
		wheel := 2 * f.Shapes["wheel-front"].Num(t, "r")
		from := f.Shapes["wheel-front"].Num(t, "cx") + wheel/2
		for k := 0; ; k++ {
			s, ok := f.Shapes[fmt.Sprintf("tick-%d", k)]
			if !ok {
				if want := int(math.Ceil(p.WheelsBetween()*10 - 1e-6)); k < want || k > want+1 {
					t.Errorf("%s: %d ticks between the tyres, want %d", name, k, want)
				}
				break
			}
			if got := (s.Num(t, "x1") - from) / wheel; math.Abs(got-float64(k)/10) > 1e-4 {
				t.Errorf("%s: tick-%d at %.4f wheels", name, k, got)
			}
			if s.Element != "line" {
				t.Errorf("%s: tick-%d is a <%s>", name, k, s.Element)
			}
		}
		rest := p.WheelsBetween() - math.Floor(p.WheelsBetween()+1e-9)
		if _, drawn := f.Shapes["between-rest"]; drawn != (rest > .004) {
			t.Errorf("%s: %.2f left over between the tyres; drawn: %v", name, rest, drawn)
		}
		for k := 2; float64(k) <= float64(p.Height()); k++ {
			if s := f.Shapes[fmt.Sprintf("stack-%d", k)]; s.Element != "circle" {
				t.Errorf("%s: stack-%d is no circle", name, k)
			}
		}
		if rest := f.Shapes["stack-rest"]; rest.Element != "path" || rest.Group != "guide-stack" {
			t.Errorf("%s: stack-rest is %v", name, rest)
		}
	}
}

// The ladder beside the tail keeps the order of heights, so that no leader crosses another.
func TestLadderKeepsTheOrderOfHeights(t *testing.T) {
	t.Parallel()
	eachSegment(t, func(t *testing.T, i int, p layout.Plan) {
		for _, paper := range onTurn(i, papers()) {
			texts, last := sheetsOf(t, p, on(paper), request.Full)[0].Texts, 0.
			for _, rung := range []string{"roof ", "1 part", "greenhouse", "belt ", "parts", "body side", "sill "} {
				found := false
				for _, w := range texts {
					if w.Group != "guide-labels" || !strings.HasPrefix(w.Words, rung) && !strings.HasSuffix(w.Words, rung) {
						continue
					}
					if found = true; w.Y <= last {
						t.Errorf("%s: %q stands %.2f mm down, what is higher on the vehicle %.2f", paper.Name, w.Words, w.Y, last)
					}
					last = w.Y
				}
				if !found {
					t.Errorf("%s: no %q", paper.Name, rung)
				}
			}
		}
	})
}

// The SVG contract: 1 unit = 1 mm, layers, unique ids, no transform but on text.
func TestContractOfTheSVG(t *testing.T) {
	t.Parallel()
	s := testsheet.Setting(t, "A3")
	s.Frame = true
	for _, f := range sheetsOf(t, testsheet.Plan(t, "mid-engine"), s, request.Full, request.Trace) {
		if f.Width != "420mm" || f.Height != "297mm" || f.ViewBox != "0 0 420 297" {
			t.Errorf("size %s × %s, viewBox %s", f.Width, f.Height, f.ViewBox)
		}
		if len(f.Repeated) > 0 || len(f.Transforms) > 0 || f.Elements["use"] > 0 || f.Elements["svg"] != 1 {
			t.Errorf("ids twice: %v, transforms on: %v, %v", f.Repeated, f.Transforms, f.Elements)
		}
		for g, mode := range f.Groups {
			name, ok := strings.CutPrefix(g, "guide-")
			if !ok || mode != "layer" || !slices.Contains(append(request.Guides(), "labels", "strip", "frame"), request.Guide(name)) {
				t.Errorf("group %q, mode %q", g, mode)
			}
		}
	}
}

// The ruler test: on every page the check bar is 100.00 mm and the wheel's circle is what the strip says.
func TestRuler(t *testing.T) {
	t.Parallel()
	eachSegment(t, func(t *testing.T, i int, p layout.Plan) {
		for k, paper := range papers() {
			turn := 5*i + k
			for _, s := range settingsOnTurn(turn, paper) {
				for _, kinds := range onTurn(turn, [][]request.Kind{{request.Full, request.Trace}, {request.Practice, request.Answer}}) {
					for _, f := range sheetsOf(t, p, s, kinds...) {
						checkRuler(t, f, describe(s))
					}
				}
			}
		}
	})
}

func checkRuler(t *testing.T, f testsheet.SVG, what string) {
	t.Helper()
	bar := f.Shapes["check-bar"]
	if long := bar.Num(t, "x2") - bar.Num(t, "x1"); math.Abs(long-100) > .005 {
		t.Errorf("%s: the bar is %.3f mm", what, long)
	}
	said := saidWheel(t, f)
	if drawn := 2 * f.Shapes["wheel-front"].Num(t, "r"); math.Abs(drawn-said) > .005 {
		t.Errorf("%s: the wheel is %.3f mm, the strip says %g", what, drawn, said)
	}
	if math.Mod(said, 2) != 0 {
		t.Errorf("%s: a wheel of %g mm is no whole number on the compass", what, said)
	}
}

// The strip says what is drawn at scales of the user's own too, whole millimetres or not.
func TestRulerAtFixedScales(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		scale request.Scale
		want  float64
	}{{request.Scale{Reduction: 20}, 739. / 20}, {request.Scale{Reduction: 17.3}, 739 / 17.3}, {request.Scale{Wheel: 33.4}, 33.4}} {
		s := testsheet.Setting(t, "A3")
		s.Scale = c.scale
		for _, f := range sheetsOf(t, testsheet.Plan(t, "suv"), s, request.Full, request.Trace) {
			drawn := 2 * f.Shapes["wheel-front"].Num(t, "r")
			if math.Abs(drawn-c.want) > .001 || math.Abs(saidWheel(t, f)-c.want) > .005 {
				t.Errorf("%+v: drawn %.3f mm, said %g, want %.3f", c.scale, drawn, saidWheel(t, f), c.want)
			}
		}
	}
}

// saidWheel reads "wheel on paper 46 mm", which stands on one line of every strip, and "print at 100 %".
func saidWheel(t testing.TB, f testsheet.SVG) float64 {
	t.Helper()
	wheel, advice := 0.0, false
	for _, w := range f.Texts {
		if _, after, ok := strings.Cut(w.Words, "wheel on paper "); ok {
			number, _, _ := strings.Cut(after, " mm")
			wheel, _ = strconv.ParseFloat(strings.TrimSpace(number), 64)
		}
		advice = advice || strings.Contains(w.Words, "print at 100 %")
	}
	if wheel == 0 || !advice {
		t.Fatalf("the strip lacks the wheel (%g) or the advice to print at 100 %% (%v)", wheel, advice)
	}
	return wheel
}
