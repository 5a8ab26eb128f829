package view

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
	"testing"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// oneOfEachForm names a segment of every form.
func oneOfEachForm() []string {
	return []string{"minivan", "suv", "sedan", "mid-engine", "pickup", "convertible"}
}

// shot is a scene with its lines: wheels and contour included, without what only explains the body.
type shot struct {
	*Scene
	contour, lines []Line
}

// made holds solids and shots that several tests look at.
var made sync.Map

// once returns what make makes, made once for all tests.
func once[T any](key string, make func() T) T {
	f, _ := made.LoadOrStore(key, sync.OnceValue(make))
	return f.(func() T)()
}

func solidOf(t *testing.T, name string) *Solid {
	t.Helper()
	return once(name, func() *Solid { return NewSolid(typical(t, name)) })
}

// shotOf takes a typical vehicle by one of the parallel cameras or of the presets.
func shotOf(t *testing.T, name, camera string) shot {
	t.Helper()
	return once(name+", "+camera, func() shot {
		solid := solidOf(t, name)
		c, ok := map[string]Camera{"front": Front(), "rear": Rear(), "top": Top(), "side": sideCamera()}[camera]
		if !ok {
			spec, _ := FindPreset(camera)
			var err error
			if c, err = spec.Camera(solid.plan); err != nil {
				t.Fatal(err)
			}
		}
		out := shot{Scene: NewScene(solid, c)}
		out.contour = out.Contour()
		explains := func(l Line) bool { return l.Kind == SectionLine || l.Kind == CentreLine }
		lines := once(name+"'s lines", func() []Line { return slices.DeleteFunc(solid.Lines(), explains) })
		out.lines = slices.Concat(lines, out.contour)
		for _, w := range solid.Wheels() {
			out.lines = append(out.lines, out.WheelLines(w)...)
		}
		return out
	})
}

// distance is how far q lies from the nearest stroke.
func distance(q ImagePoint, strokes []Stroke) float64 {
	best := math.Inf(1)
	for _, s := range strokes {
		for i := 1; i < len(s.Points); i++ {
			a, d := s.Points[i-1], s.Points[i].Sub(s.Points[i-1])
			if math.Abs(float64(q.X-a.X))-math.Abs(float64(d.X)) > best || math.Abs(float64(q.Y-a.Y))-math.Abs(float64(d.Y)) > best {
				continue
			}
			t := 0.
			if n := d.Dot(d); n > 0 {
				t = math.Max(0, math.Min(1, q.Sub(a).Dot(d)/n))
			}
			best = math.Min(best, float64(q.Sub(a.Add(d.Times(t))).Len()))
		}
	}
	return best
}

// The contour and the drawn edges leave no gap: wherever the vehicle ends on the picture a line runs, but for the view into a wheel
// house past the tyre. Picture and lines are found in different ways: one by what covers a place, the other on the surface.
func TestOutlineIsClosed(t *testing.T) {
	t.Parallel()
	const gap, beside = .05, .2 // wheels
	for i, name := range oneOfEachForm() {
		square := [2][2]string{{"front", "top"}, {"rear", "side"}}[i%2]
		for _, camera := range append(square[:], "front-quarter", "rear-quarter") {
			sc := shotOf(t, name, camera)
			unit := 1.
			if !sc.Camera.isParallel {
				unit = 1 / float64(sc.Camera.Spec.Distance)
			}
			var strokes, tyres []Stroke
			for _, l := range sc.lines {
				runs := sc.Strokes(l)
				if l.Kind >= TyreOuterLine {
					tyres = append(tyres, runs...)
				}
				strokes = append(strokes, slices.DeleteFunc(slices.Clone(runs), func(s Stroke) bool { return s.Hidden })...)
			}
			worst := 0.
			for _, loop := range sc.Silhouette() {
				for i := 0; i < len(loop); i += 16 {
					off := distance(loop[i], strokes) / unit
					if off > worst && distance(loop[i], tyres)/unit > beside {
						worst = off
					}
				}
			}
			if worst > gap {
				t.Errorf("%s, %s: the outline has a gap of %.3f w", name, camera, worst)
			}
		}
	}
}

// On every place of a contour the surface stands edge-on to the line of sight.
func TestContourTurnsAway(t *testing.T) {
	t.Parallel()
	for _, name := range oneOfEachForm() {
		for _, camera := range []string{"front-quarter", "rear-quarter", "side"} {
			sc := shotOf(t, name, camera)
			edges := sc.solid.places
			for _, l := range sc.contour {
				for i, q := range l.Points {
					if x := float64(q.X); math.Abs(x-edges.foot.x) < .02 || math.Abs(x-edges.opening.hi) < .02 || math.Abs(x-edges.head.x) < .02 {
						continue // edges: the deck's crown begins with no depth, and an open car's screen meets the frame's rail
					}
					if math.Abs(float64(q.Y-sc.solid.plan.BeltAt(q.X))) < 1e-3 {
						continue // the side glass begins with an edge
					}
					if facing := math.Abs(l.normals[i].Dot(sc.Camera.sightLine(q).Unit())); !(facing < 1e-4) {
						t.Fatalf("%s, %s: contour at %v faces by %.1e", name, camera, q, facing)
					}
				}
			}
		}
	}
}

// Seen strokes run in small steps: no line jumps over a corner or to the other side.
func TestStrokesAreFine(t *testing.T) {
	t.Parallel()
	for _, name := range segments.Names() {
		sc := shotOf(t, name, "front-quarter")
		for _, l := range sc.lines {
			for _, stroke := range sc.Visible(l) {
				for i, q := range stroke.Points {
					if !(math.Abs(float64(q.X)) < 10 && math.Abs(float64(q.Y)) < 10) {
						t.Fatalf("%s: %s runs to %v", name, l.Name, q)
					}
					if i > 0 && float64(q.Sub(stroke.Points[i-1]).Len()*ImageLength(sc.Camera.Spec.Distance)) > .08 {
						t.Errorf("%s: %s jumps from %v to %v", name, l.Name, stroke.Points[i-1], q)
					}
				}
			}
		}
	}
}

// What stands before a line hides it: a rod behind the vehicle is seen only beyond its ends, one before it whole.
func TestHiding(t *testing.T) {
	sc := shotOf(t, "suv", "side")
	rod := func(z float64) Line { return Line{Name: "rod", Points: []Point3{point3(-3, 1, z), point3(8, 1, z)}} }
	if runs := sc.Strokes(rod(2)); len(runs) != 1 || runs[0].Hidden {
		t.Errorf("a rod before the vehicle: %d runs", len(runs))
	}
	runs := sc.Strokes(rod(-2))
	if len(runs) != 3 || runs[0].Hidden || !runs[1].Hidden || runs[2].Hidden {
		t.Fatalf("a rod behind the vehicle: %d runs", len(runs))
	}
	outline := sc.solid
	nose, tail := outline.face.value(1), outline.back.value(1)
	if from := float64(runs[1].Points[0].X); math.Abs(from-nose) > 1e-3 {
		t.Errorf("it is hidden from %.4f; want %.4f", from, nose)
	}
	if to := float64(runs[2].Points[0].X); math.Abs(to-tail) > 1e-3 {
		t.Errorf("it is hidden to %.4f; want %.4f", to, tail)
	}
}

// The side camera gives the side view back: above the arches the solid's silhouette is the outline's own line. Only along the screen
// it is fuller, by the screen's bow; an open car has its seats besides.
func TestSideViewIsTheOutline(t *testing.T) {
	t.Parallel()
	const within = 2e-3 // wheels: chords of the mesh and of the silhouette's cells
	for _, name := range segments.Names() {
		p := typical(t, name)
		if p.Profile.Form == segments.Open {
			continue
		}
		sc := shotOf(t, name, "side")
		var outline Stroke
		for _, q := range sc.solid.outline.Line("body").Flatten(96)[0] {
			outline.Points = append(outline.Points, ImagePoint{X: ImageLength(q.X), Y: ImageLength(-q.Y)})
		}
		checked := 0
		for _, loop := range sc.Silhouette() {
			for i := 0; i < len(loop); i += 3 {
				x, y := loop[i].X, -loop[i].Y
				if y < ImageLength(p.Belt())*.75 {
					continue
				}
				checked++
				if off := distance(loop[i], []Stroke{outline}); off > within {
					t.Errorf("%s: the silhouette at (%.3f, %.3f) lies %.6f off the outline", name, x, y, off)
				}
			}
		}
		if checked < 50 {
			t.Errorf("%s: only %d places checked", name, checked)
		}
	}
}

// Whatever a profile's solid block may say and wherever a camera may stand, every line can be drawn.
func TestAnySolidCanBeDrawn(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 6))
	between := func(a, b float64) float64 { return a + float64(r.Float64()*(b-a)) }
	names := segments.Names()
	for n := range names {
		p, err := segments.Find(names[n])
		if err != nil {
			t.Fatal(err)
		}
		own := *p
		for _, k := range segments.Numbers(&own.Solid) {
			k.Set(between(k.Lo, k.Hi))
		}
		plan, ok := anywhere(&own, r)
		if !ok {
			continue
		}
		c, err := CameraSpec{
			Turn: geom.Degrees(between(-90, 90)), Tilt: geom.Degrees(between(-10, 20)),
			Eye: geom.Wheels(between(.1, 5)), Lens: geom.MM(between(20, 170)),
		}.Camera(plan)
		if err != nil {
			continue // a refusal is an answer
		}
		s := NewSolid(plan)
		sc := NewScene(s, c)
		for _, l := range append(s.Lines(), sc.Contour()...) {
			for _, run := range sc.Strokes(l) {
				for _, q := range run.Points {
					if sum := float64(q.X + q.Y); math.IsNaN(sum) || math.IsInf(sum, 0) {
						t.Fatalf("%s: %s runs to %v", p.Name, l.Name, q)
					}
				}
			}
		}
	}
}

// The panes are those that face the eye, and they lie on the vehicle.
func TestPanes(t *testing.T) {
	for _, c := range []struct{ view, want string }{
		{"front-quarter", "screen glass-left"}, {"rear-quarter", "glass-left rear-screen"},
		{"side", "screen glass-left rear-screen"}, {"front", "screen glass-left glass-right"},
	} {
		sc := shotOf(t, "suv", c.view)
		var names []string
		for _, l := range sc.solid.glass() {
			if len(sc.pane(l)) > 2 {
				names = append(names, l.Name)
			}
		}
		for i, pane := range sc.Panes() {
			middle := ImagePoint{}
			for _, q := range pane {
				middle = middle.Add(q.Times(1 / float64(len(pane))))
			}
			if !sc.Covers(middle) {
				t.Errorf("%s: %s lies beside the vehicle", c.view, names[i])
			}
		}
		if got := strings.Join(names, " "); got != c.want {
			t.Errorf("%s shows %s; want %s", c.view, got, c.want)
		}
	}
}
