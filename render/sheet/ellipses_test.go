package sheet

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render/request"
)

func ellipsesSetting(t testing.TB, paperName string) request.Setting {
	s := shotSetting(t, paperName, "front-quarter")
	s.Views = []request.View{request.EllipsesView}
	return s
}

// TestLadderOfEllipses: the degrees under each wheel are those of the arcs that are drawn, they fall as the wheel turns away, and the circle's own
// projection lies on the arcs.
func TestLadderOfEllipses(t *testing.T) {
	t.Parallel()
	p := testsheet.Plan(t, "suv")
	f := testsheet.ReadSVG(t, testsheet.SvgOf(t, shotPages(t, p, ellipsesSetting(t, "A3"), request.Full)[0]))
	for row, name := range []string{"front-low", "front-quarter", "front-high"} {
		last, lastOff := 90., 90.
		for turn := 10; turn <= 80; turn += 10 {
			d := f.Shapes[fmt.Sprintf("wheel-%d-%d", row+1, turn)].At["d"]
			arc := testsheet.PathSteps(t, d)[1].Numbers
			degrees := math.Asin(arc[1]/arc[0]) * 180 / math.Pi
			if degrees >= last {
				t.Errorf("%s: %.1f° at a turn of %d°, no less than %.1f°", name, degrees, turn, last)
			}
			last = degrees
			if !strings.Contains(strings.Join(testsheet.WordsOn(f), "\n"), fmt.Sprintf("%.0f°", degrees)) {
				t.Errorf("%s, turn %d°: no %.0f° on the sheet", name, turn, degrees)
			}
			st, _ := view.FindPreset(name)
			own, err := st.Camera(p)
			if err != nil {
				t.Fatal(err)
			}
			st.Turn, st.Distance = geom.Degrees(turn), own.Spec.Distance
			cam, err := st.Camera(p)
			if err != nil {
				t.Fatal(err)
			}
			checkLadderWheel(t, d, cam, middleWheel(p))
			// The sheet says that the short axis misses the axle most where the ellipse is round.
			said := wordUnder(t, f, row*8+turn/10-1)
			if said > lastOff {
				t.Errorf("%s, turn %d°: off by %.1f°, more than %.1f° before", name, turn, said, lastOff)
			}
			lastOff = said
			if name == "front-low" && math.Abs(degrees-float64(90-turn)) > .5 { // an eye near the axle's height: the rest of a right angle
				t.Errorf("%s, turn %d°: an ellipse of %.1f°", name, turn, degrees)
			}
		}
	}
}

// middleWheel is the front wheel moved to the middle of the vehicle's length and width, where the sheet of ellipses shows it.
func middleWheel(p layout.Plan) view.Wheel {
	w := view.NewSolid(p).Wheels()[0]
	w.Inner.Z -= w.Centre.Z
	w.Centre.Z = 0
	w.Centre.X = (p.Nose() + p.Tail()) / 2
	w.Inner.X = w.Centre.X
	return w
}

// checkLadderWheel projects the circle's places and lays them over the arcs: they may be moved and scaled, but not turned.
func checkLadderWheel(t *testing.T, d string, cam view.Camera, w view.Wheel) {
	t.Helper()
	steps := testsheet.PathSteps(t, d)
	cx, cy := arcCentre(steps[0].Numbers, steps[1].Numbers)
	e, err := cam.WheelImage(w)
	if err != nil {
		t.Fatal(err)
	}
	scale := steps[1].Numbers[0] / float64(e.Outer.Long)
	for i := range 360 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 180)
		q := cam.Project(view.Point3{X: w.Centre.X + geom.Wheels(float64(w.Radius)*cos), Y: w.Centre.Y + geom.Wheels(float64(w.Radius)*sin), Z: w.Centre.Z}).Sub(e.Outer.Centre)
		if off := onArc(t, d, cx+scale*float64(q.X), cy+scale*float64(q.Y)); off > .01 {
			t.Fatalf("an arc is off by %.4f mm", off)
		}
	}
}

// TestLadderIsInOrder: nothing overlaps on any paper, and a camera of one's own has a row.
func TestLadderIsInOrder(t *testing.T) {
	t.Parallel()
	for i, paper := range papers() {
		s := ellipsesSetting(t, paper.Name)
		s.Facing = facingOnTurn(i)
		if i%2 == 1 {
			s.Camera.Spec.EyeMM = 2200
		}
		page := shotPages(t, testsheet.Plan(t, "mid-engine"), s, request.Full)[0]
		for _, fault := range testsheet.Faults(page) {
			t.Errorf("%s: %s", paper.Name, fault)
		}
		if own := strings.Contains(string(testsheet.SvgOf(t, page)), "this camera"); own != (i%2 == 1) {
			t.Errorf("%s: a row of its own: %v", paper.Name, own)
		}
	}
}

// wordUnder reads the "off the axle 1.2°" under the n-th wheel of the sheet, in degrees: 0 where nothing is said, which is never said.
func wordUnder(t *testing.T, f testsheet.SVG, n int) (off float64) {
	t.Helper()
	words := testsheet.WordsOn(f)
	for i, w := range words {
		if !strings.HasPrefix(w, "turn ") {
			continue
		}
		if n--; n >= 0 {
			continue
		}
		if _, err := fmt.Sscanf(words[i+1], "off the axle %f°", &off); err == nil && off == 0 {
			t.Errorf("%s is said to be off by nothing", w)
		}
		return off
	}
	t.Fatal("no such wheel")
	return 0
}
