// Package flat draws a vehicle in parallel projection from other sides than the side: front, rear, top, and all of them arranged.
package flat

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// Sheets draws a vehicle in parallel projection on one sheet of each kind: front and rear, the top, or all with the side view.
type Sheets struct {
	request.Request
	Plan  layout.Plan
	Views request.ViewSet
}

// Largest returns the largest wheel on the canvas, in mm, at which the views fit.
func (f Sheets) Largest(c draft.Canvas) geom.MM {
	d := f.empty(c, request.Full)
	switch {
	case f.Views.Has(request.ArrangementView):
		return f.arrangementRoom(d).LargestWheel(c.Space)
	case f.Views.Has(request.TopView):
		return f.topRoom(d).LargestWheel(c.Space)
	}
	return f.endRoom(d, len(f.Views)).LargestWheel(c.Space)
}

// Draw draws every kind of sheet; wheel is the size of a wheel on paper, in mm. It fails where views or labels find no room.
func (f Sheets) Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error) {
	draw := f.ends
	switch {
	case f.Views.Has(request.ArrangementView):
		draw = f.arrangement
	case f.Views.Has(request.TopView):
		draw = f.top
	}
	return counting.Pages{Request: f.Request, Plan: f.Plan, Wheel: wheel}.Each(c, number, draw)
}
