package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render/counting"
	"hubrule/render/request"
	"hubrule/segments"
)

// flatJobs lists the flat views as jobs ask for them.
func flatJobs() [][]request.View {
	return [][]request.View{{request.FrontView, request.RearView}, {request.FrontView}, {request.RearView}, {request.TopView}, {request.ArrangementView}}
}

// Nothing overlaps on the flat views either. Views, papers, settings and angles take turns among the segments.
func TestFlatViewsOverlapNothing(t *testing.T) {
	t.Parallel()
	eachSegment(t, func(t *testing.T, i int, p layout.Plan) {
		for _, views := range onTurn(i, flatJobs()) {
			for _, paper := range onTurn(3*i, papers()) {
				for _, s := range settingsOnTurn(5*i, paper) {
					s.Views, s.Angle = views, []request.Projection{request.ThirdAngle, request.FirstAngle}[i/2%2]
					kinds := []request.Kind{request.Full}
					if i%3 == 2 || everySetting() {
						kinds = append(kinds, request.Trace)
					}
					checkFlat(t, request.Request{Plans: []layout.Plan{p}, Kinds: kinds, Setting: s})
				}
			}
		}
	})
}

func checkFlat(t *testing.T, job request.Request) {
	t.Helper()
	// Four views in a row are too long for some upright papers: the message says so.
	if s := job.Setting; s.Paper.Width < s.Paper.Height && s.Views[0] == request.ArrangementView {
		if _, _, err := Compose(job); err != nil && strings.HasSuffix(err.Error(), "use larger paper") {
			return
		}
	}
	for _, page := range inOrder(t, job) {
		if twice := testsheet.RepeatedIDs(testsheet.SvgOf(t, page)); len(twice) > 0 {
			t.Errorf("%s: ids used twice: %v", page.Title, twice)
		}
	}
}

// viewed draws one view's full sheet on A3, without the body, and reads it back.
func viewed(t *testing.T, p layout.Plan, s request.Setting, views ...request.View) testsheet.SVG {
	t.Helper()
	s.Views, s.Outline = views, request.OutlineOff
	return sheetsOf(t, p, s, request.Full)[0]
}

// xs and ys are the extent of a path, line or circle of a file.
func extent(f testsheet.SVG, t *testing.T, id string) (x, y [2]float64) {
	t.Helper()
	s, ok := f.Shapes[id]
	if !ok {
		t.Fatalf("no %s", id)
	}
	var px, py []float64
	switch s.Element {
	case "line":
		px, py = []float64{s.Num(t, "x1"), s.Num(t, "x2")}, []float64{s.Num(t, "y1"), s.Num(t, "y2")}
	case "circle":
		r := s.Num(t, "r")
		px, py = []float64{s.Num(t, "cx") - r, s.Num(t, "cx") + r}, []float64{s.Num(t, "cy") - r, s.Num(t, "cy") + r}
	default:
		for _, step := range testsheet.PathSteps(t, s.At["d"]) {
			for k, v := range step.Numbers {
				switch step.Kind(k) {
				case 'x':
					px = append(px, v)
				case 'y':
					py = append(py, v)
				}
			}
		}
	}
	return [2]float64{slices.Min(px), slices.Max(px)}, [2]float64{slices.Min(py), slices.Max(py)}
}

func wide(f testsheet.SVG, t *testing.T, id string) float64 {
	x, _ := extent(f, t, id)
	return x[1] - x[0]
}

func high(f testsheet.SVG, t *testing.T, id string) float64 {
	_, y := extent(f, t, id)
	return y[1] - y[0]
}

// What is drawn across the vehicle, divided by the counted wheel, is the plan's figures.
func TestFlatViewsShowTheFigures(t *testing.T) {
	t.Parallel()
	const printed = .001 // three decimals of a millimetre on both ends, of a wheel of 30 and more
	for i, name := range segments.Names() {
		if i%3 != 0 && name != "mid-engine" && !everySetting() {
			continue
		}
		p := testsheet.Plan(t, name)
		solid := view.NewSolid(p)
		check := func(what string, got float64, want geom.Wheels) {
			if math.Abs(got-float64(want)) > printed {
				t.Errorf("%s, %s: %.4f wheels, want %.4f", name, what, got, float64(want))
			}
		}
		f := viewed(t, p, testsheet.Setting(t, "A3"), request.FrontView, request.RearView)
		w := wide(f, t, "between-1")
		check("width", wide(f, t, "width")/w, counting.WidthOf(p))
		check("track", wide(f, t, "track")/w, solid.Track(p.Profile.Wheel))
		check("rear width", wide(f, t, "p2-width")/w, counting.WidthOf(p))
		check("belt width", wide(f, t, "belt-width")/w, solid.BeltWidth())
		check("roof width", wide(f, t, "roof-width")/w, solid.RoofWidth())
		_, ground := extent(f, t, "ground")
		_, roof := extent(f, t, "roof")
		check("height", (ground[0]-roof[0])/w, p.Height())
		x, y := extent(f, t, "tumblehome")
		if lean := math.Atan2(x[1]-x[0], y[1]-y[0]) * 180 / math.Pi; math.Abs(lean-float64(counting.TumblehomeOf(p))) > .05 {
			t.Errorf("%s: the glass leans in by %.2f°, want %v", name, lean, counting.TumblehomeOf(p))
		}
		f = viewed(t, p, testsheet.Setting(t, "A3"), request.TopView)
		w = wide(f, t, "between-1")
		check("width from above", high(f, t, "width")/w, counting.WidthOf(p))
		check("track from above", high(f, t, "track")/w, solid.Track(p.Profile.Wheel))
		_, body := extent(f, t, "width")
		if _, counted := extent(f, t, "between-1"); counted[0] < body[1] {
			t.Errorf("%s: wheels are counted from %.2f mm down, on a body that reaches down to %.2f", name, counted[0], body[1])
		}
		axle, _ := extent(f, t, "axle-front")
		rear, _ := extent(f, t, "axle-rear")
		check("wheelbase from above", (rear[0]-axle[0])/w, p.Wheelbase())
	}
}

// Every carried line meets its point in both views, in both angles and facings, two of the four on each of two segments.
func TestCarriedLinesMeetTheirPoints(t *testing.T) {
	t.Parallel()
	const near = .01
	for _, name := range []string{"sedan", "mid-engine"} {
		for i := range 4 {
			if (i == 0 || i == 3) != (name == "sedan") && !everySetting() {
				continue
			}
			s := testsheet.Setting(t, "A3")
			s.Angle, s.Facing = []request.Projection{request.ThirdAngle, request.FirstAngle}[i%2], facingOnTurn(i/2)
			f := viewed(t, testsheet.Plan(t, name), s, request.ArrangementView)
			meet := func(what string, a, b float64) {
				if math.Abs(a-b) > near {
					t.Errorf("%s %s %s: %s is off by %.3f mm", name, s.Angle, s.Facing, what, a-b)
				}
			}
			for _, axle := range []string{"axle-front", "axle-rear"} {
				x, _ := extent(f, t, "carried-"+axle)
				side, _ := extent(f, t, axle)
				top, _ := extent(f, t, "p4-"+axle)
				meet(axle+" of the side", x[0], side[0])
				meet(axle+" of the top", x[0], top[0])
			}
			foot, _ := extent(f, t, "carried-pillar-foot")
			side, _ := extent(f, t, "pillar")
			end := 0
			if s.Facing == request.Right {
				end = 1
			}
			meet("pillar's foot", foot[0], side[end])
			p, wheel := testsheet.Plan(t, name), wide(f, t, "between-1")
			_, ground := extent(f, t, "ground")
			sideView, _ := extent(f, t, "axle-line")
			for _, to := range []string{"front", "rear"} {
				view, _ := extent(f, t, map[string]string{"front": "p2-axle-line", "rear": "p3-axle-line"}[to])
				for level, y := range map[string]geom.Wheels{"roof": p.Height(), "belt": p.Belt(), "sill": p.Sill()} {
					x, at := extent(f, t, "carried-"+level+"-"+to)
					if !joins(x, view, sideView) {
						t.Errorf("%s %s %s: %s %s runs from %v, the views lie at %v and %v", name, s.Angle, s.Facing, level, to, x, view, sideView)
					}
					meet(level+" "+to, (ground[0]-at[0])/wheel, float64(y))
				}
			}
			axle, _ := extent(f, t, "axle-front")
			for id, x := range map[string]geom.Wheels{"nose": p.Nose(), "tail": p.Tail(), "glass-end": p.GlassEnd()} {
				at, _ := extent(f, t, "carried-"+id)
				meet(id, math.Abs(at[0]-axle[0])/wheel, math.Abs(float64(x)))
			}
			meetsOverTheMitre(t, f, fmt.Sprint(name, s.Angle, s.Facing))
		}
	}
}

// joins reports whether one end of a line lies in one view and the other in another.
func joins(line, a, b [2]float64) bool {
	in := func(x float64, v [2]float64) bool { return x >= v[0] && x <= v[1] }
	return in(line[0], a) && in(line[1], b) || in(line[0], b) && in(line[1], a)
}

// meetsOverTheMitre checks that the widths turn on the line at 45° and come down as far from the front view's middle as they left the
// top view's.
func meetsOverTheMitre(t *testing.T, f testsheet.SVG, what string) {
	t.Helper()
	x, y := extent(f, t, "mitre")
	if math.Abs((x[1]-x[0])-(y[1]-y[0])) > .002 {
		t.Errorf("%s: the mitre does not lie at 45°", what)
	}
	front, _ := extent(f, t, "p2-centre-line")
	_, top := extent(f, t, "p4-centre-line")
	for _, id := range []string{"carried-left", "carried-right"} {
		turn := testsheet.PathSteps(t, f.Shapes[id].At["d"])[1].Numbers
		if across, up := math.Abs(turn[0]-front[0]), math.Abs(turn[1]-top[0]); math.Abs(across-up) > .01 {
			t.Errorf("%s: %s leaves %.3f from the middle and arrives %.3f from it", what, id, up, across)
		}
	}
}

// A pinned width changes every number across; trace sheets have no words in the drawing; flat views share the side's wheel.
func TestFlatViewsFollow(t *testing.T) {
	t.Parallel()
	for _, one := range []struct {
		plan layout.Plan
		want []string
	}{
		{testsheet.Plan(t, "suv"), []string{"width 2.53", "track 2.16", "tumblehome 18°", "belt width 2.37", "front lamp 1.13", "+ 0.85"}},
		{testsheet.Pinned(t, "suv", "width=2.6w", "track=2.2w", "tumblehome=20"), []string{"width 2.60", "track 2.20", "tumblehome 20°", "belt width 2.44", "+ 0.88"}},
	} {
		words := saidBy(viewed(t, one.plan, testsheet.Setting(t, "A3"), request.FrontView))
		for _, want := range one.want {
			if !strings.Contains(words, want) {
				t.Errorf("no %q among %s", want, words)
			}
		}
	}
	s := testsheet.Setting(t, "A3")
	s.Views, s.Outline = []request.View{request.SideView, request.FrontView, request.RearView, request.TopView, request.ArrangementView}, request.OutlineOff
	all := sheetsOf(t, testsheet.Plan(t, "suv"), s, request.Full, request.Trace)
	wheel := wide(all[0], t, "wheel-front")
	for i, f := range all {
		if _, counted := f.Shapes["between-1"]; counted && math.Abs(wide(f, t, "between-1")-wheel) > .003 {
			t.Errorf("sheet %d: a wheel of %.3f, the side's is %.3f", i, wide(f, t, "between-1"), wheel)
		}
	}
	for i, f := range all[2:] {
		for _, text := range f.Texts {
			if i%2 == 1 && text.Group != "guide-strip" && text.Group != "strip" {
				t.Errorf("trace sheet %d says %q in %s", i, text.Words, text.Group)
			}
		}
	}
}

func saidBy(f testsheet.SVG) string {
	var out []string
	for _, text := range f.Texts {
		out = append(out, strings.Join(strings.Fields(text.Words), " "))
	}
	return strings.Join(out, " | ")
}
