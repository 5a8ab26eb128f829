package perspective

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// Place is where the picture of a camera lies on a page: the point on its line of sight, and its focal length there.
type Place struct {
	Axis  draft.Point
	Focal geom.MM
}

// Underlay draws what a trace of a plan shows of the vehicle on a surface, as a camera sees it: body, tyres and A-pillars. The error is a
// view.CameraError.
func Underlay(b *draft.Surface, p layout.Plan, c view.Camera, at Place) error {
	s, err := project(p, c)
	if err != nil {
		return err
	}
	d := newDrawing(b, s, request.Wheels, 1)
	d.mapping = mapping{at.Axis, at.Focal}
	d.look(true, false)
	d.body()
	// The silhouette closes where a roof at the height of the eye has no contour of its own.
	d.Curve(counting.BodyStyle(view.ContourLine).For("outline", "silhouette"), d.loops(s.silhouette()), 1)
	d.nearWheels()
	d.pillars()
	return nil
}
