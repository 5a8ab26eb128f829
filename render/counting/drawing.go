// Package counting draws a plan on paper: its place, guides, counted wheels, graduated rules, levels, numerals, blanks and panels, and the
// facts of its title block. It is where wheels and millimetres of paper meet; every room of sheets builds on it.
package counting

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/outline"
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
	LevelsEnd geom.MM       // x where level lines end behind the tail
	RuleX     geom.MM       // x of the upright rule beside the tail
	Table     []draft.Label // what the letters of a drawing with a table stand for, in the order of the letters
	// OnScreen sets words so far apart that a finger or a mouse tells them from each other.
	OnScreen bool
	// Tiled leaves away what a sheet of tiles would need more tiles for: the unused part of counted wheels, and what lines run on.
	Tiled bool
	// EndsUnknown draws levels as if nose, tail and arches were not there: a student is to find them.
	EndsUnknown bool
	body        *outline.Outline // once it is drawn
}

// LabelLayout is how words give way when room is short: call-outs near their anchors, or in a row on top, or as letters that a table
// under the drawing explains; with or without notes; and all counts of the sheet in the larger lettering or in the smaller. Loose
// shortens words that find no room, and omits them where that does not help. ValuesOnly omits all names, what stands at the nose and over
// the roof, and the upright rule: a screen may be too narrow for them.
type LabelLayout struct{ Near, Notes, Keyed, SmallCounts, Loose, ValuesOnly bool }

// LabelLayouts lists the ways to label, the best first: the scale gives way before words shrink, overlap or leave the margin. Upright
// pages are too narrow for words beside the drawing and have room for a table under it. On a screen nothing may jump while a figure is
// moved: words stay near what they name, in one lettering, and are left out where they find no room.
func LabelLayouts(r request.Request, upright bool) []LabelLayout {
	l := r.Setting.Labels
	notes := l == request.FullLabels
	if near := (LabelLayout{Near: true, SmallCounts: true}); r.OnScreen && l != request.NoLabels {
		near.Notes, near.ValuesOnly = notes, l == request.ValueLabels
		loose := near
		loose.Loose = true
		return []LabelLayout{near, loose}
	}
	ways := []LabelLayout{{Near: true, Notes: notes}}
	switch {
	case l == request.NoLabels:
	case upright:
		ways = []LabelLayout{{Near: true, Notes: notes, Keyed: true}}
	case notes:
		ways = append(ways, LabelLayout{Near: true}, LabelLayout{Notes: true}, LabelLayout{})
	default:
		ways = append(ways, LabelLayout{})
	}
	var out []LabelLayout
	for _, w := range ways {
		small := w
		small.SmallCounts = true
		out = append(out, w, small)
	}
	return out
}

// Apart is the least gap between words that stand under each other, which is wider on a screen: their middles are then 24 pixels apart in
// lettering of 13 (WCAG 2.2, 2.5.8 Target Size, MEM).
func (d *Drawing) Apart(onPaper geom.MM) geom.MM {
	const onScreen geom.MM = 3
	if d.OnScreen {
		return max(onPaper, onScreen)
	}
	return onPaper
}

// Count is a count of wheels in the lettering that all counts of the sheet have.
func (d *Drawing) Count(s string) draft.Word {
	if d.Labels.SmallCounts {
		return draft.Value(s)
	}
	return draft.Count(s)
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
func (d *Drawing) GuideExtent() (from, to geom.Wheels) {
	if d.Tiled {
		return d.Plan.Nose(), d.Plan.Tail()
	}
	return -.5 - max(1, d.Plan.FrontOverhang()), d.Plan.RearEdge() + max(1, d.Plan.RearOverhang())
}

// OverRoof is how far guides reach over the roof.
func (d *Drawing) OverRoof() geom.Wheels {
	const tenth geom.Wheels = .1
	if d.Tiled {
		return min(tenth, d.Wheels(tiledOverRoof))
	}
	return tenth
}

// tiledOverRoof is the most that guides reach over the roof where the sheet is cut into tiles.
const tiledOverRoof geom.MM = 4

// GuideTop returns how high the guides reach: of the last stacked wheel only so much is drawn over the roof as shows that it goes on.
func (d *Drawing) GuideTop() geom.Wheels {
	p := d.Plan
	if d.Tiled {
		return p.Height() + d.OverRoof()
	}
	h := float64(p.Height())
	used := h - math.Ceil(h-1e-9) + 1
	over := math.Max(0, math.Acos(math.Max(-1, math.Min(1, 2*used-1)))-spareShown)
	return max(geom.Wheels(h-used+.5+.5*math.Cos(over)), p.Height()+d.OverRoof())
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

// arcChords is into how many chords words that look for room take an arc: so many that none strays from a wheel's arc by a visible amount.
const arcChords = 24

func (d *Drawing) arc(l draft.Line, a arc) {
	on := func(t float64) layout.Point {
		return a.centre.Add(planPt(geom.Wheels(a.radius*geom.Wheels(math.Cos(t))), geom.Wheels(a.radius*geom.Wheels(math.Sin(t)))))
	}
	path := layout.Path{}.Move(on(a.from)).Arc(a.radius, a.to-a.from > math.Pi, true, on(a.to))
	d.Curve(l, d.Path(path), arcChords)
}
