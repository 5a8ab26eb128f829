package sheet

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// largestOf returns the largest wheel, in real millimetres on paper, at which a flat sheet other than the side view's has room.
func (job driver) largestOf(v request.ViewSet, c draft.Canvas, p layout.Plan) geom.MM {
	switch {
	case v.Has(request.ArrangementView):
		return job.arrangementRoom(c, p)
	case v.Has(request.TopView):
		return job.topRoom(c, p)
	}
	return job.endsRoom(c, p, v)
}

// flat draws one sheet of a view other than the side at a wheel of real millimetres.
func (job driver) flat(v request.ViewSet, o onePage) (render.Page, error) {
	switch {
	case v.Has(request.ArrangementView):
		return job.arrangement(o)
	case v.Has(request.TopView):
		return job.top(o)
	}
	return job.ends(o, v)
}

// picture draws one sheet of a perspective.
func (job driver) picture(v request.ViewSet, o onePage) (render.Page, error) {
	if v.Has(request.EllipsesView) {
		return job.ellipses(o)
	}
	return job.perspective(o)
}
