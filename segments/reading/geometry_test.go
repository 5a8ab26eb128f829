package reading

import (
	"math"
	"testing"
)

// sightingsAt are exact marks.
func sightingsAt(points []vec) []sighting {
	out := make([]sighting, len(points))
	for i, p := range points {
		out[i] = sighting{p, 1}
	}
	return out
}

// near fails where a number is not the one wanted, within a tolerance.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.12g, want %.12g within %g", what, got, want, tolerance)
	}
}

// eightPoints are those of Gander, Golub and Strebel (Least-Squares Fitting of Circles and Ellipses, BIT 34, 1994; MEM); the first six are
// fitted with a circle.
var eightPoints = []vec{{1, 7}, {2, 6}, {5, 8}, {7, 7}, {9, 5}, {3, 7}, {6, 2}, {8, 4}}

// The algebraic circle (Kåsa) of the six points, as NumPy and scikit-image compute it (SEEN).
func TestAlgebraicCircle(t *testing.T) {
	c, ok := algebraicCircle(sightingsAt(eightPoints[:6]))
	if !ok {
		t.Fatal("no circle")
	}
	near(t, "centre", c.centre.x, 4.742331288344, 1e-11)
	near(t, "centre", c.centre.y, 3.835122699387, 1e-11)
	near(t, "radius", c.radius, 4.108761522345, 1e-11)
	if _, ok := algebraicCircle(sightingsAt([]vec{{0, 0}, {1, 2}, {2, 4}})); ok {
		t.Error("three points on a line make a circle")
	}
}

// axes returns the half axes of an ellipse, the long one first, and the direction of the long one in degrees from 0 to 180.
func axes(c conic) (centre vec, long, short, angle float64) {
	centre, s := c.centre()
	mean, half := (s[0][0]+s[1][1])/2, math.Hypot((s[0][0]-s[1][1])/2, s[0][1])
	angle = degrees(math.Atan2(-2*s[0][1], s[1][1]-s[0][0]) / 2)
	return centre, 1 / math.Sqrt(mean-half), 1 / math.Sqrt(mean+half), math.Mod(angle+180, 180)
}

// Ellipses of direct least squares as others compute them.
func TestFitEllipse(t *testing.T) {
	for _, tt := range []struct {
		source                           string
		points                           []vec
		x, y, long, short, angle, within float64
	}{
		// NumPy, R, scikit-image 0.19 and OpenCV 4.6 (SEEN).
		{"Gander, Golub and Strebel", eightPoints, 5.063877720, 5.069752704, 3.775663715, 2.642333999, 157.876951, 2e-6},
		// OpenCV, modules/imgproc/test/test_fitellipse_direct.cpp, Issue_2; digits by NumPy and R (SEEN).
		{"OpenCV", []vec{
			{436.59985753, 99.52113368}, {454.40214162, 160.47565297}, {406.01996690, 215.41999535}, {362.87386857, 262.18426690},
			{300.72864073, 290.81826993}, {247.62963884, 311.38313711}, {194.15394659, 313.30260991}, {138.93439334, 310.50203123},
			{91.66999301, 300.57303989}, {28.28623386, 268.06701593},
		}, 228.2319531, 174.8794801, 450.6795580 / 2, 265.5563170 / 2, 166.1812319, 1e-6},
		// scikit-image, test_fit.py (SEEN): so far off for its size that a conic's numbers hold no more digits, (2e6 ÷ .1)² · 1e-16.
		{"scikit-image", far(1e6, 2e6, .5, .1, .5), 1e6, 2e6, .5, .1, degrees(.5), .04},
		{"the same where pictures have it", far(1e4, 2e4, 100, 20, .5), 1e4, 2e4, 100, 20, degrees(.5), 1e-6},
		{"x²/4 + y² = 1", far(0, 0, 2, 1, 0), 0, 0, 2, 1, 0, 1e-9}, // CALC
	} {
		c, ok := fitEllipse(tt.points)
		if !ok {
			t.Errorf("%s: no ellipse", tt.source)
			continue
		}
		centre, long, short, angle := axes(c)
		for i, pair := range [][2]float64{{centre.x, tt.x}, {centre.y, tt.y}, {long, tt.long}, {short, tt.short}} {
			near(t, tt.source+" "+[]string{"x", "y", "long", "short"}[i], pair[0], pair[1], tt.within)
		}
		near(t, tt.source+" angle", math.Remainder(angle-tt.angle, 180), 0, tt.within*50)
	}
	if _, ok := fitEllipse([]vec{{2, 0}, {0, 1}, {-2, 0}, {0, -1}}); ok {
		t.Error("four points make an ellipse")
	}
}

// far returns the points of scikit-image's case of a far ellipse.
func far(x, y, a, b, turn float64) (out []vec) {
	for _, at := range []float64{.107, .407, 1.108, 1.489, 2.216, 2.768, 3.183, 3.969, 4.840, 5.387, 5.792, 6.139} {
		u, v := a*math.Cos(at), b*math.Sin(at)
		out = append(out, vec{x + u*math.Cos(turn) - v*math.Sin(turn), y + u*math.Sin(turn) + v*math.Cos(turn)})
	}
	return out
}

// A conic's axes, from the tests of colour-science (geometry/tests/test_ellipse.py; SEEN).
func TestConicAxes(t *testing.T) {
	centre, long, short, angle := axes(conic{{2.5, -1.5, -.5}, {-1.5, 2.5, -.5}, {-.5, -.5, -3.5}})
	for _, pair := range [][2]float64{{centre.x, .5}, {centre.y, .5}, {long, 2}, {short, 1}, {angle, 45}} {
		near(t, "conic", pair[0], pair[1], 1e-12)
	}
}

// Homographies through four points, as others print them.
func TestHomographyThrough(t *testing.T) {
	for _, tt := range []struct {
		source   string
		from, to [4]vec
		want     matrix
		within   float64
	}{
		{"the unit square (CALC)", [4]vec{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, [4]vec{{0, 0}, {4, 0}, {3, 2}, {1, 2}},
			matrix{{4, 2, 0}, {0, 4, 0}, {0, 1, 1}}, 1e-12},
		{"a notebook on projective geometry, DT084A; ImageMagick agrees (SEEN)", [4]vec{{0, 0}, {0, 3}, {5, 3}, {5, 0}},
			[4]vec{{1, 1}, {3, 3}, {6, 3}, {5, 2}}, matrix{{9. / 5, 2. / 3, 1}, {3. / 5, 2. / 3, 1}, {1. / 5, 0, 1}}, 1e-12},
		{"README of perspective-transform 1.1.3; digits by OpenCV and R (SEEN)", [4]vec{{158, 64}, {494, 69}, {495, 404}, {158, 404}},
			[4]vec{{100, 500}, {152, 564}, {148, 604}, {100, 560}},
			matrix{{.38697494, .04268174, 59.2427948}, {.95896106, .45628212, 434.8644299}, {.00129018, .00042682, 1}}, 1e-7},
		{"test_geometric.py of scikit-image, first four points; digits by OpenCV (SEEN)",
			[4]vec{{-12.3705, -10.5075}, {-10.7865, 15.4305}, {8.6985, 10.8675}, {11.4975, -9.5715}},
			[4]vec{{0, 0}, {0, 5800}, {4900, 5800}, {4900, 0}},
			matrix{{194.669014, -11.888181, 2283.237895}, {-8.691006, 221.620693, 2221.167275}, {-.0126959665, -.0096053643, 1}}, 1e-4},
	} {
		h, ok := homographyThrough(tt.from, tt.to)
		if !ok {
			t.Errorf("%s: no homography", tt.source)
		}
		for i := range 3 {
			for j := range 3 {
				near(t, tt.source, h[i][j], tt.want[i][j], tt.within)
			}
		}
		for i := range tt.from {
			near(t, tt.source+", a corner", h.apply(tt.from[i]).sub(tt.to[i]).len(), 0, 1e-8)
		}
	}
}

// openCVCamera is the camera of a documented case: focal length 1500 pixels, centre (960, 540), turned about (.10, −.60, .03), moved by
// (−1.20, .55, 6). Rodrigues' formula, independent of the reader's camera.
func openCVCamera(p [3]float64) vec {
	axis := [3]float64{.10, -.60, .03}
	angle := math.Sqrt(axis[0]*axis[0] + axis[1]*axis[1] + axis[2]*axis[2])
	sin, cos := math.Sincos(angle)
	dot := 0.
	for i := range axis {
		axis[i] /= angle
		dot += axis[i] * p[i]
	}
	var q [3]float64
	for i, move := range [3]float64{-1.20, .55, 6} {
		a, b := (i+1)%3, (i+2)%3
		q[i] = cos*p[i] + sin*(axis[a]*p[b]-axis[b]*p[a]) + (1-cos)*dot*axis[i] + move
	}
	return vec{960 + 1500*q[0]/q[2], 540 + 1500*q[1]/q[2]}
}

// wheelBefore returns points of a circle of radius .33 in the plane z = 0 as that camera sees them.
func wheelBefore(x float64) (out []vec) {
	for i := range 8 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 4)
		out = append(out, openCVCamera([3]float64{x + .33*cos, .33 * sin, 0}))
	}
	return out
}

// Two wheels before a camera: the ellipse of one is OpenCV's (projectPoints of 4.6, and R; SEEN), and the circular points of their plane
// give their distance, 2.8 ÷ .66 wheels (CALC), and four others, whatever the unit of the picture.
func TestCircularPoints(t *testing.T) {
	front := wheelBefore(0)
	near(t, "rim point", front[0].x, 735.058002, 1e-6)
	near(t, "rim point", front[2].y, 758.539942, 1e-6)
	c, _ := fitEllipse(front)
	centre, long, short, angle := axes(c)
	for _, pair := range [][2]float64{
		{centre.x, 657.608079048}, {centre.y, 677.253311822}, {long, 83.784663563}, {short, 75.145277236}, {angle, 121.044302928},
	} {
		near(t, "ellipse", pair[0], pair[1], 1e-6)
	}
	for _, apart := range []float64{2.8, 1.2, -.9, 4, 7} {
		rear, _ := fitEllipse(wheelBefore(apart))
		base, ok := wheelbaseByConics(c, rear, 1)
		if !ok {
			t.Errorf("%g apart: no circular points", apart)
		}
		near(t, "wheelbase", base, math.Abs(apart)/.66, 1e-8)
	}
}

// A segment's super-ellipse and the parabola in its place are touched as far out by a line of sight of the usual slope (by search along the
// curves).
func TestAsParabola(t *testing.T) {
	for _, end := range [][2]float64{{.55, 2.7}, {.38, 3.1}, {.95, 2.3}, {.12, 4}, {.5, 2}} {
		g, square, round := asParabola(end[0], end[1]), 0., 0.
		for u := 0.; u <= 1; u += 1e-4 {
			square = max(square, usualSlope*u-end[0]*(1-math.Pow(1-math.Pow(u, end[1]), 1/end[1])))
			round = max(round, usualSlope*u-g*u*u)
		}
		if g > usualSlope/2 { // else the parabola is touched at its corner
			near(t, "touched", round, square, 1e-6)
		}
	}
	near(t, "ellipse", asParabola(.5, 2), .35*.35/4/(math.Hypot(.5, .35)-.5), 1e-12)
}
