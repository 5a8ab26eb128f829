// Package counting draws a plan on paper: its place, guides, counted wheels, graduated rules, levels, numerals, blanks and panels, and the
// facts of its title block. It is where wheels and millimetres of paper meet; every room of sheets builds on it.
package counting

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// planPt returns a point of the plan.
func planPt(x, y geom.Wheels) layout.Point { return layout.Point{X: x, Y: y} }

// Place is where a plan stands on a page: origin is the ground below the front axle.
type Place struct {
	Origin draft.Point
	Wheel  geom.MM // the front tyre's diameter on paper
}

// OnPage carries a point of the plan to the page. It is the only place where y turns over.
func (p Place) OnPage(q layout.Point) draft.Point { return draft.Pt(p.X(q.X), p.Y(q.Y)) }

// X and Y return the page's coordinates of a place in the plan.
func (p Place) X(x geom.Wheels) geom.MM { return p.Origin.X + p.MM(x) }
func (p Place) Y(y geom.Wheels) geom.MM { return p.Origin.Y - p.MM(y) }

// MM returns a length of the plan on paper.
func (p Place) MM(l geom.Wheels) geom.MM { return geom.MM(float64(float64(l) * float64(p.Wheel))) }

// Wheels returns how many wheels a length on paper is.
func (p Place) Wheels(l geom.MM) geom.Wheels { return geom.Wheels(l / p.Wheel) }

// Path brings a path of the plan to the page.
func (p Place) Path(path layout.Path) render.Path {
	return geom.Transform(path, geom.Similarity[geom.Wheels, geom.MM]{At: p.OnPage, Scale: float64(p.Wheel), Mirror: true})
}

// Drawing is one plan being drawn on one surface.
type Drawing struct {
	*draft.Surface
	Place
	Plan      layout.Plan
	Guides    []request.Guide // nil: all but checks
	Checks    bool            // draw the ground angles
	Units     request.Units
	Labels    LabelLayout
	LevelsEnd geom.MM // x where level lines end behind the tail
	RuleX     geom.MM // x of the upright rule beside the tail
	// EndsUnknown draws levels as if nose, tail and arches were not there: a student is to find them.
	EndsUnknown bool
}

// LabelLayout is how words give way when room is short: call-outs near their anchors or in a row on top, with or without notes.
type LabelLayout struct{ Near, Notes bool }

// LabelLayouts lists the ways to label, the best first: the scale gives way before words shrink, overlap or leave the margin.
func LabelLayouts(l request.Labels) []LabelLayout {
	switch l {
	case request.FullLabels:
		return []LabelLayout{{true, true}, {true, false}, {false, true}, {false, false}}
	case request.ShortLabels:
		return []LabelLayout{{true, false}, {false, false}}
	case request.NoLabels:
		return []LabelLayout{{true, false}}
	}
	panic("counting: no labels " + string(l))
}

// Wants reports whether a guide is drawn.
func (d *Drawing) Wants(guide request.Guide) bool {
	if guide == "checks" && (d.Checks || d.Guides == nil) {
		return d.Checks
	}
	return d.Guides == nil || slices.Contains(d.Guides, guide)
}

// GuideExtent returns how far the guides reach along the ground, in plan space: the first ghost wheel whole,
// further ones only as far as they are used.
func GuideExtent(p layout.Plan) (from, to geom.Wheels) {
	return -.5 - max(1, p.FrontOverhang()), p.RearEdge() + max(1, p.RearOverhang())
}

// GuideTop returns how high the guides reach: the last stacked wheel is drawn whole.
func GuideTop(p layout.Plan) geom.Wheels {
	return max(geom.Wheels(math.Ceil(float64(p.Height())-1e-9)), p.Height()+.1)
}

// rule draws a straight guide between two points of the plan.
func (d *Drawing) rule(l draft.Line, from, to layout.Point) {
	d.Line(l, d.OnPage(from), d.OnPage(to))
}

// Level draws a guide at one height, from one x of the plan to another of the page.
func (d *Drawing) Level(l draft.Line, y geom.Wheels, from, to geom.MM) {
	d.Line(l, draft.Pt(from, d.Y(y)), draft.Pt(to, d.Y(y)))
}

// Upright draws a guide at one x of the plan.
func (d *Drawing) Upright(l draft.Line, x, from, to geom.Wheels) {
	d.rule(l, planPt(x, from), planPt(x, to))
}

// wheelAt draws a whole circle round a point of the plan.
func (d *Drawing) wheelAt(l draft.Line, c layout.Point, r geom.Wheels) {
	d.Circle(l, draft.Circle{Centre: d.OnPage(c), R: d.MM(r)})
}

// arc is part of a circle of the plan, counter-clockwise between two angles in radians.
type arc struct {
	centre   layout.Point
	radius   geom.Wheels
	from, to float64
}

func (d *Drawing) arc(l draft.Line, a arc) {
	on := func(t float64) layout.Point {
		return a.centre.Add(planPt(geom.Wheels(a.radius*geom.Wheels(math.Cos(t))), geom.Wheels(a.radius*geom.Wheels(math.Sin(t)))))
	}
	path := layout.Path{}.Move(on(a.from)).Arc(a.radius, a.to-a.from > math.Pi, true, on(a.to))
	d.Curve(l, d.Path(path), 8)
}
