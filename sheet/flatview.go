package sheet

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// flatView is what one sheet of each kind shows of a vehicle in parallel projection: front and rear, the top, or all with the side.
type flatView struct {
	request.Request
	plan  layout.Plan
	views request.ViewSet
}

// Largest returns the largest wheel on the canvas that the views have room for.
func (f flatView) Largest(c draft.Canvas) geom.MM {
	d := f.empty(c, request.Full)
	switch {
	case f.views.Has(request.ArrangementView):
		return f.roomOfArrangement(d).Largest(c.Space)
	case f.views.Has(request.TopView):
		return f.roomOfTop(d).Largest(c.Space)
	}
	return f.roomOfEnds(d, len(f.views)).Largest(c.Space)
}

// Draw draws every kind of sheet with the wheel at a size on paper.
func (f flatView) Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error) {
	draw := f.ends
	switch {
	case f.views.Has(request.ArrangementView):
		draw = f.arrangement
	case f.views.Has(request.TopView):
		draw = f.top
	}
	return counting.Pages{Request: f.Request, Plan: f.plan, Wheel: wheel}.Each(c, number, draw)
}
