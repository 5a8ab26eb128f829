package layout

import (
	"math"
	"testing"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// The closed form against cases computed independently of it; lengths in any one unit.
// The construction is 49 CFR 523.2's (SEEN): a line tangent to the tyre's arc through the corner.
func TestTangentAngle(t *testing.T) {
	for _, c := range []struct {
		r, x, h float64
		want    geom.Degrees
		within  geom.Degrees
	}{
		// CALC, Pythagorean: the tangent of the angle is a ratio of whole numbers.
		{5, 12, 10, degrees(math.Atan2(120, 119)), 1e-10},
		{3, 4, 6, degrees(math.Atan2(24, 7)), 1e-10},
		{300, 600, 300, 30, 1e-10},
		{4, 8, 4, degrees(math.Asin(.5)), 1e-10}, // a corner at the wheel's centre height: asin(r/x)
		{7, 30, 0, 0, 1e-10},                     // a corner on the ground
		// CALC, recomputed by two libraries.
		{300, 800, 200, 14.720431, 1e-6},
		{310, 850, 250, 17.296081, 1e-6},
		{330, 900, 220, 14.375231, 1e-6},
		{350, 700, 400, 34.001587, 1e-6},
		{300, 200, 350, 90, 0}, // inside the tyre: nothing can be touched
	} {
		if got := tangentAngle(c.r, c.x, c.h); math.Abs(float64(got-c.want)) > float64(c.within) {
			t.Errorf("tangentAngle(%v, %v, %v) = %.8f, want %.8f", c.r, c.x, c.h, got, c.want)
		}
	}
}

func degrees(rad float64) geom.Degrees { return geom.Degrees(rad * 180 / math.Pi) }

// CALC: breakover over one underbody point, in mm. The common short cut 2·atan(2·clearance/wheelbase)
// gives 13.1639 for the first and must not be what we compute.
func TestBreakoverOverAPoint(t *testing.T) {
	for _, c := range []struct {
		r, s, front, rear, h float64
		want                 geom.Degrees
	}{
		{300, 300, 1300, 1300, 150, 13.341741},
		{330, 330, 1350, 1350, 200, 17.164193},
		{330, 345, 1250, 1550, 210, 17.585800},
	} {
		var p Plan
		p.figures[segments.Wheel], p.figures[segments.RearWheel] = 2*c.r, 2*c.s
		p.figures[segments.Wheelbase], p.figures[segments.Clearance] = (c.front+c.rear)/(2*c.r), c.h/(2*c.r)
		if got := p.breakoverAt(c.front / (2 * c.r)); math.Abs(float64(got-c.want)) > 1e-6 {
			t.Errorf("%+v: breakover %.8f", c, got)
		}
	}
}

// A line of a ground angle ends over the x asked for, or at the height; upright where the corner leaves it no slope.
func TestAngleLineUntil(t *testing.T) {
	touch := Point{X: -.5, Y: .5}
	for _, c := range []struct {
		corner Point
		want   Point
	}{
		{Point{X: -1, Y: .6}, Point{X: -1.5, Y: .7}},   // on to over −1.5
		{Point{X: -.6, Y: 1}, Point{X: -.8, Y: 2}},     // up to 2
		{Point{X: -.5, Y: .8}, Point{X: -.5, Y: 2}},    // right over the tyre's edge
		{Point{X: -.5, Y: .5}, Point{X: -.5, Y: 2}},    // on it
		{Point{X: -.4, Y: .5}, Point{X: -.5, Y: 2}},    // inside the tyre
		{Point{X: -1, Y: .4}, Point{X: -1.5, Y: .3}},   // falling
		{Point{X: -1.5, Y: .9}, Point{X: -1.5, Y: .9}}, // the corner itself
	} {
		got := AngleLine{touch, c.corner}.ExtendTo(-1.5, 2)
		if math.Abs(float64(got.X-c.want.X)) > 1e-12 || math.Abs(float64(got.Y-c.want.Y)) > 1e-12 {
			t.Errorf("over %v: %v; want %v", c.corner, got, c.want)
		}
	}
}
