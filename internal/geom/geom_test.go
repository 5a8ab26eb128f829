package geom_test

import (
	"fmt"
	"math"
	"testing"

	"hubrule/internal/geom"
)

type point = geom.Point[geom.MM]

// An arc given by its ends has the centre, start and turn it was made from, whichever way round and however long.
func TestArcCentre(t *testing.T) {
	centre, r := point{X: 3, Y: -2}, 5.0
	on := func(a float64) point {
		return centre.Add(point{X: geom.MM(r * math.Cos(a)), Y: geom.MM(r * math.Sin(a))})
	}
	for _, start := range []float64{-3, -1.2, 0, .7, 2.5} {
		for _, turn := range []float64{-6, -math.Pi / 2, -.1, .1, 1, 3.1, 3.2, 6} {
			s := geom.Step[geom.MM]{Verb: geom.ArcTo, R: geom.MM(r), Large: math.Abs(turn) > math.Pi, Sweep: turn > 0, To: on(start + turn)}
			c, a, by := geom.ArcCentre(on(start), s)
			if c.Sub(centre).Len() > 1e-7 || math.Abs(by-turn) > 1e-7 || math.Abs(math.Remainder(a-start, 2*math.Pi)) > 1e-7 {
				t.Errorf("from %v by %v: centre %v, start %v, turn %v", start, turn, c, a, by)
			}
		}
	}
}

// Cubics stand for arcs and circles within 3e-4 of the radius and end where the arc does.
// The bound is the well-known error of the usual quarter-turn cubic, 2.7e-4 (CALC).
func TestCubicsOfCircles(t *testing.T) {
	path := geom.Path[geom.MM]{}.Move(point{X: 10}).Arc(10, true, true, point{Y: -10})
	circle := geom.CircleCubics(point{}, 10)
	runs := append(path.Cubics(), circle[:])
	for _, run := range runs {
		for _, c := range run {
			for i := range 21 {
				if off := math.Abs(float64(c.At(float64(i)/20).Len())/10 - 1); off > 3e-4 {
					t.Errorf("%.1e off the circle", off)
				}
			}
		}
	}
	if end := runs[0][len(runs[0])-1][3]; end != (point{Y: -10}) {
		t.Errorf("the arc ends at %v", end)
	}
}

// A corner between two straight lines has both handles on the theoretical corner and no curvature at its ends.
func TestCornerBetweenStraightLines(t *testing.T) {
	a := geom.EndCondition[geom.MM]{At: point{}, Dir: point{X: 1}}
	b := geom.EndCondition[geom.MM]{At: point{X: 2, Y: 2}, Dir: point{Y: 1}}
	c, ok := geom.Corner(a, b)
	if !ok || c[1].Sub(point{X: 2}).Len() > 1e-9 || c[2].Sub(point{X: 2}).Len() > 1e-9 {
		t.Errorf("corner %v, %v", c, ok)
	}
	if _, ok := geom.Corner(b, a); ok {
		t.Error("a corner that would have to fold is found all the same")
	}
}

func ExampleTransform() {
	flip := geom.Similarity[geom.Wheels, geom.MM]{
		At:     func(p geom.Point[geom.Wheels]) point { return point{X: geom.MM(p.X * 46), Y: geom.MM(-p.Y * 46)} },
		Scale:  46,
		Mirror: true,
	}
	arch := geom.Path[geom.Wheels]{}.Move(geom.Point[geom.Wheels]{X: .5}).Arc(.5, false, true, geom.Point[geom.Wheels]{X: -.5})
	for _, s := range geom.Transform(arch, flip)[1:] {
		fmt.Println(s.To, s.R, s.Sweep)
	}
	// Output:
	// {-23 -0} 23 false
}
