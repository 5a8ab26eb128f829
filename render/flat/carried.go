package flat

import (
	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

func projectionLine() draft.LineStyle { return draft.NewLineStyle(draft.Hair, draft.Plain) }

// projectLevels carries roof, belt and sill from where the front and rear views show them to where the side view does.
func (a arrangement) projectLevels() {
	p := a.Plan
	beltWidth, middle := a.front.vehicle.BeltWidth(), p.Wheelbase()/2
	points := map[request.Guide]struct{ half, ahead, behind geom.Wheels }{
		"roof": {a.front.vehicle.RoofWidth() / 2, p.PillarHead().X, max(p.PillarHead().X, middle)},
		"belt": {beltWidth / 2, middle, middle},
		"sill": {a.front.half, -p.FrontArch(), p.Wheelbase() + p.RearArch()},
	}
	for _, e := range []endView{a.front, a.rear} {
		to := "-rear"
		if e.front {
			to = "-front"
		}
		for _, l := range counting.Levels() {
			if l.Underneath || !a.Wants(l.Guide) {
				continue
			}
			at := points[l.Guide]
			from, end := e.X(at.half), a.X(at.ahead)
			if e.X(0) > a.X(0) {
				from, end = a.X(at.behind), e.X(-at.half)
			}
			a.Level(projectionLine().For("carried", "carried-"+string(l.Guide)+to), l.Height(p), from, end)
		}
	}
}

// projectLengths carries nose, axles, tail, the A-pillar's foot and the rear end of the glass from the top view to the side view.
func (a arrangement) projectLengths() {
	p, foot := a.Plan, a.Plan.PillarFoot()
	near := geom.Wheels(-1) // the side of the top view that lies next to the side view
	if !a.third {
		near = 1
	}
	glass := near * a.above.vehicle.BeltWidth() / 2
	for _, l := range []struct {
		name         string
		at           geom.Wheels
		above, below geom.MM // where it is in the top view and in the side view, on the page
	}{
		{"nose", p.Nose(), a.above.Y(0), a.Y(.5)}, {"axle-front", 0, a.axleEnd(near), a.sideAxleEnd()},
		{"pillar-foot", foot.X, a.above.Y(glass), a.Y(foot.Y)},
		{"glass-end", p.GlassEnd(), a.above.Y(glass), a.Y(p.BeltAt(p.GlassEnd()))},
		{"axle-rear", p.Wheelbase(), a.axleEnd(near), a.sideAxleEnd()}, {"tail", p.Tail(), a.above.Y(0), a.Y(.5)},
	} {
		a.Line(projectionLine().For("carried", "carried-"+l.name), draft.Pt(a.X(l.at), l.above), draft.Pt(a.X(l.at), l.below))
	}
}

// axleEnd is where the axle lines of the top view end next to the side view, and sideAxleEnd where those of the side view do.
func (a arrangement) axleEnd(near geom.Wheels) geom.MM {
	return a.above.Y(near*a.above.half) - geom.MM(near)*axleBeyond
}

func (a arrangement) sideAxleEnd() geom.MM {
	if a.third {
		return a.Y(axleTop)
	}
	return a.Y(axleFoot)
}

// projectWidths carries the sides of the body from the top view to the front view, over a mitre line at 45°. The mitre passes
// through the point of both centre lines, so that the side towards the viewer of the side view is the same in both.
func (a arrangement) projectWidths() {
	half := a.front.MM(a.front.half)
	centre := draft.Pt(a.front.X(0), a.above.Y(0))
	beyond := half + 4
	a.Line(projectionLine().For("carried", "mitre"), centre.Sub(draft.Pt(beyond, beyond)), centre.Add(draft.Pt(beyond, beyond)))
	from, to := a.X(0), a.front.Y(1) // the arches are as wide as the body
	if !a.third {
		from = a.X(a.Plan.Wheelbase())
	}
	for _, side := range []struct {
		id  string
		off geom.MM
	}{{"carried-right", -half}, {"carried-left", half}} {
		turn := centre.Add(draft.Pt(side.off, side.off))
		path := render.Path{}.Move(draft.Pt(from, turn.Y)).Line(turn).Line(draft.Pt(turn.X, to))
		a.Curve(projectionLine().For("carried", side.id), path, 1)
	}
}
