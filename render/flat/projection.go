package flat

import (
	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
)

func projectionLine() draft.LineStyle { return draft.NewLineStyle(draft.Hair, draft.Plain) }

// projectionLines draws the lines between views, only in the gaps between them.
func (a arrangement) projectionLines() {
	a.projectLevels()
	a.projectLengths()
	a.projectWidths()
}

// projectLevels projects roof, belt and sill to front and rear.
func (a arrangement) projectLevels() {
	p := a.Plan
	for _, e := range []endView{a.front, a.rear} {
		to := "-rear"
		if e.front {
			to = "-front"
		}
		from, end := e.X(e.half)+1, a.X(p.Nose())-1
		if e.X(0) > a.X(0) {
			from, end = a.X(p.Tail())+1, e.X(-e.half)-1
		}
		for _, l := range counting.Levels() {
			if !l.Underneath && a.Wants(l.Guide) {
				a.Level(projectionLine().For("carried", "carried-"+string(l.Guide)+to), l.Height(p), from, end)
			}
		}
	}
}

// projectLengths projects nose, axles, tail, the A-pillar's foot and the rear end of the glass between side and top.
func (a arrangement) projectLengths() {
	p := a.Plan
	from, to := a.above.Y(-a.above.half)+1, a.Y(p.Height())-1
	if !a.third {
		from, to = a.Y(0)+1, a.above.Y(a.above.half)-1
	}
	for _, l := range []struct {
		name string
		at   geom.Wheels
	}{
		{"nose", p.Nose()}, {"axle-front", 0}, {"pillar-foot", p.PillarFoot().X},
		{"glass-end", p.GlassEnd()}, {"axle-rear", p.Wheelbase()}, {"tail", p.Tail()},
	} {
		a.Line(projectionLine().For("carried", "carried-"+l.name), draft.Pt(a.X(l.at), from), draft.Pt(a.X(l.at), to))
	}
}

// projectWidths projects the sides of the body from the view from above to the front view, over a mitre line at 45°. The mitre passes
// through the point of both centre lines, so that the side towards the viewer of the side view is the same in both.
func (a arrangement) projectWidths() {
	half := a.front.MM(a.front.half)
	centre := draft.Pt(a.front.X(0), a.above.Y(0))
	beyond := half + 4
	a.Line(projectionLine().For("carried", "mitre"), centre.Sub(draft.Pt(beyond, beyond)), centre.Add(draft.Pt(beyond, beyond)))
	from, to := a.X(a.Plan.Nose())-1, a.front.Y(a.Plan.Height())-1
	if !a.third {
		from, to = a.X(a.Plan.Tail())+1, a.front.Y(0)+1
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

// symbol draws the projection symbol of ISO 5456-2, a cone from the side and from its small end, at the upper right of the page.
func (a arrangement) symbol(fixed *draft.Surface, named bool) {
	const r, length geom.MM = 4, 9
	right, y := a.Space.Max.X-2, a.Space.Min.Y+r+1
	cone, rings := right-length, right-length-4-r
	if !a.third {
		cone, rings = right-2*r-4-length, right-r
	}
	for _, radius := range []geom.MM{r, r / 2} {
		fixed.Circle(draft.LeaderLine().For("carried", ""), draft.Circle{Centre: draft.Pt(rings, y), R: radius})
	}
	at := func(x, up geom.MM) draft.Point { return draft.Pt(cone+x, y-up) }
	outline := render.Path{}.Move(at(0, r/2)).Line(at(length, r)).Line(at(length, -r)).Line(at(0, -r/2)).Close()
	fixed.Curve(draft.LeaderLine().For("carried", "symbol"), outline, 1)
	axis := draft.NewLineStyle(draft.Hair, draft.Plain, 12, 3, 2, 3)
	fixed.Line(axis.For("carried", ""), draft.Pt(right-length-5-2*r, y), draft.Pt(right+1, y))
	if named {
		what := "third angle"
		if !a.third {
			what = "first angle"
		}
		fixed.Write("labels", draft.NewLabel([]draft.Word{draft.Note(what)}).TopAt(right, y+r+1, render.End))
	}
}
