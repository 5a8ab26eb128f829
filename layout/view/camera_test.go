package view

import (
	"math"
	"math/rand/v2"
	"testing"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

func typical(t testing.TB, name string) layout.Plan {
	t.Helper()
	p, err := segments.Find(name)
	if err != nil {
		t.Fatal(err)
	}
	return layout.Typical(p)
}

// sideCamera looks at the vehicle's left side, nose to the left: the side view itself.
func sideCamera() Camera { return parallelCamera(Point3{Z: -1}, Point3{X: 1}) }

// anyCamera stands anywhere around the origin.
func anyCamera(r *rand.Rand) Camera {
	between := func(a, b float64) float64 { return a + r.Float64()*(b-a) }
	return pinhole(CameraSpec{
		Turn: geom.Degrees(between(-89, 89)), Tilt: geom.Degrees(between(-10, 30)),
		Eye: geom.Wheels(between(.05, 6)), Distance: geom.Wheels(between(2, 40)),
	}, Point3{X: geom.Wheels(between(-2, 6))})
}

// anyCircle returns a circle's centre and two half diameters at right angles: every other one is a wheel.
func anyCircle(r *rand.Rand, i int) (c, a, b Point3) {
	c = point3(-1+6*r.Float64(), .2+1.3*r.Float64(), -1.5+3*r.Float64())
	radius := .2 + .6*r.Float64()
	a, b = Point3{X: 1}, Point3{Y: 1}
	if i%2 == 1 {
		a = point3(r.NormFloat64(), r.NormFloat64(), r.NormFloat64()).Unit()
		b = a.Cross(point3(r.NormFloat64(), r.NormFloat64(), r.NormFloat64())).Unit()
	}
	return c, a.Times(radius), b.Times(radius)
}

// Every ellipse against the projection of 3,600 points of its circle, for 1,000 random cameras: none lies off it by more than a
// millionth of its long axis. Every refused circle comes nearer than 0.25 w to the plane of the eye.
func TestEllipsesAgainstProjectedPoints(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(4, 2))
	worst, measured, refused := 0., 0, 0
	for i := 0; measured < 1000; i++ {
		c := anyCamera(r)
		centre, a, b := anyCircle(r, i)
		e, err := c.Circle(centre, a, b)
		nearest := math.Inf(1)
		for k := range 3600 {
			sin, cos := math.Sincos(float64(k) * math.Pi / 1800)
			p := centre.Add(a.Times(cos)).Add(b.Times(sin))
			nearest = math.Min(nearest, float64(c.Depth(p)))
			if err == nil {
				worst = math.Max(worst, off(e, c.Project(p)))
			}
		}
		if err != nil {
			refused++
			if nearest > .25+1e-5 {
				t.Fatalf("a circle is refused whose nearest depth is %g", nearest)
			}
			continue
		}
		measured++
	}
	if worst > 1e-6 {
		t.Errorf("a point lies off its ellipse by %.1e of the long axis", worst)
	}
	t.Logf("%d measured, worst %.1e; %d refused", measured, worst, refused)
}

// off is about how far q lies off e, in long axes: the ellipse's equation over its gradient, to the first order.
func off(e Ellipse, q ImagePoint) float64 {
	d := q.Sub(e.Centre)
	sin, cos := math.Sincos(e.Angle)
	x, y := float64(d.X)*cos+float64(d.Y)*sin, -float64(d.X)*sin+float64(d.Y)*cos
	a, b := float64(e.Long), float64(e.Short)
	if b < 1e-4*a { // a segment
		return math.Max(math.Abs(y)-b, math.Abs(x)-a) / a
	}
	value := x*x/(a*a) + y*y/(b*b) - 1
	slope := 2 * math.Hypot(x/(a*a), y/(b*b))
	return math.Abs(value) / slope / a
}

// touches tells how far the line through p and q is from touching e, in long axes.
func touches(e Ellipse, p, q ImagePoint) float64 {
	d := q.Sub(p).Unit()
	n := ImagePoint{X: -d.Y, Y: d.X}
	return math.Abs(math.Abs(n.Dot(e.Centre.Sub(p)))-float64(e.Support(n))) / float64(e.Long)
}

// Laws of central projection, each over 500 random cameras: equally spaced points keep the cross-ratio 4/3; parallels meet in
// their vanishing point, level ones on the horizon; the ground line under a wheel touches its ellipse, and so do the tread lines.
func TestLawsOfProjection(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for range 500 {
		c := pinhole(CameraSpec{
			Turn: geom.Degrees(-80 + 160*r.Float64()), Tilt: geom.Degrees(15 * r.Float64()),
			Eye: geom.Wheels(.3 + 4.7*r.Float64()), Distance: geom.Wheels(8 + 22*r.Float64()),
		}, Point3{X: 2})
		z := -2 + 4*r.Float64()
		var q [4]ImagePoint
		for i := range q {
			q[i] = c.Project(point3(float64(i), 0, z))
		}
		if ratio := crossRatio(q); math.Abs(ratio-4./3) > 1e-12 {
			t.Fatalf("cross-ratio %.15g", ratio)
		}
		v, ok := c.Vanishing(Point3{X: 1})
		horizon, _ := c.Horizon()
		if ok {
			far := c.Project(point3(3, 1.7, .5-z))
			near := c.Project(point3(0, 1.7, .5-z))
			for _, line := range [][2]ImagePoint{{q[0], q[3]}, {near, far}} {
				along := line[1].Sub(line[0]).Unit()
				if miss := math.Abs(along.Cross(v.Sub(line[0]))) / math.Max(1, float64(v.Len())); miss > 1e-9 {
					t.Fatalf("a parallel misses the vanishing point by %g", miss)
				}
			}
			if miss := math.Abs(float64(v.Y - horizon)); miss > 1e-9*math.Max(1, float64(v.Len())) {
				t.Fatalf("the vanishing point lies %g off the horizon", miss)
			}
		}
		w := Wheel{Centre: point3(0, .5, 1.24), Inner: point3(0, .5, .92), Radius: .5, rim: .3}
		seen, err := c.WheelImage(w)
		if err != nil {
			t.Fatal(err)
		}
		if miss := touches(seen.Outer, c.Project(point3(-1, 0, 1.24)), c.Project(point3(1, 0, 1.24))); miss > 1e-9 {
			t.Fatalf("a wheel stands off its ground line by %g", miss)
		}
		if miss := off(seen.Outer, c.Project(point3(0, 0, 1.24))); miss > 1e-9 {
			t.Fatalf("a wheel's contact lies off its ellipse by %g", miss)
		}
		for _, tread := range seen.Treads {
			for _, e := range []Ellipse{seen.Outer, seen.Inner} {
				if miss := touches(e, tread[0], tread[1]); seen.HasTreads && miss > 1e-9 {
					t.Fatalf("a tread line misses an edge by %g", miss)
				}
			}
		}
	}
}

// crossRatio of four points on a line.
func crossRatio(q [4]ImagePoint) float64 {
	d := func(i, j int) float64 { return float64(q[j].Sub(q[i]).Len()) }
	return d(0, 2) * d(1, 3) / (d(1, 2) * d(0, 3))
}

// As the eye moves away the perspective tends to the side view, and a wheel's short axis to its axle: the drafting rule (common
// practice), exact only in parallel projection.
func TestFarAwayIsParallel(t *testing.T) {
	side := sideCamera()
	for _, d := range []float64{1e2, 1e4, 1e6} {
		c := pinhole(CameraSpec{Eye: .5, Distance: geom.Wheels(d)}, Point3{X: 2})
		for _, p := range []Point3{point3(0, .5, 0), point3(-1.1, .6, 0), point3(5, 1.1, 1.1), point3(2, 2.3, .9)} {
			flat := side.Project(p)
			q := c.Project(p)
			x, y := float64(q.X)*d+2, float64(q.Y)*d-.5
			if miss := math.Hypot(x-float64(flat.X), y-float64(flat.Y)); miss > 4/d {
				t.Errorf("at %g w a point lies %g off the side view", d, miss)
			}
		}
		c = pinhole(CameraSpec{Turn: 40, Eye: 4, Distance: geom.Wheels(d)}, Point3{})
		seen, err := c.WheelImage(Wheel{Centre: point3(0, .5, 1.24), Inner: point3(0, .5, .92), Radius: .5, rim: .3})
		if err != nil {
			t.Fatal(err)
		}
		axle := seen.Axle[1].Sub(seen.Axle[0])
		turn := math.Abs(math.Remainder(math.Atan2(float64(axle.Y), float64(axle.X))-seen.Outer.Angle-math.Pi/2, math.Pi)) * 180 / math.Pi
		if turn > 500/(d*d) {
			t.Errorf("at %g w the short axis lies %g° off the axle", d, turn)
		}
	}
}

// The parallel cameras are the four views: what they share they show alike.
func TestParallelViewsAgree(t *testing.T) {
	p := point3(1.5, .7, -.4)
	for _, v := range []struct {
		name string
		c    Camera
		want ImagePoint
	}{
		{"side", sideCamera(), ImagePoint{X: 1.5, Y: -.7}}, {"front", Front(), ImagePoint{X: -.4, Y: -.7}},
		{"rear", Rear(), ImagePoint{X: .4, Y: -.7}}, {"top", Top(), ImagePoint{X: 1.5, Y: -.4}},
	} {
		if got := v.c.Project(p); got.Sub(v.want).Len() > 1e-15 {
			t.Errorf("%s shows %v at %v; want %v", v.name, p, got, v.want)
		}
	}
	e, err := sideCamera().Circle(Point3{Y: .5}, Point3{X: .5}, Point3{Y: .5})
	if err != nil || e.Long != .5 || e.Short != .5 {
		t.Errorf("a wheel from the side is %+v, %v", e, err)
	}
	e, err = Front().Circle(Point3{Y: .5}, Point3{X: .5}, Point3{Y: .5})
	if err != nil || e.Long != .5 || e.Short != 0 {
		t.Errorf("a wheel from the front is %+v, %v", e, err)
	}
}
