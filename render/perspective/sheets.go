// Package perspective draws what a camera sees of a vehicle, and a wheel's ellipses at many turns.
package perspective

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// Sheets is what a camera sees of a vehicle, on a sheet of each kind. It is as large as fits, whatever the wheel of other views.
type Sheets struct {
	request.Request
	Plan layout.Plan
}

// Draw draws every kind of sheet. The picture, which is most of the work, is taken once for all of them.
func (p Sheets) Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error) {
	taken, err := newProjection(p.Plan, p.Setting.Camera.Spec)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", p.Plan.Profile.Name, err)
	}
	return counting.Pages{Request: p.Request, Plan: p.Plan, Wheel: wheel}.Each(c, number, func(o counting.Page) (render.Page, error) { return p.page(o, taken) })
}

// Ellipses shows a wheel at many turns and eye heights, as large as fits.
type Ellipses struct {
	request.Request
	Plan layout.Plan
}

// Draw draws the sheet.
func (p Ellipses) Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error) {
	return counting.Pages{Request: p.Request, Plan: p.Plan, Wheel: wheel}.Each(c, number, p.page)
}
