package sheet

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// perspectiveSheet is what a camera sees of a vehicle, on a sheet of each kind. It is as large as fits, whatever the wheel of other views.
type perspectiveSheet struct {
	request.Request
	plan layout.Plan
}

// Draw draws every kind of sheet. The picture, which is most of the work, is taken once for all of them.
func (p perspectiveSheet) Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error) {
	taken, err := newShot(p.plan, p.Setting.Camera.Spec)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", p.plan.Profile.Name, err)
	}
	return counting.Pages{Request: p.Request, Plan: p.plan, Wheel: wheel}.Each(c, number, func(o counting.Page) (render.Page, error) { return p.page(o, taken) })
}

// ellipsesSheet shows a wheel at many turns and eye heights, as large as fits.
type ellipsesSheet struct {
	request.Request
	plan layout.Plan
}

// Draw draws the sheet.
func (p ellipsesSheet) Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error) {
	return counting.Pages{Request: p.Request, Plan: p.plan, Wheel: wheel}.Each(c, number, p.page)
}
