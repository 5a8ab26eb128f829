package geom_test

import (
	"math"
	"testing"

	"hubrule/internal/geom"
)

// is compares numbers that are known in closed form or to the digits an outside program printed.
func is(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.Abs(got-want) > within {
		t.Errorf("%s is %.12g; want %.12g", what, got, want)
	}
}

// A circle on the ground before an upright picture: eye height, focal length and radius 1, centre at distance 3. Closed form (CALC):
// the ellipse's centre lies 3/8 under the horizon, its half axes are 1/8 and 1/√8.
func TestImageOfGroundCircle(t *testing.T) {
	e, ok := geom.ImageOfCircle[geom.MM](geom.Homogeneous{1, 0, 0}, geom.Homogeneous{0, 0, 1}, geom.Homogeneous{0, 1, 3})
	if !ok {
		t.Fatal("no ellipse")
	}
	is(t, "centre", float64(e.Centre.Y), 3./8, 1e-15)
	is(t, "short half axis", float64(e.Short), 1./8, 1e-15)
	is(t, "long half axis", float64(e.Long), 1/math.Sqrt(8), 1e-15)
	is(t, "angle", e.Angle, 0, 1e-15)
}

// Seen square on a circle stays one, wherever it lies: its short axis is never the longer one, not by the last digit either.
func TestImageSquareOn(t *testing.T) {
	for i := range 1000 {
		x, y, depth := float64(i)/300, float64(i%17)/20, 4+float64(i%29)/7
		e, ok := geom.ImageOfCircle[geom.MM](geom.Homogeneous{.5, 0, 0}, geom.Homogeneous{0, -.5, 0}, geom.Homogeneous{x, y, depth})
		if !ok || e.Short > e.Long {
			t.Fatalf("half axes %v and %v", e.Long, e.Short)
		}
		is(t, "short half axis", float64(e.Short), .5/depth, 1e-9)
	}
}

// A wheel on the optical axis turned by 30° between its plane and the line of sight, radius .35, depth 4. Closed form (CALC).
func TestImageOfTurnedWheel(t *testing.T) {
	sin, cos := math.Sincos(math.Pi / 6)
	e, ok := geom.ImageOfCircle[geom.MM](geom.Homogeneous{.35 * sin, 0, .35 * cos}, geom.Homogeneous{0, .35, 0}, geom.Homogeneous{0, 0, 4})
	if !ok {
		t.Fatal("no ellipse")
	}
	is(t, "centre", math.Abs(float64(e.Centre.X)), 0.0033344003, 1e-10)
	is(t, "half width", float64(e.Half.X), 0.0440026716, 1e-10)
	is(t, "half height", float64(e.Half.Y), 0.0877523078, 1e-10)
}

// A wheel seen by a camera of 1500 px focal length with its centre at (960, 540), turned by the rotation vector (0.10, −0.60, 0.03) and
// moved by (−1.20, 0.55, 6.0); radius .33. OpenCV 4.6 projectPoints and R agree on these numbers to 1e-9 (SEEN).
func TestImageAgainstOpenCV(t *testing.T) {
	r := rodrigues(0.10, -0.60, 0.03)
	pixel := func(x, y, z float64) geom.Homogeneous {
		return geom.Homogeneous{1500*x + 960*z, 1500*y + 540*z, z}
	}
	a := pixel(.33*r[0][0], .33*r[1][0], .33*r[2][0])
	b := pixel(.33*r[0][1], .33*r[1][1], .33*r[2][1])
	c := pixel(-1.20, .55, 6)
	e, ok := geom.ImageOfCircle[geom.MM](a, b, c)
	if !ok {
		t.Fatal("no ellipse")
	}
	is(t, "hub x", c[0]/c[2], 660, 1e-9)
	is(t, "hub y", c[1]/c[2], 677.5, 1e-9)
	is(t, "centre x", float64(e.Centre.X), 657.608079048, 1e-9)
	is(t, "centre y", float64(e.Centre.Y), 677.253311822, 1e-9)
	is(t, "long half axis", float64(e.Long), 83.784663563, 1e-9)
	is(t, "short half axis", float64(e.Short), 75.145277236, 1e-9)
	is(t, "angle", math.Mod(e.Angle*180/math.Pi+180, 180), 121.044302928, 1e-8)
}

// rodrigues returns the rotation about a vector by its length.
func rodrigues(x, y, z float64) (m [3][3]float64) {
	n := math.Sqrt(x*x + y*y + z*z)
	sin, cos := math.Sincos(n)
	k := [3]float64{x / n, y / n, z / n}
	cross := [3][3]float64{{0, -k[2], k[1]}, {k[2], 0, -k[0]}, {-k[1], k[0], 0}}
	for i := range 3 {
		for j := range 3 {
			m[i][j] = k[i]*k[j]*(1-cos) + cross[i][j]*sin
			if i == j {
				m[i][j] += cos
			}
		}
	}
	return m
}

// Where a circle reaches the plane of the eye its image is a parabola, behind it a hyperbola: neither is taken for an ellipse.
func TestNoEllipse(t *testing.T) {
	for _, depth := range []float64{1, .5, 0, -3} {
		if _, ok := geom.ImageOfCircle[geom.MM](geom.Homogeneous{0, 0, 1}, geom.Homogeneous{0, 1, 0}, geom.Homogeneous{0, 0, depth}); ok {
			t.Errorf("a circle of radius 1 at depth %g has an ellipse", depth)
		}
	}
}

// A circle seen edge-on is a segment: its short axis is 0.
func TestEdgeOn(t *testing.T) {
	e, ok := geom.ImageOfCircle[geom.MM](geom.Homogeneous{0, 0, .5}, geom.Homogeneous{0, .5, 0}, geom.Homogeneous{0, 0, 8})
	if !ok || e.Short > 1e-12 || e.Degrees() > 1e-9 {
		t.Errorf("%+v, %v", e, ok)
	}
	is(t, "half length", float64(e.Long), .5/math.Sqrt(64-.25), 1e-12)
}

// An ellipse carried into a mirrored space still holds the mirrored points, and support and axes grow with the scale.
func TestPlaceEllipse(t *testing.T) {
	e, _ := geom.ImageOfCircle[geom.Wheels](geom.Homogeneous{.4, .1, .3}, geom.Homogeneous{0, .5, 0}, geom.Homogeneous{1, 2, 7})
	pl := geom.Similarity[geom.Wheels, geom.MM]{
		At:    func(p geom.Point[geom.Wheels]) point { return point{X: geom.MM(100 - 60*p.X), Y: geom.MM(60 * p.Y)} },
		Scale: 60, Mirror: true,
	}
	m := geom.TransformEllipse(e, pl)
	for i := range 12 {
		q := pl.At(e.At(float64(i) * .55)).Sub(m.Centre)
		sin, cos := math.Sincos(-m.Angle)
		x, y := float64(q.X)*cos-float64(q.Y)*sin, float64(q.X)*sin+float64(q.Y)*cos
		is(t, "equation", math.Pow(x/float64(m.Long), 2)+math.Pow(y/float64(m.Short), 2), 1, 1e-12)
	}
	n := point{X: .6, Y: .8}
	most := 0.
	for i := range 3600 {
		q := m.At(float64(i) * math.Pi / 1800).Sub(m.Centre)
		most = math.Max(most, q.Dot(n))
	}
	is(t, "support", float64(m.Support(n)), most, 1e-4)
}

func TestPoint3(t *testing.T) {
	type p3 = geom.Point3[geom.Wheels]
	x, y := p3{X: 1}, p3{Y: 1}
	if z := x.Cross(y); z != (p3{Z: 1}) {
		t.Errorf("x × y = %v", z)
	}
	if u := (p3{X: 3, Z: 4}).Unit(); u.Len() != 1 || u.Mirror().Z != -u.Z {
		t.Errorf("unit %v", u)
	}
	if (p3{}).Unit() != (p3{}) {
		t.Error("the zero step has no direction")
	}
	if m := x.Lerp(y, .25); m != (p3{X: .75, Y: .25}) {
		t.Errorf("mix %v", m)
	}
}
