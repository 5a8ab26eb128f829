package png

import (
	"math"
	"testing"
)

// inside counts the sides of l that a ray to the right of p crosses.
func inside(l loop, p pixelPoint) int {
	n := 0
	for i, a := range l {
		b := l[(i+1)%len(l)]
		if (a.Y > p.Y) != (b.Y > p.Y) && float64(p.X) < float64(a.Lerp(b, float64((p.Y-a.Y)/(b.Y-a.Y))).X) {
			n++
		}
	}
	return n
}

// TestSimpleLoopsHoldTheSame: for wild loops, every place is in an odd number of the parts just when it was, and no part
// crosses itself.
func TestSimpleLoopsHoldTheSame(t *testing.T) {
	for n := 3; n <= 23; n += 2 {
		var wild loop
		for i := range n {
			a := 2 * math.Pi * float64(i*(n/2)) / float64(n)
			r := 60 + 37*math.Sin(float64(3*i*i))
			wild = append(wild, pixelPoint{X: pixel(100 + r*math.Cos(a)), Y: pixel(100 + r*math.Sin(a))})
		}
		parts := simpleLoops(wild)
		if n > 3 && len(parts) < 2 {
			t.Errorf("%d corners: nothing was untangled", n)
		}
		for _, part := range parts {
			if len(simpleLoops(part)) != 1 {
				t.Errorf("%d corners: a part of %d crosses itself", n, len(part))
			}
		}
		for y := 1.37; y < 200; y += 3.1 {
			for x := 1.73; x < 200; x += 3.1 {
				count := 0
				for _, part := range parts {
					count += inside(part, pixelPoint{X: pixel(x), Y: pixel(y)})
				}
				if count%2 != inside(wild, pixelPoint{X: pixel(x), Y: pixel(y)})%2 {
					t.Fatalf("%d corners: %.2f, %.2f is on the other side", n, x, y)
				}
			}
		}
	}
}

// TestDashesGoRoundCorners: a dash that reaches a corner has it among its spots.
func TestDashesGoRoundCorners(t *testing.T) {
	c := polyline{points: []pixelPoint{{X: 0, Y: 0}, {X: 30, Y: 0}, {X: 30, Y: 30}}}
	got := c.dashed([]float64{8, 2, 1, 1})
	want := [][]pixelPoint{
		{{X: 0}, {X: 8}}, {{X: 10}, {X: 11}}, {{X: 12}, {X: 20}}, {{X: 22}, {X: 23}}, {{X: 24}, {X: 30}, {X: 30, Y: 2}}, {{X: 30, Y: 4}, {X: 30, Y: 5}},
		{{X: 30, Y: 6}, {X: 30, Y: 14}}, {{X: 30, Y: 16}, {X: 30, Y: 17}}, {{X: 30, Y: 18}, {X: 30, Y: 26}}, {{X: 30, Y: 28}, {X: 30, Y: 29}},
	}
	if len(got) != len(want) {
		t.Fatalf("%d dashes, want %d: %v", len(got), len(want), got)
	}
	for i, d := range got {
		if len(d.points) != len(want[i]) || d.closed {
			t.Fatalf("dash %d is %v, want %v", i+1, d.points, want[i])
		}
		for k, p := range d.points {
			if length(p.Sub(want[i][k])) > 1e-9 {
				t.Errorf("dash %d is %v, want %v", i+1, d.points, want[i])
			}
		}
	}
}
