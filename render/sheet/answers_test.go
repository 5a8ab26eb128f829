package sheet

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/segments"
)

// What a practice sheet gives can be measured there by a reader that shares no code with the writer, and the answer accepts what it finds,
// within 0.05 of a wheel: every segment, typical and varied, at every level.
func TestGivenItemsAreMeasured(t *testing.T) {
	t.Parallel()
	eachSegment(t, func(t *testing.T, i int, typical layout.Plan) {
		r := rand.New(rand.NewPCG(uint64(i), 5))
		var turns segments.Values
		for f := range turns {
			turns[f] = float64(r.Float64()*1.2) - .6
		}
		varied, ok := layout.Vary(typical, turns, .7)
		if !ok {
			varied = typical
		}
		for level := request.GivenWheels; level <= request.GivenMost; level++ {
			for _, p := range []layout.Plan{typical, varied} {
				s := testsheet.Setting(t, "A3")
				s.Given = level
				pages := sheetsOf(t, p, s, request.Practice, request.Answer)
				read, accepted := measuredOn(t, pages[0]), acceptedOn(t, pages[1])
				for name, v := range read {
					a, ok := accepted[name]
					if !ok {
						t.Fatalf("level %d: no answer to %q among %v", level, name, accepted)
					}
					if v < a.lo || v > a.hi {
						t.Errorf("level %d: %s reads as %.3f; the answer accepts %.2f to %.2f", level, name, v, a.lo, a.hi)
					}
					if name != "body side / greenhouse" && a.hi-a.lo > .11 {
						t.Errorf("level %d: %s is drawn, and the answer accepts %.2f to %.2f", level, name, a.lo, a.hi)
					}
				}
				if want := []int{0, 2, 6, 9, 11}[level]; len(read) != want {
					t.Errorf("level %d: %d items can be measured, want %d: %v", level, len(read), want, read)
				}
			}
		}
	})
}

// measuredOn measures what a practice sheet shows of the blanks, in wheels.
func measuredOn(t *testing.T, f testsheet.SVG) map[string]float64 {
	t.Helper()
	get := func(id, attribute string) float64 { return f.Shapes[id].Num(t, attribute) }
	has := func(id string) bool { _, there := f.Shapes[id]; return there }
	wheel, front, rear := 2*get("wheel-front", "r"), get("wheel-front", "cx"), get("wheel-rear", "cx")
	edge := rear + get("wheel-rear", "r")
	out := map[string]float64{
		"wheels between tyres":    (edge - 2*get("wheel-rear", "r") - front - wheel/2) / wheel,
		"wheelbase, axle to axle": (rear - front) / wheel,
	}
	up := func(y float64) float64 { return (get("ground", "y1") - y) / wheel }
	if has("roof") {
		out["roof, from the ground"] = up(get("roof", "y1"))
		out["sill, from the ground"] = up(get("sill", "y1"))
		x1, y1, x2, y2 := get("belt", "x1"), get("belt", "y1"), get("belt", "x2"), get("belt", "y2")
		belt := up(y1 + (y2-y1)*((front+rear)/2-x1)/(x2-x1))
		out["belt, at mid-wheelbase"] = belt
		out["body side / greenhouse"] = (belt - out["sill, from the ground"]) / (out["roof, from the ground"] - belt)
	}
	if has("nose") {
		out["front overhang"], out["rear overhang"] = (front-wheel/2-get("nose", "x1"))/wheel, (get("tail", "x1")-edge)/wheel
	} else if has("overhang-front") { // the used part of a ghost wheel ends at nose and tail
		out["front overhang"], out["rear overhang"] = (front-wheel/2-reach(t, f, "overhang-front", -1))/wheel, (reach(t, f, "overhang-rear", 1)-edge)/wheel
	}
	if overhang, given := out["front overhang"]; given {
		out["length, nose to tail"] = overhang + out["wheelbase, axle to axle"] + 1 + out["rear overhang"]
	}
	if has("arch-front") {
		for _, step := range testsheet.PathSteps(t, f.Shapes["arch-front"].At["d"]) {
			if step.Verb == 'A' {
				out["arch gap"] = step.Numbers[0]/wheel - .5
			}
		}
		out["glass end behind tyre"] = (get("glass-end", "x1") - edge) / wheel
	}
	return out
}

// reach returns the end of the used parts of ghost wheels on one side, −1 for the front.
func reach(t *testing.T, f testsheet.SVG, id string, side float64) float64 {
	t.Helper()
	end := math.Inf(-1)
	for n := 1; ; n++ {
		name := id
		if n > 1 {
			name = fmt.Sprintf("%s-%d", id, n)
		}
		s, there := f.Shapes[name]
		if !there {
			return side * end
		}
		for _, step := range testsheet.PathSteps(t, s.At["d"]) {
			if k := len(step.Numbers); k >= 2 {
				end = max(end, side*step.Numbers[k-2])
			}
		}
	}
}

type bounds struct{ lo, hi float64 }

// acceptedOn reads from an answer sheet what it accepts, by the names of its blanks.
func acceptedOn(t *testing.T, f testsheet.SVG) map[string]bounds {
	t.Helper()
	out := map[string]bounds{}
	between := regexp.MustCompile(`^\((.+) to (.+)\)$`)
	for _, name := range f.Texts {
		best := math.Inf(1)
		for _, w := range f.Texts {
			m := between.FindStringSubmatch(w.Words)
			if away := w.X - name.X; m != nil && math.Abs(w.Y-name.Y) < .01 && away > 0 && away < best && name.Group == "guide-strip" {
				best = away
				out[name.Words] = bounds{number(t, m[1]), number(t, m[2])}
			}
		}
	}
	return out
}

// In perspective the ellipses that are drawn are measured within 2°, the others judged within a step of a template; box and levels are
// drawn on every level.
func TestGivenItemsInPerspective(t *testing.T) {
	t.Parallel()
	for level, want := range map[int]map[string]float64{
		request.GivenWheels: {"ellipse of the front wheel, degrees": 4, "ellipse of the rear wheel, degrees": 10, "roof, from the ground": .1},
		request.GivenLevels: {"ellipse of the front wheel, degrees": 4, "ellipse of the rear wheel, degrees": 4, "wheels between tyres": .1},
	} {
		s := shotSetting(t, "A3", "front-quarter")
		s.Given = level
		accepted := acceptedOn(t, testsheet.ReadSVG(t, testsheet.SvgOf(t, shotPages(t, testsheet.Plan(t, "sedan"), s, request.Answer)[0])))
		for name, width := range want {
			if a, ok := accepted[name]; !ok || math.Abs(a.hi-a.lo-width) > .011 {
				t.Errorf("level %d: %s accepts %v, want a width of %v", level, name, a, width)
			}
		}
	}
}
