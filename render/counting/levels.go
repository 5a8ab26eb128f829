package counting

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// Level is a height of the vehicle that is drawn as a line from end to end. It is named like its guide.
type Level struct {
	Guide      request.Guide
	Figure     segments.Figure
	Style      func() draft.LineStyle
	Height     func(layout.Plan) geom.Wheels
	Underneath bool // not seen from the front or the rear, and named by a call-out where there is room
	fromSide   func(*Drawing)
}

// Levels lists the levels from the top down.
func Levels() []Level {
	return []Level{
		{"roof", segments.Height, RoofLine, layout.Plan.Height, false, (*Drawing).Roof},
		{"belt", segments.Belt, GuideLine, layout.Plan.Belt, false, (*Drawing).Belt},
		{"sill", segments.Sill, SillLine, layout.Plan.Sill, false, (*Drawing).Sill},
		{"clearance", segments.Clearance, ClearanceLine, layout.Plan.Clearance, true, (*Drawing).clearance},
	}
}

// DrawLevels draws the levels that are wanted.
func (d *Drawing) DrawLevels() {
	for _, l := range Levels() {
		if d.Wants(l.Guide) {
			l.fromSide(d)
		}
	}
}

// Roof draws the roof level from ahead of the windscreen.
func (d *Drawing) Roof() {
	from := max(d.Plan.Nose(), d.Plan.PillarHead().X-1)
	if d.EndsUnknown {
		from, _ = d.GuideExtent()
	}
	d.Level(RoofLine().For("roof", "roof"), d.Plan.Height(), d.X(from), d.LevelsEnd)
}

// clearance draws the clearance between the tyres.
func (d *Drawing) clearance() {
	p := d.Plan
	d.Level(ClearanceLine().For("clearance", "clearance"), p.Clearance(), d.X(.5), d.X(p.Wheelbase()-p.RearRadius()))
}

// Sill draws the sill between the wheel arches, ahead of them and behind.
func (d *Drawing) Sill() {
	p, k := d.Plan, SillLine()
	from, front, rear := p.Nose(), p.FrontArch(), p.RearArch()
	if d.EndsUnknown {
		from, _ = d.GuideExtent()
		front, rear = .5, p.RearRadius()
	}
	front, rear = HalfChord(front, .5-p.Sill()), HalfChord(rear, p.RearRadius()-p.Sill())
	d.Level(k.For("sill", "sill-front"), p.Sill(), d.X(from), d.X(-front))
	d.Level(k.For("sill", "sill"), p.Sill(), d.X(front), d.X(p.Wheelbase()-rear))
	d.Level(k.For("sill", "sill-rear"), p.Sill(), d.X(p.Wheelbase()+rear), d.LevelsEnd)
}

// HalfChord returns half the chord of a circle of radius r at distance h from its centre.
func HalfChord(r, h geom.Wheels) geom.Wheels {
	return geom.Wheels(math.Sqrt(math.Max(0, float64(r*r)-float64(h*h))))
}

// maxClimb is the most a belt line may climb from mid-wheelbase to the tail, on paper, and still be one line.
const maxClimb geom.MM = 1.2

// Belt draws the belt line: a hair as far as the A-pillar's foot, where it must not be taken for the bonnet. A sloped one runs nose to tail
// and turns about mid-wheelbase, from where a hair level alone goes on to the rule, so that brackets and numbers refer to one height.
func (d *Drawing) Belt() {
	p, line := d.Plan, GuideLine().For("belt", "belt")
	at := func(x geom.Wheels) layout.Point { return layout.Point{X: x, Y: p.BeltAt(x)} }
	if d.EndsUnknown {
		from, to := d.GuideExtent()
		d.rule(line, at(from), at(to))
		return
	}
	ahead, foot := levelLine().For("belt", "belt-ahead"), at(p.PillarFoot().X)
	climb := d.MM(p.BeltAt(p.Tail()) - p.Belt())
	if max(climb, -climb) < maxClimb {
		d.rule(ahead, at(p.Nose()), foot)
		d.rule(line, foot, at(d.Wheels(d.LevelsEnd-d.Origin.X)))
		return
	}
	d.rule(ahead, at(p.Nose()), foot)
	d.rule(line, foot, at(p.Tail()))
	if middle := p.Wheelbase() / 2; d.LevelsEnd > d.X(p.Tail()) {
		d.Level(levelLine().For("belt", "belt-level"), p.Belt(), d.X(middle), d.LevelsEnd)
		d.Tick(levelLine().For("belt", "belt-pivot"), d.OnPage(at(middle)), draft.Pt(0, 1.2))
	}
}
