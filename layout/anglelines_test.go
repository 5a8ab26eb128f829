package layout

import (
	"math"
	"testing"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// fromLine returns the distance of c from the line of l.
func fromLine(c Point, l AngleLine) float64 {
	along, to := l.Corner.Sub(l.Touch), c.Sub(l.Touch)
	cross := float64(along.X*to.Y) - float64(along.Y*to.X)
	return math.Abs(cross) / math.Hypot(float64(along.X), float64(along.Y))
}

// slope returns the angle of l's line from the ground.
func slope(l AngleLine) float64 {
	along := l.Corner.Sub(l.Touch)
	return math.Atan2(float64(along.Y), math.Abs(float64(along.X))) * 180 / math.Pi
}

// The drawn lines are those of the construction (49 CFR 523.2, SEEN), told in another way than they were computed: each touches its tyre
// from below (as far from the centre as the radius, the touching point square to it), and rises at its angle to its corner.
func TestAngleLinesAreTangents(t *testing.T) {
	for _, name := range segments.Names() {
		p := typical(t, name)
		approach, departure, rampFront, rampRear := p.AngleLines()
		front, rear := Point{Y: .5}, Point{X: p.Wheelbase(), Y: p.RearRadius()}
		for _, c := range []struct {
			what   string
			line   AngleLine
			centre Point
			radius geom.Wheels
			angle  float64
		}{
			{"approach", approach, front, .5, float64(p.Approach())},
			{"departure", departure, rear, p.RearRadius(), float64(p.Departure())},
			{"front ramp", rampFront, front, .5, slope(rampFront)},
			{"rear ramp", rampRear, rear, p.RearRadius(), slope(rampRear)},
		} {
			radius := c.line.Touch.Sub(c.centre)
			along := c.line.Corner.Sub(c.line.Touch)
			square := float64(radius.X*along.X) + float64(radius.Y*along.Y)
			if math.Abs(fromLine(c.centre, c.line)-float64(c.radius)) > 1e-9 || math.Abs(square) > 1e-9 || radius.Y >= 0 {
				t.Errorf("%s: %s does not touch its tyre from below: %v", name, c.what, c.line)
			}
			if math.Abs(slope(c.line)-c.angle) > 1e-7 {
				t.Errorf("%s: %s rises at %v; want %v", name, c.what, slope(c.line), c.angle)
			}
		}
		if sum := slope(rampFront) + slope(rampRear); math.Abs(sum-float64(p.Breakover())) > 1e-7 {
			t.Errorf("%s: both ramps make %v, breakover is %v", name, sum, p.Breakover())
		}
		if rampFront.Corner != rampRear.Corner {
			t.Errorf("%s: the ramps meet at %v and %v", name, rampFront.Corner, rampRear.Corner)
		}
	}
}

// CALC, Pythagorean: from a corner 13 from the centre of a tyre of radius 5 the tangent is 12 long.
func TestTangentLength(t *testing.T) {
	for _, corner := range []Point{{X: -12, Y: 10}, {X: 12, Y: 10}} { // 12 and 5 from the centre (0, 5)
		l := tangentLine(Point{Y: 5}, 5, tangentAngle(5, 12, 10), corner)
		along := l.Corner.Sub(l.Touch)
		if got := math.Hypot(float64(along.X), float64(along.Y)); math.Abs(got-12) > 1e-12 {
			t.Errorf("from %v the tangent is %.14f long; want 12", corner, got)
		}
	}
}
