package view

import (
	"cmp"
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// CameraSpec places a camera. The aim is the middle of nose and tail on the centre line.
type CameraSpec struct {
	Name       string       // of the preset; "" without one
	Title      string       // "front three-quarter, eye level"
	Turn       geom.Degrees // 0 square on the left side, + towards the nose, − towards the tail
	Eye        geom.Wheels  // above the ground; 0: EyeMM
	EyeMM      geom.MM      // above the ground, on the vehicle
	Tilt       geom.Degrees // of the line of sight, + down; 0 keeps uprights upright
	Lens       geom.MM      // 35 mm equivalent: it chooses the distance where Distance is 0
	Distance   geom.Wheels  // from the aim, along the ground; 0: DistanceMM
	DistanceMM geom.MM      // the same on the vehicle; 0: found by the lens
}

// Presets lists the presets: standing views at eye heights in millimetres, as they are met in the street, low ones in wheels.
// Turns, heights and lenses are judged by eye on drawn sheets.
func Presets() []CameraSpec {
	return []CameraSpec{
		{Name: "front-quarter", Title: "front three-quarter, eye level", Turn: 38, EyeMM: 1600, Lens: 50},
		{Name: "front-low", Title: "front three-quarter, low", Turn: 42, Eye: .6, Lens: 40},
		{Name: "front-high", Title: "front three-quarter, from above", Turn: 40, EyeMM: 3200, Lens: 60, Tilt: 12},
		{Name: "front-long", Title: "front three-quarter, long lens", Turn: 30, EyeMM: 1200, Lens: 100},
		{Name: "rear-quarter", Title: "rear three-quarter, eye level", Turn: -40, EyeMM: 1600, Lens: 50},
		{Name: "rear-low", Title: "rear three-quarter, low", Turn: -44, Eye: .6, Lens: 40},
	}
}

// FindPreset returns the preset called name.
func FindPreset(name string) (CameraSpec, bool) {
	return slice.Find(Presets(), func(s CameraSpec) bool { return s.Name == name })
}

// Description returns a preset's own title or, for other numbers, the quarter the camera looks from.
func (spec CameraSpec) Description() string {
	for _, preset := range Presets() {
		same := preset
		same.Name, same.Title = spec.Name, spec.Title
		if spec == same {
			return preset.Title
		}
	}
	const square = 5 // degrees: nearer to it only one side is seen to speak of
	switch {
	case spec.Turn > MostTurn-square:
		return "from the front, in perspective"
	case spec.Turn < square-MostTurn:
		return "from the rear, in perspective"
	case spec.Turn > square:
		return "front three-quarter"
	case spec.Turn < -square:
		return "rear three-quarter"
	}
	return "from the side, in perspective"
}

// The bounds of a camera's quantities. Those of a lens are judged by eye: shorter ones bend the vehicle beyond use, longer ones flatten
// it to its side view.
const (
	MostTurn  geom.Degrees = 90 // to either side
	MostTilt  geom.Degrees = 60 // down or up
	LeastLens geom.MM      = 15
	MostLens  geom.MM      = 400

	LeastEye     geom.Wheels = .02 // lower down the ground is one line
	mostDistance geom.Wheels = 1e5 // beyond it every picture is a parallel one; 0 is no distance
)

// What a camera keeps from the vehicle, and how a lens frames it.
const (
	leastDepth geom.Wheels = .25 // of anything drawn
	around     geom.Wheels = .3  // the eye keeps this from the vehicle's box
	roofClear  geom.Wheels = .12
	frameShare             = .8 // of the frame's width that the enclosing box fills
	frameWidth geom.MM     = 36 // of the 35 mm format
)

// CameraError says why a camera cannot draw the vehicle, and the nearest camera that can.
type CameraError struct {
	Reason  string
	Nearest *CameraSpec // nil where no change of one quantity alone helps
	change  string      // the quantity that Nearest changes
	value   string      // and its value there
}

// Error gives the reason, and the nearest value that works where there is one.
func (r CameraError) Error() string {
	if r.Nearest == nil {
		return r.Reason
	}
	return fmt.Sprintf("%s; the nearest %s that works is %s", r.Reason, r.change, r.value)
}

// Camera places the eye before p. The error is a CameraError.
func (spec CameraSpec) Camera(p layout.Plan) (Camera, error) {
	spec.Eye = cmp.Or(spec.Eye, geom.Wheels(float64(spec.EyeMM)/p.Value(segments.Wheel)))
	spec.Distance = cmp.Or(spec.Distance, geom.Wheels(float64(spec.DistanceMM)/p.Value(segments.Wheel)))
	if err := spec.check(); err != nil {
		return Camera{}, err
	}
	raised := false
	if gap := spec.Eye - p.Height(); gap < roofClear && -gap < roofClear {
		spec.Eye, raised = p.Height()+roofClear, true
	}
	if spec.Distance == 0 {
		spec.Distance = spec.fit(p)
	}
	c := pinhole(spec, aim(p))
	c.Raised = raised
	if reason := c.against(p); reason != "" {
		return Camera{}, spec.stepBack(p, reason)
	}
	return c, nil
}

// check refuses what no distance can mend.
func (spec CameraSpec) check() error {
	near := spec
	switch {
	case !(math.Abs(float64(spec.Turn)) <= float64(MostTurn)):
		near.Turn = geom.Degrees(math.Copysign(float64(MostTurn), float64(spec.Turn)))
		return CameraError{fmt.Sprintf("a turn of %g° looks at the other side; want %g to %g", spec.Turn, -MostTurn, MostTurn),
			&near, "turn", fmt.Sprint(near.Turn)}
	case !(math.Abs(float64(spec.Tilt)) <= float64(MostTilt)):
		near.Tilt = geom.Degrees(math.Copysign(float64(MostTilt), float64(spec.Tilt)))
		return CameraError{fmt.Sprintf("a tilt of %g° leaves no view of the side; want %g to %g", spec.Tilt, -MostTilt, MostTilt),
			&near, "tilt", fmt.Sprint(near.Tilt)}
	case !(spec.Distance >= 0 && spec.Distance <= mostDistance):
		return CameraError{Reason: fmt.Sprintf("a distance of %sw; want 0w to %gw",
			strict.FormatNumber(float64(spec.Distance)), mostDistance)}
	case spec.Distance == 0 && !(spec.Lens >= LeastLens && spec.Lens <= MostLens):
		return CameraError{Reason: fmt.Sprintf("a lens of %g mm; want %g to %g", spec.Lens, LeastLens, MostLens)}
	case !(spec.Eye >= LeastEye && spec.Eye <= mostDistance):
		near.Eye = min(max(LeastEye, spec.Eye), mostDistance)
		return CameraError{fmt.Sprintf("the eye lies at %.3fw; want %gw to %gw", spec.Eye, LeastEye, mostDistance),
			&near, "eye", fmt.Sprintf("%.3fw", near.Eye)}
	}
	return nil
}

// aim is the middle of nose and tail on the ground.
func aim(p layout.Plan) Point3 { return Point3{X: (p.Nose() + p.Tail()) / 2} }

// corners returns the enclosing box's corners.
func corners(p layout.Plan) [8]Point3 {
	half := geom.Wheels(p.Value(segments.Width)) / 2
	x, y, z := [2]geom.Wheels{p.Nose(), p.Tail()}, [2]geom.Wheels{0, p.Height()}, [2]geom.Wheels{-half, half}
	var out [8]Point3
	for i := range out {
		out[i] = Point3{X: x[i&1], Y: y[i>>1&1], Z: z[i>>2]}
	}
	return out
}

// Corners returns the corners of the box that encloses s: bit 0 of the index is the tail, bit 1 the roof, bit 2 the left side.
func (s *Solid) Corners() [8]Point3 { return corners(s.plan) }

// fit returns the distance at which the enclosing box fills its share of a frame taken through the lens.
func (spec CameraSpec) fit(p layout.Plan) geom.Wheels {
	want := frameShare * float64(frameWidth/spec.Lens)
	from, to := geom.Bisect(1, 4000, 36, func(d float64) bool {
		spec.Distance = geom.Wheels(d)
		c := pinhole(spec, aim(p))
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, q := range corners(p) {
			h := c.image(q)
			if h[2] < .3 {
				return true
			}
			lo, hi = math.Min(lo, h[0]/h[2]), math.Max(hi, h[0]/h[2])
		}
		return hi-lo > want
	})
	return geom.Wheels(math.Round(float64((from+to)/2)*1e6) / 1e6)
}

// against returns what stands in the way of the eye, "" if nothing does. Every wheel lies within the box, so that no circle is nearer
// than its corners.
func (c Camera) against(p layout.Plan) string {
	half := geom.Wheels(p.Value(segments.Width)) / 2
	e := c.Eye
	inside := e.X > p.Nose()-around && e.X < p.Tail()+around && e.Y < p.Height()+around && e.Z > -half-around && e.Z < half+around
	if inside {
		return "the eye stands in the vehicle or against it"
	}
	for _, q := range corners(p) {
		if !(c.Depth(q) >= leastDepth) {
			return fmt.Sprintf("part of the vehicle lies behind the eye, or nearer than %gw to its plane", leastDepth)
		}
	}
	return ""
}

// stepBack refuses with the nearest distance that works; there is always one, unless the line of sight is tilted away.
func (spec CameraSpec) stepBack(p layout.Plan, reason string) error {
	near := spec
	fails := func(d geom.Wheels) bool {
		near.Distance = d
		return pinhole(near, aim(p)).against(p) != ""
	}
	from := max(spec.Distance, .01)
	to := from
	for fails(to) {
		if to *= 1.3; to > mostDistance {
			return CameraError{Reason: reason}
		}
	}
	from, to = geom.Bisect(from, to, 52, fails)
	near.Distance = geom.Wheels(math.Ceil(float64((from+to)/2)*1000) / 1000)
	return CameraError{fmt.Sprintf("%s at a distance of %.3fw", reason, spec.Distance), &near, "distance", fmt.Sprintf("%.3fw", near.Distance)}
}
