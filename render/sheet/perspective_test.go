package sheet

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// shotSetting is an A3 sheet taken by a preset.
func shotSetting(t testing.TB, paperName, camera string) request.Setting {
	t.Helper()
	st, ok := view.FindPreset(camera)
	if !ok {
		t.Fatalf("no camera %s", camera)
	}
	s := testsheet.Setting(t, paperName)
	s.Views, s.Camera = []request.View{request.PerspectiveView}, request.Camera{Spec: st}
	return s
}

func shotPages(t testing.TB, p layout.Plan, s request.Setting, kinds ...request.Kind) []render.Page {
	t.Helper()
	doc, _, err := Compose(request.Request{Plans: []layout.Plan{p}, Kinds: kinds, Setting: s})
	if err != nil {
		t.Fatal(err)
	}
	return doc.Pages
}

// eyeOf reads where others are told to project from: by the formulas of a pinhole, without this program's camera.
type eyeOf struct {
	eye, right, up, forward [3]float64
	scale, x, y             float64
}

func readEye(t testing.TB, svg []byte) eyeOf {
	t.Helper()
	numbers := func(name string) []float64 {
		m := regexp.MustCompile(`data-` + name + `="([^"]*)"`).FindSubmatch(svg)
		if m == nil {
			t.Fatalf("no data-%s", name)
		}
		var out []float64
		for _, f := range strings.Fields(string(m[1])) {
			v, err := strconv.ParseFloat(f, 64)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, v)
		}
		return out
	}
	e, turn, tilt, origin := numbers("eye"), numbers("turn")[0]*math.Pi/180, numbers("tilt")[0]*math.Pi/180, numbers("origin")
	st, ct, sk, ck := math.Sin(turn), math.Cos(turn), math.Sin(tilt), math.Cos(tilt)
	out := eyeOf{eye: [3]float64{e[0], e[1], e[2]}, right: [3]float64{ct, 0, st}, forward: [3]float64{st * ck, -sk, -ct * ck}, scale: numbers("scale")[0], x: origin[0], y: origin[1]}
	r, f := out.right, out.forward
	out.up = [3]float64{r[1]*f[2] - r[2]*f[1], r[2]*f[0] - r[0]*f[2], r[0]*f[1] - r[1]*f[0]}
	return out
}

func (e eyeOf) project(x, y, z float64) (px, py float64) {
	d := [3]float64{x - e.eye[0], y - e.eye[1], z - e.eye[2]}
	dot := func(v [3]float64) float64 { return d[0]*v[0] + d[1]*v[1] + d[2]*v[2] }
	w := dot(e.forward)
	return e.x + e.scale*dot(e.right)/w, e.y - e.scale*dot(e.up)/w
}

// onArc returns how far a place is from an ellipse written as two arcs, as a share of its radius there times the long axis.
func onArc(t testing.TB, d string, x, y float64) float64 {
	t.Helper()
	steps := testsheet.PathSteps(t, d)
	if len(steps) < 3 || steps[1].Verb != 'A' || steps[2].Verb != 'A' {
		t.Fatalf("no two arcs: %s", d)
	}
	arc := steps[1].Numbers
	cx, cy := arcCentre(steps[0].Numbers, arc)
	sin, cos := math.Sincos(arc[2] * math.Pi / 180)
	u, v := ((x-cx)*cos+(y-cy)*sin)/arc[0], ((y-cy)*cos-(x-cx)*sin)/arc[1]
	return math.Abs(math.Hypot(u, v)-1) * arc[0]
}

// arcCentre returns the centre of an arc that goes on from a place, as SVG defines it (SVG 1.1, F.6.5).
func arcCentre(from, arc []float64) (x, y float64) {
	rx, ry, to := arc[0], arc[1], arc[5:]
	sin, cos := math.Sincos(arc[2] * math.Pi / 180)
	dx, dy := (from[0]-to[0])/2, (from[1]-to[1])/2
	u, v := cos*dx+sin*dy, cos*dy-sin*dx
	k := math.Sqrt(math.Max(0, (rx*rx*ry*ry-rx*rx*v*v-ry*ry*u*u)/(rx*rx*v*v+ry*ry*u*u)))
	if arc[3] == arc[4] {
		k = -k
	}
	cu, cv := k*rx*v/ry, -k*ry*u/rx
	return cos*cu - sin*cv + (from[0]+to[0])/2, sin*cu + cos*cv + (from[1]+to[1])/2
}

// fromLine returns how far p is from the line from a to b.
func fromLine(p, a, b draft.Point) float64 {
	way := b.Sub(a)
	share := math.Max(0, math.Min(1, p.Sub(a).Dot(way)/math.Max(way.Dot(way), 1e-12)))
	return float64(p.Sub(a.Lerp(b, share)).Len())
}

// TestOthersCanProject: by the numbers on the SVG's root a stranger's projection of wheels, counted wheels and A-pillars falls on what is
// drawn. The ids, the numbers and the formulas are this file's contract with others.
func TestOthersCanProject(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ segment, camera, paper string }{
		{"suv", "front-quarter", "A3"}, {"mid-engine", "front-high", "A1"}, {"pickup", "rear-low", "A4"}, {"convertible", "rear-quarter", "A3"}, {"van", "front-long", "letter"},
	} {
		p, set := testsheet.Plan(t, c.segment), shotSetting(t, c.paper, c.camera)
		set.Guides = request.PerspectiveView.Guides() // asked for, so that the wheel behind the doors is drawn too
		svg := testsheet.SvgOf(t, shotPages(t, p, set, request.Full)[0])
		f, e := testsheet.ReadSVG(t, svg), readEye(t, svg)
		if len(f.Repeated) > 0 || len(f.Transforms) > 0 {
			t.Errorf("%v: ids twice %v, transforms %v", c, f.Repeated, f.Transforms)
		}
		s := view.NewSolid(p)
		for _, w := range s.Wheels() {
			shape, ok := f.Shapes["wheel-"+w.Name]
			if !ok {
				t.Fatalf("%v: no wheel-%s", c, w.Name)
			}
			for i := range 360 {
				a := float64(i) * math.Pi / 180
				x, y := e.project(float64(w.Centre.X)+float64(w.Radius)*math.Cos(a), float64(w.Centre.Y)+float64(w.Radius)*math.Sin(a), float64(w.Centre.Z))
				if off := onArc(t, shape.At["d"], x, y); off > .02 {
					t.Errorf("%v: %s is off by %.4f mm", c, w.Name, off)
					break
				}
			}
		}
		x, y := e.project(1, 1, float64(s.Wheels()[0].Centre.Z)) // the top of the first wheel between
		if off := onArc(t, f.Shapes["between-1"].At["d"], x, y); off > .02 {
			t.Errorf("%v: between-1 is off by %.4f mm", c, off)
		}
		for _, id := range []string{"pillar-left", "pillar-right", "horizon", "box", "centre-line"} {
			if _, ok := f.Shapes[id]; !ok && !(id == "horizon" && c.camera == "front-high") {
				t.Errorf("%v: no %s", c, id)
			}
		}
		head := testsheet.PathSteps(t, f.Shapes["pillar-left"].At["d"])
		x, y = e.project(float64(p.PillarFoot().X), float64(p.PillarFoot().Y), float64(s.HalfWidth(p.PillarFoot())))
		far := math.Inf(1) // the line begins at the cowl, which lies lower or higher
		for i := 1; i < len(head); i++ {
			a, b := head[i-1].Numbers, head[i].Numbers
			far = math.Min(far, fromLine(draft.Point{X: geom.MM(x), Y: geom.MM(y)}, draft.Point{X: geom.MM(a[0]), Y: geom.MM(a[1])}, draft.Point{X: geom.MM(b[0]), Y: geom.MM(b[1])}))
		}
		wheel := 2 * testsheet.PathSteps(t, f.Shapes["wheel-front-left"].At["d"])[1].Numbers[0]
		if far > .018*wheel { // the outline's own screen is bowed
			t.Errorf("%v: the A-pillar passes its foot at %.3f mm", c, far)
		}
		last := head[len(head)-1].Numbers
		from := 1.
		if p.Profile.Form == segments.Open { // the frame's upper corner belongs to the header: the pillar ends on the way there
			from = .6
		}
		for far = math.Inf(1); from <= 1; from += .01 {
			end := p.PillarFoot().Lerp(p.PillarHead(), from)
			x, y = e.project(float64(end.X), float64(end.Y), float64(s.HalfWidth(end)))
			far = min(far, math.Hypot(last[0]-x, last[1]-y))
		}
		if far > 2 { // the header's corner is round
			t.Errorf("%v: the A-pillar's head is off by %.2f mm", c, far)
		}
	}
}

// TestPerspectiveMirrored: facing right the numbers for others lead, mirrored about the middle of the page, to where things are drawn; the
// drawing space's middle lies elsewhere, nearer to the filing edge or not.
func TestPerspectiveMirrored(t *testing.T) {
	t.Parallel()
	p := testsheet.Plan(t, "mid-engine")
	s := view.NewSolid(p)
	wheels := s.Wheels()
	circles := wheels[:]
	for k := range counting.WholeWheels(p.WheelsBetween()) {
		circles = append(circles, view.Wheel{Name: fmt.Sprintf("between-%d", k+1), Radius: .5, Centre: view.Point3{X: geom.Wheels(k + 1), Y: .5, Z: circles[0].Centre.Z}})
	}
	for i, name := range []string{"A3", "A4", "A1"} {
		set := shotSetting(t, name, "front-quarter")
		set.Facing, set.Frame = request.Right, i == 1
		set.Guides = request.PerspectiveView.Guides() // asked for, so that the wheel behind the doors is drawn too
		page := shotPages(t, p, set, request.Full)[0]
		svg := testsheet.SvgOf(t, page)
		f, e := testsheet.ReadSVG(t, svg), readEye(t, svg)
		for _, c := range circles {
			shape, ok := f.Shapes["wheel-"+c.Name]
			if !ok {
				shape = f.Shapes[c.Name]
			}
			for k := range 12 {
				a := float64(k) * math.Pi / 6
				x, y := e.project(float64(c.Centre.X)+float64(c.Radius)*math.Cos(a), float64(c.Centre.Y)+float64(c.Radius)*math.Sin(a), float64(c.Centre.Z))
				if off := onArc(t, shape.At["d"], float64(page.Width)-x, y); off > .02 {
					t.Errorf("%s: %s is off by %.4f mm", name, c.Name, off)
				}
			}
		}
	}
}

// TestNothingOverlapsInPerspective: no words on words or lines, and nothing over the margin, for every segment, from two cameras each;
// papers and facings take turns. Half of the low cameras' pictures are on A4, where the horizon runs among the levels.
func TestNothingOverlapsInPerspective(t *testing.T) {
	t.Parallel()
	eachSegment(t, func(t *testing.T, i int, p layout.Plan) {
		for k, st := range view.Presets() {
			if (i+k)%3 != 0 && !everySetting() { // each takes a tenth of a second
				continue
			}
			papers := onTurn(2*i+k, papers())
			if low := st.Eye > 0 && st.Eye < 1; low && i%2 == 0 && !everySetting() {
				papers = []request.Paper{testsheet.Paper(t, "A4")}
			}
			for _, paper := range papers {
				s := shotSetting(t, paper.Name, st.Name)
				s.Facing = facingOnTurn(i + k/2)
				inOrder(t, request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Full}, Setting: s})
			}
		}
	})
}

// TestPerspectiveTrace has no words in the drawing, and says what wheel fits where another is asked for.
func TestPerspectiveTrace(t *testing.T) {
	t.Parallel()
	s := shotSetting(t, "A4", "front-quarter")
	for _, text := range testsheet.ReadSVG(t, testsheet.SvgOf(t, shotPages(t, testsheet.Plan(t, "suv"), s, request.Trace)[0])).Texts {
		if text.Group != "guide-strip" {
			t.Errorf("%q on a trace sheet", text.Words)
		}
	}
	s.Camera.NearWheel = 300
	_, _, err := Compose(request.Request{Plans: []layout.Plan{testsheet.Plan(t, "suv")}, Kinds: []request.Kind{request.Full}, Setting: s})
	m := regexp.MustCompile(`--near-wheel (\d+)mm fits$`).FindStringSubmatch(err.Error())
	if m == nil {
		t.Fatalf("error %v", err)
	}
	fits, _ := strconv.Atoi(m[1])
	s.Camera.NearWheel = geom.MM(fits)
	shotPages(t, testsheet.Plan(t, "suv"), s, request.Full)
}

// TestCameraRefused: what a camera cannot draw is refused with the segment's name and what would work.
func TestCameraRefused(t *testing.T) {
	t.Parallel()
	s := shotSetting(t, "A3", "front-quarter")
	s.Camera.Spec.Distance = 1
	_, _, err := Compose(request.Request{Plans: []layout.Plan{testsheet.Plan(t, "suv")}, Kinds: []request.Kind{request.Full}, Setting: s})
	if err == nil || !strings.HasPrefix(err.Error(), "suv: ") || !strings.Contains(err.Error(), "the nearest distance that works is ") {
		t.Errorf("error %v", err)
	}
}

// TestCameraSquareOn: square on the side and on nose and tail, where wheels are circles and where they are nearly edge-on.
func TestCameraSquareOn(t *testing.T) {
	t.Parallel()
	for i, turn := range []geom.Degrees{0, 90, -90} {
		s := shotSetting(t, "A3", "front-quarter")
		s.Camera.Spec.Turn, s.Guides = turn, request.PerspectiveView.Guides() // asked for, so that what is hidden is drawn too
		for k, name := range []string{"suv", "mid-engine", "van"} {
			if (i+k)%3 == 1 && !everySetting() {
				continue
			}
			page := shotPages(t, testsheet.Plan(t, name), s, request.Full)[0]
			f := testsheet.ReadSVG(t, testsheet.SvgOf(t, page))
			for _, id := range []string{"wheel-front-left", "wheel-rear-right", "between-1", "pillar-left", "box"} {
				if _, ok := f.Shapes[id]; !ok {
					t.Errorf("%s, turn %v: no %s", name, turn, id)
				}
			}
			want := []string{"from the side, in perspective", "from the front, in perspective", "from the rear, in perspective"}[i]
			if said := saidBy(f); !strings.Contains(said, want) {
				t.Errorf("%s, turn %v: no %q among %s", name, turn, want, said)
			}
		}
	}
}

// TestHorizonOffThePage is told in words, with where parallels meet.
func TestHorizonOffThePage(t *testing.T) {
	t.Parallel()
	svg := testsheet.SvgOf(t, shotPages(t, testsheet.Plan(t, "suv"), shotSetting(t, "A3", "front-high"), request.Full)[0])
	f, e := testsheet.ReadSVG(t, svg), readEye(t, svg)
	if _, ok := f.Shapes["horizon"]; ok {
		t.Fatal("the horizon lies on the page")
	}
	const top, tilt = 10, 12 // of the drawing space, mm; of front-high, degrees
	above := top - (e.y - e.scale*math.Tan(tilt*math.Pi/180))
	if said := saidBy(f); strings.Count(said, fmt.Sprintf("this margin, %.0f mm above", above)) != 2 {
		t.Errorf("the horizon lies %.2f mm above; the sheet says %s", above, said)
	}
}
