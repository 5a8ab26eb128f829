package view

import (
	"errors"
	"math"
	"testing"

	"hubrule/segments"
)

// The lens chooses the distance: the enclosing box fills 80 % of a frame 36 mm wide.
func TestLensFillsTheFrame(t *testing.T) {
	for _, name := range segments.Names() {
		p := typical(t, name)
		for _, st := range Presets() {
			c, err := st.Camera(p)
			if err != nil {
				t.Fatalf("%s %s: %v", name, st.Name, err)
			}
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, q := range corners(p) {
				x := float64(c.Project(q).X)
				lo, hi = math.Min(lo, x), math.Max(hi, x)
			}
			if share := (hi - lo) * float64(st.Lens) / 36; math.Abs(share-.8) > 1e-5 {
				t.Errorf("%s %s fills %.4f of the frame", name, st.Name, share)
			}
			if gap := math.Abs(float64(c.Spec.Eye - p.Height())); gap < .12-1e-9 {
				t.Errorf("%s %s: the eye lies %.3f w from the roof's level", name, st.Name, gap)
			}
		}
	}
}

// Where a distance is too small the nearest that works leaves the box's nearest corner 0.25 w before the plane of the eye: half the
// length · sin(turn) + half the width · cos(turn) + 0.25, closed form.
func TestRefusals(t *testing.T) {
	p := typical(t, "suv")
	front, _ := FindPreset("front-quarter")
	for _, c := range []struct {
		change func(*CameraSpec)
		want   string
	}{
		{func(s *CameraSpec) { s.Turn = 120 }, "a turn of 120° looks at the other side; want -90 to 90; the nearest turn that works is 90"},
		{func(s *CameraSpec) { s.Tilt = -75 }, "a tilt of -75° leaves no view of the side; want -60 to 60; the nearest tilt that works is -60"},
		{func(s *CameraSpec) { s.Eye = .01 }, "the eye lies at 0.010w; want 0.02w to 100000w; the nearest eye that works is 0.020w"},
		{func(s *CameraSpec) { s.Eye, s.Turn, s.Distance = 1, 10, 1.3 }, "the eye stands in the vehicle or against it at a distance of 1.300w; the nearest distance that works is 2.041w"},
		{func(s *CameraSpec) { s.Eye, s.Turn, s.Distance = 1, 85, 2.9 }, "the eye stands in the vehicle or against it at a distance of 2.900w; the nearest distance that works is 3.484w"},
		{func(s *CameraSpec) { s.Eye, s.Turn, s.Distance = 1, 40, 2.6 }, "part of the vehicle lies behind the eye, or nearer than 0.25w to its plane at a distance of 2.600w; the nearest distance that works is 3.235w"},
		{func(s *CameraSpec) { s.Distance = -3 }, "a distance of -3w; want 0w to 100000w"},
		{func(s *CameraSpec) { s.DistanceMM = 1e12 }, "a distance of 1353179972.936401w; want 0w to 100000w"},
		{func(s *CameraSpec) { s.Lens = 0 }, "a lens of 0 mm; want 15 to 400"},
	} {
		st := front
		c.change(&st)
		_, err := st.Camera(p)
		var refusal CameraError
		if !errors.As(err, &refusal) || err.Error() != c.want {
			t.Errorf("%v\nwant %s", err, c.want)
			continue
		}
		if refusal.Nearest != nil {
			if _, err := refusal.Nearest.Camera(p); err != nil {
				t.Errorf("the nearest that works does not: %v", err)
			}
		}
	}
}

// A circle in the plane of the eye is refused by name.
func TestRefusedCircle(t *testing.T) {
	c := pinhole(CameraSpec{Turn: 80, Eye: .5, Distance: .4}, Point3{})
	_, err := c.Circle(Point3{Y: .5}, Point3{X: .5}, Point3{Y: .5})
	if err == nil || err.Error() != "a circle comes nearer than 0.25w to the plane of the eye, where its image is no ellipse" {
		t.Error(err)
	}
}
