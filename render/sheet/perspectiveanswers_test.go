package sheet

import (
	"math"
	"slices"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/render/request"
)

// What a practice sheet gives in perspective can be measured there with ruler, protractor and the rules of perspective alone, by a reader that
// shares no code with the writer and knows nothing of the camera; the answer's range has what it finds in its middle.
func TestGivenItemsAreMeasuredInPerspective(t *testing.T) {
	t.Parallel()
	for i, c := range []struct {
		segment, camera string
		given           int
	}{
		{"suv", "front-quarter", request.GivenWheels}, {"sports", "front-low", request.GivenLevels}, {"van", "rear-quarter", request.GivenCounted},
		{"pickup-large", "front-long", request.GivenMost}, {"mid-engine", "rear-low", request.GivenLevels}, {"city", "front-long", request.GivenWheels},
		{"convertible", "rear-quarter", request.GivenMost}, {"off-roader", "front-quarter", request.GivenCounted},
	} {
		s := shotSetting(t, "A3", c.camera)
		s.Given, s.Facing = c.given, []request.Facing{request.Left, request.Right}[i/2%2]
		pages := shotPages(t, testsheet.Plan(t, c.segment), s, request.Practice, request.Answer)
		read := measuredInPerspective(t, testsheet.ReadSVG(t, testsheet.SvgOf(t, pages[0])))
		accepted := acceptedOn(t, testsheet.ReadSVG(t, testsheet.SvgOf(t, pages[1])))
		for name, v := range read {
			a, ok := accepted[name]
			if !ok {
				t.Fatalf("%v: no answer to %q among %v", c, name, accepted)
			}
			// The answer's ends have two decimals, an ellipse none.
			middle, width, rounded := (a.lo+a.hi)/2, .1, .011
			if slices.Contains(ellipseItems(), name) {
				width, rounded = 4, .51
			} else if name == "wheels between tyres" {
				rounded = .015 // a larger rear tyre's hub stands higher and further out
			}
			if math.Abs(v-middle) > rounded || math.Abs(a.hi-a.lo-width) > .011 {
				t.Errorf("%v: %s reads as %.3f; the answer accepts %.2f to %.2f, want %g about it", c, name, v, a.lo, a.hi, width)
			}
		}
		if want := map[bool]int{true: 6, false: 4}[c.given >= request.GivenLevels]; len(read) != want {
			t.Errorf("%v: %d items can be measured, want %d: %v", c, len(read), want, read)
		}
	}
}

func ellipseItems() []string {
	return []string{"ellipse of the front wheel, degrees", "ellipse of the rear wheel, degrees"}
}

// measuredInPerspective measures what a practice sheet without tilt shows of the blanks.
func measuredInPerspective(t *testing.T, f testsheet.SVG) map[string]float64 {
	t.Helper()
	front, ok := nearWheelOn(t, f, "front")
	if !ok {
		t.Fatal("no near front wheel")
	}
	out := map[string]float64{ellipseItems()[0]: front.degrees}
	// What stands upright shrinks as its foot nears the horizon: the wheel says how high the eye is, the eye how high the rest.
	horizon := f.Shapes["horizon"].Num(t, "y1")
	top, foot := front.across(t, 0, 1)
	eye := (foot.y - horizon) / (foot.y - top.y)
	belt := f.Shapes["belt"]
	corner := uprightAt(t, f.Shapes["box"].At["d"], belt.Num(t, "x1"))
	up := func(y float64) float64 { return eye * (corner[1] - y) / (corner[1] - horizon) }
	out["roof, from the ground"] = up(corner[0])
	out["belt, at mid-wheelbase"], out["sill, from the ground"] = up(belt.Num(t, "y1")), up(f.Shapes["sill"].Num(t, "y1"))
	if rear, ok := nearWheelOn(t, f, "rear"); ok {
		out[ellipseItems()[1]] = rear.degrees
		out["wheels between tyres"] = between(t, front, rear)
	}
	return out
}

type spot struct{ x, y float64 }

// wheelOn is a wheel as drawn: its ellipse, and where its centre lies on paper, which is not the middle of the ellipse.
type wheelOn struct {
	hub, middle           spot
	long, short, sin, cos float64
	degrees               float64
}

// nearWheelOn reads the near wheel of an axle.
func nearWheelOn(t *testing.T, f testsheet.SVG, axle string) (wheelOn, bool) {
	t.Helper()
	for _, side := range []string{"left", "right"} {
		name := axle + "-" + side
		shaft, there := f.Shapes["axle-"+name]
		if !there {
			continue
		}
		length := func(id string) float64 {
			s := f.Shapes[id+name]
			return math.Hypot(s.Num(t, "x2")-s.Num(t, "x1"), s.Num(t, "y2")-s.Num(t, "y1"))
		}
		steps := testsheet.PathSteps(t, f.Shapes["wheel-"+name].At["d"])
		arc := steps[1].Numbers
		x, y := arcCentre(steps[0].Numbers, arc)
		w := wheelOn{hub: spot{shaft.Num(t, "x1"), shaft.Num(t, "y1")}, middle: spot{x, y}, long: arc[0], short: arc[1]}
		w.sin, w.cos = math.Sincos(arc[2] * math.Pi / 180)
		w.degrees = math.Asin(length("axis-short-")/length("axis-long-")) * 180 / math.Pi
		return w, true
	}
	return wheelOn{}, false
}

// across returns where the line through the hub in a direction leaves the ellipse, behind the hub and ahead of it.
func (w wheelOn) across(t *testing.T, dx, dy float64) (behind, ahead spot) {
	t.Helper()
	turned := func(x, y float64) (u, v float64) { return (x*w.cos + y*w.sin) / w.long, (y*w.cos - x*w.sin) / w.short }
	pu, pv := turned(w.hub.x-w.middle.x, w.hub.y-w.middle.y)
	du, dv := turned(dx, dy)
	a, b, c := du*du+dv*dv, pu*du+pv*dv, pu*pu+pv*pv-1
	root := b*b - a*c
	if root <= 0 || c >= 0 {
		t.Fatalf("the hub lies outside its wheel: %+v", w)
	}
	at := func(k float64) spot { return spot{w.hub.x + k*dx, w.hub.y + k*dy} }
	return at((-b - math.Sqrt(root)) / a), at((-b + math.Sqrt(root)) / a)
}

// between counts wheels between the tyres: front edge, hub and rear edge of the front wheel lie half a wheel apart on one line in space, and
// the cross ratio with the rear tyre's edge is the same there and on paper.
func between(t *testing.T, front, rear wheelOn) float64 {
	t.Helper()
	dx, dy := rear.hub.x-front.hub.x, rear.hub.y-front.hub.y
	along := func(p spot) float64 { return (p.x-front.hub.x)*dx + (p.y-front.hub.y)*dy }
	nose, heel := front.across(t, dx, dy)
	edge, _ := rear.across(t, dx, dy)
	a, b, c := along(nose), along(heel), along(edge)
	// With the hub at 0: (c−a)·b / (c−b)·a on paper; in space, x behind the hub: (x+½)·½ / (x−½)·(−½).
	r := (c - a) * b / ((c - b) * -a)
	x := .5 * (r + 1) / (r - 1)
	return x - .5
}

// uprightAt returns the upper and the lower end of a path's upright line at x.
func uprightAt(t *testing.T, d string, x float64) (ends [2]float64) {
	t.Helper()
	steps := testsheet.PathSteps(t, d)
	for i := 1; i < len(steps); i++ {
		a, b := steps[i-1].Numbers, steps[i].Numbers
		if steps[i].Verb == 'L' && math.Abs(a[0]-x) < .002 && math.Abs(b[0]-x) < .002 && math.Abs(a[1]-b[1]) > 1 {
			return [2]float64{min(a[1], b[1]), max(a[1], b[1])}
		}
	}
	t.Fatalf("no upright at %.3f in %s", x, d)
	return ends
}
