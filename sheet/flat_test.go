package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/view"
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
			for _, paper := range onTurn(3*i, request.Papers()) {
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
		if f := readSVG(t, svgOf(t, page)); len(f.repeated) > 0 {
			t.Errorf("%s: ids used twice: %v", page.Title, f.repeated)
		}
	}
}

// viewed draws one view's full sheet on A3, without the body, and reads it back.
func viewed(t *testing.T, p layout.Plan, s request.Setting, views ...request.View) svgFile {
	t.Helper()
	s.Views, s.Outline = views, request.Off
	return sheetsOf(t, p, s, request.Full)[0]
}

// xs and ys are the extent of a path, line or circle of a file.
func (f svgFile) extent(t *testing.T, id string) (x, y [2]float64) {
	t.Helper()
	s, ok := f.shapes[id]
	if !ok {
		t.Fatalf("no %s", id)
	}
	var px, py []float64
	switch s.element {
	case "line":
		px, py = []float64{s.num(t, "x1"), s.num(t, "x2")}, []float64{s.num(t, "y1"), s.num(t, "y2")}
	case "circle":
		r := s.num(t, "r")
		px, py = []float64{s.num(t, "cx") - r, s.num(t, "cx") + r}, []float64{s.num(t, "cy") - r, s.num(t, "cy") + r}
	default:
		for _, step := range pathSteps(t, s.at["d"]) {
			for k, v := range step.numbers {
				switch step.kind(k) {
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

func (f svgFile) wide(t *testing.T, id string) float64 {
	x, _ := f.extent(t, id)
	return x[1] - x[0]
}

func (f svgFile) high(t *testing.T, id string) float64 {
	_, y := f.extent(t, id)
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
		p := plan(t, name)
		solid := view.NewSolid(p)
		check := func(what string, got float64, want geom.Wheels) {
			if math.Abs(got-float64(want)) > printed {
				t.Errorf("%s, %s: %.4f wheels, want %.4f", name, what, got, float64(want))
			}
		}
		f := viewed(t, p, setting(t, "A3"), request.FrontView, request.RearView)
		w := f.wide(t, "between-1")
		check("width", f.wide(t, "width")/w, widthOf(p))
		check("track", f.wide(t, "track")/w, solid.Track(p.Profile.Wheel))
		check("rear width", f.wide(t, "p2-width")/w, widthOf(p))
		check("belt width", f.wide(t, "belt-width")/w, solid.BeltWidth())
		check("roof width", f.wide(t, "roof-width")/w, solid.RoofWidth())
		_, ground := f.extent(t, "ground")
		_, roof := f.extent(t, "roof")
		check("height", (ground[0]-roof[0])/w, p.Height())
		x, y := f.extent(t, "tumblehome")
		if lean := math.Atan2(x[1]-x[0], y[1]-y[0]) * 180 / math.Pi; math.Abs(lean-float64(tumblehomeOf(p))) > .05 {
			t.Errorf("%s: the glass leans in by %.2f°, want %v", name, lean, tumblehomeOf(p))
		}
		f = viewed(t, p, setting(t, "A3"), request.TopView)
		w = f.wide(t, "between-1")
		check("width from above", f.high(t, "width")/w, widthOf(p))
		check("track from above", f.high(t, "track")/w, solid.Track(p.Profile.Wheel))
		axle, _ := f.extent(t, "axle-front")
		rear, _ := f.extent(t, "axle-rear")
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
			s := setting(t, "A3")
			s.Angle, s.Facing = []request.Projection{request.ThirdAngle, request.FirstAngle}[i%2], facingOnTurn(i/2)
			f := viewed(t, plan(t, name), s, request.ArrangementView)
			meet := func(what string, a, b float64) {
				if math.Abs(a-b) > near {
					t.Errorf("%s %s %s: %s is off by %.3f mm", name, s.Angle, s.Facing, what, a-b)
				}
			}
			for _, axle := range []string{"axle-front", "axle-rear"} {
				x, _ := f.extent(t, "carried-"+axle)
				side, _ := f.extent(t, axle)
				top, _ := f.extent(t, "p4-"+axle)
				meet(axle+" of the side", x[0], side[0])
				meet(axle+" of the top", x[0], top[0])
			}
			foot, _ := f.extent(t, "carried-pillar-foot")
			side, _ := f.extent(t, "pillar")
			end := 0
			if s.Facing == request.Right {
				end = 1
			}
			meet("pillar's foot", foot[0], side[end])
			p, wheel := plan(t, name), f.wide(t, "between-1")
			_, ground := f.extent(t, "ground")
			for _, to := range []string{"front", "rear"} {
				for level, y := range map[string]geom.Wheels{"roof": p.Height(), "belt": p.Belt(), "sill": p.Sill()} {
					_, at := f.extent(t, "carried-"+level+"-"+to)
					meet(level+" "+to, (ground[0]-at[0])/wheel, float64(y))
				}
			}
			axle, _ := f.extent(t, "axle-front")
			for id, x := range map[string]geom.Wheels{"nose": p.Nose(), "tail": p.Tail(), "glass-end": p.GlassEnd()} {
				at, _ := f.extent(t, "carried-"+id)
				meet(id, math.Abs(at[0]-axle[0])/wheel, math.Abs(float64(x)))
			}
			meetsOverTheMitre(t, f, fmt.Sprint(name, s.Angle, s.Facing))
		}
	}
}

// meetsOverTheMitre checks that the widths turn on the line at 45° and come down as far from the front view's middle as they left the
// top view's.
func meetsOverTheMitre(t *testing.T, f svgFile, what string) {
	t.Helper()
	x, y := f.extent(t, "mitre")
	if math.Abs((x[1]-x[0])-(y[1]-y[0])) > .002 {
		t.Errorf("%s: the mitre does not lie at 45°", what)
	}
	front, _ := f.extent(t, "p2-centre-line")
	_, top := f.extent(t, "p4-centre-line")
	for _, id := range []string{"carried-left", "carried-right"} {
		turn := pathSteps(t, f.shapes[id].at["d"])[1].numbers
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
		{plan(t, "suv"), []string{"width 2.53", "track 2.16", "tumblehome 18°", "belt width 2.37", "front lamp 1.13", "+ 0.85"}},
		{pinned(t, "suv", "width=2.6w", "track=2.2w", "tumblehome=20"), []string{"width 2.60", "track 2.20", "tumblehome 20°", "belt width 2.44", "+ 0.88"}},
	} {
		words := saidBy(viewed(t, one.plan, setting(t, "A3"), request.FrontView))
		for _, want := range one.want {
			if !strings.Contains(words, want) {
				t.Errorf("no %q among %s", want, words)
			}
		}
	}
	s := setting(t, "A3")
	s.Views, s.Outline = []request.View{request.SideView, request.FrontView, request.RearView, request.TopView, request.ArrangementView}, request.Off
	all := sheetsOf(t, plan(t, "suv"), s, request.Full, request.Trace)
	wheel := all[0].wide(t, "wheel-front")
	for i, f := range all {
		if _, counted := f.shapes["between-1"]; counted && math.Abs(f.wide(t, "between-1")-wheel) > .003 {
			t.Errorf("sheet %d: a wheel of %.3f, the side's is %.3f", i, f.wide(t, "between-1"), wheel)
		}
	}
	for i, f := range all[2:] {
		for _, text := range f.texts {
			if i%2 == 1 && text.group != "guide-strip" && text.group != "strip" {
				t.Errorf("trace sheet %d says %q in %s", i, text.words, text.group)
			}
		}
	}
}

func saidBy(f svgFile) string {
	var out []string
	for _, text := range f.texts {
		out = append(out, strings.Join(strings.Fields(text.words), " "))
	}
	return strings.Join(out, " | ")
}
