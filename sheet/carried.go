package sheet

import (
	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/request"
)

func carriedLine() lineKind { return lineKind{hair, nil, plain} }

// carry draws the lines that carry figures from view to view, only in the gaps between them.
func (a arranged) carry() {
	a.levelsCarried()
	a.lengthsCarried()
	a.widthsCarried()
}

// levelsCarried carries roof, belt and sill to front and rear.
func (a arranged) levelsCarried() {
	p := a.plan
	for _, e := range []endView{a.front, a.rear} {
		to := "-rear"
		if e.front {
			to = "-front"
		}
		from, end := e.x(e.half)+1, a.x(p.Nose())-1
		if e.x(0) > a.x(0) {
			from, end = a.x(p.Tail())+1, e.x(-e.half)-1
		}
		for _, l := range []struct {
			guide request.Guide
			at    geom.Wheels
		}{{"roof", p.Height()}, {"belt", p.Belt()}, {"sill", p.Sill()}} {
			if a.wants(l.guide) {
				a.level("carried", "carried-"+string(l.guide)+to, carriedLine(), l.at, from, end)
			}
		}
	}
}

// lengthsCarried carries nose, axles, tail, the A-pillar's foot and the glass's end between side and top.
func (a arranged) lengthsCarried() {
	p := a.plan
	from, to := a.above.y(-a.above.half)+1, a.y(p.Height())-1
	if !a.third {
		from, to = a.y(0)+1, a.above.y(a.above.half)-1
	}
	for _, l := range []struct {
		name string
		at   geom.Wheels
	}{{"nose", p.Nose()}, {"axle-front", 0}, {"pillar-foot", p.PillarFoot().X}, {"glass-end", p.GlassEnd()}, {"axle-rear", p.Wheelbase()}, {"tail", p.Tail()}} {
		a.line("carried", "carried-"+l.name, carriedLine(), point{X: a.x(l.at), Y: from}, point{X: a.x(l.at), Y: to})
	}
}

// widthsCarried carries the body's sides from the view from above over a line at 45° to the front view. That line runs through the
// point where both views have their centre line, so that what lies towards the viewer of the side view does so in both.
func (a arranged) widthsCarried() {
	half := a.front.long(a.front.half)
	centre := point{X: a.front.x(0), Y: a.above.y(0)}
	beyond := half + 4
	a.line("carried", "mitre", carriedLine(), centre.Sub(point{X: beyond, Y: beyond}), centre.Add(point{X: beyond, Y: beyond}))
	from, to := a.x(a.plan.Nose())-1, a.front.y(a.plan.Height())-1
	if !a.third {
		from, to = a.x(a.plan.Tail())+1, a.front.y(0)+1
	}
	for _, side := range []struct {
		id  string
		off geom.MM
	}{{"carried-right", -half}, {"carried-left", half}} {
		turn := centre.Add(point{X: side.off, Y: side.off})
		path := render.Path{}.Move(point{X: from, Y: turn.Y}).Line(turn).Line(point{X: turn.X, Y: to})
		a.curve("carried", side.id, carriedLine(), path, 1)
	}
}

// symbol draws the projection symbol of ISO 5456-2, a cone seen from the side and from its small end, at the upper right of the page.
func (a arranged) symbol(fixed *board, named bool) {
	const r, long geom.MM = 4, 9
	right, y := a.space.Max.X-2, a.space.Min.Y+r+1
	cone, rings := right-long, right-long-4-r
	if !a.third {
		cone, rings = right-2*r-4-long, right-r
	}
	for _, radius := range []geom.MM{r, r / 2} {
		fixed.circle("carried", "", leaderLine(), ring{point{X: rings, Y: y}, radius})
	}
	at := func(x, up geom.MM) point { return point{X: cone + x, Y: y - up} }
	fixed.curve("carried", "symbol", leaderLine(), render.Path{}.Move(at(0, r/2)).Line(at(long, r)).Line(at(long, -r)).Line(at(0, -r/2)).Close(), 1)
	fixed.line("carried", "", lineKind{hair, []float64{12, 3, 2, 3}, plain}, point{X: right - long - 5 - 2*r, Y: y}, point{X: right + 1, Y: y})
	if named {
		what := "third angle"
		if !a.third {
			what = "first angle"
		}
		fixed.write("labels", newLabel([]word{note(what)}), right, y+r+1, render.End)
	}
}
