package screen

import (
	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/sheet"
)

// Camera is a perspective's, as a page lets people move it.
type Camera struct {
	Turn    geom.Degrees
	Eye     geom.MM // above the ground, on the vehicle
	Lens    geom.MM // 0 where the distance was chosen
	Horizon float64 // its height on the screen
	PerMM   float64 // by how many pixels the horizon moves for a millimetre of the eye, at the nearest wheel
	Turns   [2]geom.Degrees
	Eyes    [2]geom.MM
	Lenses  [2]geom.MM
}

// mostEye is how high a page lets people raise the eye: the flags know no such bound.
const mostEye geom.MM = 12_000

// cameraOf returns the camera of a perspective; nil where its lines have no horizon or no wheel to measure by.
func cameraOf(one sheet.Single, lines []render.Mark) *Camera {
	p, spec := one.Plans[0], one.Request.Setting.Camera.Spec
	camera, err := spec.Camera(p)
	if err != nil {
		return nil
	}
	out := &Camera{Turn: spec.Turn, Eye: p.OnVehicle(camera.Eye.Y), Lens: spec.Lens,
		Turns: [2]geom.Degrees{-view.MostTurn, view.MostTurn}, Lenses: [2]geom.MM{view.LeastLens, view.MostLens},
		Eyes: [2]geom.MM{p.OnVehicle(view.LeastEye), mostEye}}
	if spec.Distance != 0 || spec.DistanceMM != 0 {
		out.Lens = 0
	}
	var largest geom.MM
	for _, m := range lines {
		switch m := m.(type) {
		case *render.Stroke:
			if m.Guide == "horizon" {
				out.Horizon = float64(m.Path[0].To.Y)
			}
		case *render.Ellipse:
			if m.Guide == "wheels" {
				largest = max(largest, m.Shape.Long)
			}
		}
	}
	out.PerMM = -2 * float64(largest) / float64(p.OnVehicle(1))
	return out
}
