package sheet

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/request"
)

// place is where a plan stands on a page: origin is the ground below the front axle.
type place struct {
	origin point
	wheel  geom.MM // the front tyre's diameter on paper
}

// onPage carries a point of the plan to the page. It is the only place where y turns over.
func (p place) onPage(q layout.Point) point { return point{X: p.x(q.X), Y: p.y(q.Y)} }

func (p place) x(x geom.Wheels) geom.MM { return p.origin.X + p.long(x) }
func (p place) y(y geom.Wheels) geom.MM { return p.origin.Y - p.long(y) }

// long returns a length of the plan on paper.
func (p place) long(l geom.Wheels) geom.MM { return geom.MM(float64(float64(l) * float64(p.wheel))) }

// wheels returns how many wheels a length on paper is.
func (p place) wheels(l geom.MM) geom.Wheels { return geom.Wheels(l / p.wheel) }

// carry brings a path of the plan to the page.
func (p place) carry(path layout.Path) render.Path {
	return geom.Transform(path, geom.Similarity[geom.Wheels, geom.MM]{At: p.onPage, Scale: float64(p.wheel), Mirror: true})
}

// drawing is one plan being drawn on one board.
type drawing struct {
	*board
	place
	plan   layout.Plan
	guides []request.Guide // nil: all but checks
	checks bool            // draw the ground angles
	units  request.Units
	way    way
	reach  geom.MM // x where level lines end behind the tail
	rail   geom.MM // x of the upright rule beside the tail
}

// way is how words give way when room is short: call-outs near their anchors or in a row on top, with or without notes.
type way struct{ near, notes bool }

// ways lists the ways to label, the best first: the scale gives way before words shrink, overlap or leave the margin.
func ways(l request.Labels) []way {
	switch l {
	case request.FullLabels:
		return []way{{true, true}, {true, false}, {false, true}, {false, false}}
	case request.ShortLabels:
		return []way{{true, false}, {false, false}}
	case request.NoLabels:
		return []way{{true, false}}
	}
	panic("sheet: no labels " + string(l))
}

// wants reports whether the guide is asked for.
func (d *drawing) wants(guide request.Guide) bool {
	if guide == "checks" && (d.checks || d.guides == nil) {
		return d.checks
	}
	return d.guides == nil || slices.Contains(d.guides, guide)
}

// reachOf returns how far the guides reach along the ground, in plan space: the first ghost wheel whole,
// further ones only as far as they are used.
func reachOf(p layout.Plan) (from, to geom.Wheels) {
	return -.5 - max(1, p.FrontOverhang()), p.RearEdge() + max(1, p.RearOverhang())
}

// topOf returns how high the guides reach: the last stacked wheel is drawn whole.
func topOf(p layout.Plan) geom.Wheels {
	return max(geom.Wheels(math.Ceil(float64(p.Height())-1e-9)), p.Height()+.1)
}

// rule draws a straight guide between two points of the plan.
func (d *drawing) rule(guide request.Guide, id string, k lineKind, from, to layout.Point) {
	d.line(guide, id, k, d.onPage(from), d.onPage(to))
}

// level draws a guide at one height, from one x of the plan to another of the page.
func (d *drawing) level(guide request.Guide, id string, k lineKind, y geom.Wheels, from, to geom.MM) {
	d.line(guide, id, k, point{X: from, Y: d.y(y)}, point{X: to, Y: d.y(y)})
}

// upright draws a guide at one x of the plan.
func (d *drawing) upright(guide request.Guide, id string, k lineKind, x, from, to geom.Wheels) {
	d.rule(guide, id, k, layout.Point{X: x, Y: from}, layout.Point{X: x, Y: to})
}

// wheelAt draws a whole circle round a point of the plan.
func (d *drawing) wheelAt(guide request.Guide, id string, k lineKind, c layout.Point, r geom.Wheels) {
	d.circle(guide, id, k, ring{d.onPage(c), d.long(r)})
}

// arc draws part of a circle of the plan, counter-clockwise from angle a to angle b (radians, b > a).
func (d *drawing) arc(guide request.Guide, id string, k lineKind, c layout.Point, r geom.Wheels, a, b float64) {
	on := func(t float64) layout.Point {
		return c.Add(layout.Point{X: geom.Wheels(r * geom.Wheels(math.Cos(t))), Y: geom.Wheels(r * geom.Wheels(math.Sin(t)))})
	}
	path := layout.Path{}.Move(on(a)).Arc(r, b-a > math.Pi, true, on(b))
	d.curve(guide, id, k, d.carry(path), 8)
}
