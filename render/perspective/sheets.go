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

// Sheets draws a vehicle in perspective on a sheet of each kind, as large as fits, whatever the wheel of other views.
type Sheets struct {
	request.Request
	Plan layout.Plan
}

// Draw draws every kind of sheet. They share one projection, which is most of the work. It fails where the camera cannot stand, or the
// paper is too small.
func (p Sheets) Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error) {
	seen, err := newProjection(p.Plan, p.Setting.Camera.Spec)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", p.Plan.Profile.Name, err)
	}
	pages := counting.Pages{Request: p.Request, Plan: p.Plan, Wheel: wheel}
	return pages.Each(c, number, func(o counting.Page) (render.Page, error) { return p.page(o, seen) })
}

// Ellipses draws a table of one wheel at many turns and eye heights, as large as fits.
type Ellipses struct {
	request.Request
	Plan layout.Plan
}

// Draw draws the sheet. It fails where the paper is too small.
func (p Ellipses) Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error) {
	return counting.Pages{Request: p.Request, Plan: p.Plan, Wheel: wheel}.Each(c, number, p.page)
}
