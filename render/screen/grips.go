package screen

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/sheet"
	"hubrule/segments"
)

// Map is where a plan stands on the screen: the ground under its front axle, and how many pixels a wheel is.
type Map struct {
	Axle     render.Point
	PerWheel float64
	Left     bool // the vehicle faces left

	prefix string // of the ids of its guides
}

// Grip is a place at which a figure is dragged.
type Grip struct {
	Figure segments.Figure
	At     render.Point
	Way    Way
	Per    float64 // pixels along the way, or degrees of a turn clockwise on the screen, for one unit of the figure
	About  render.Point
	IDs    []string // of the lines that go with it
}

// Way is how a grip moves.
type Way string

// The ways: up and down, along the ground, and about a point.
const (
	Up    Way = "up"
	Along Way = "along"
	Turn  Way = "turn"
)

// mapOf finds the plan that a page is about among its lines; nil where there is none, or several small ones.
func mapOf(one sheet.Single, lines []render.Mark) *Map {
	if !slices.Contains([]request.Kind{request.Full, request.Trace, request.Practice, request.Answer, request.Overlay}, one.Kind) {
		return nil
	}
	prefix := ""
	if one.Kind == request.Overlay && one.Request.Subject() > 0 {
		prefix = "p2-"
	}
	c, ok := wheelOn(lines, prefix)
	if !ok && prefix != "" { // what both share is drawn once
		c, ok = wheelOn(lines, "")
	}
	if !ok || !one.Views.Has(request.SideView) {
		return nil
	}
	return &Map{draft.Pt(c.Centre.X, c.Centre.Y+c.R), 2 * float64(c.R), one.Request.Setting.Facing == request.Left, prefix}
}

// planPoint returns a point of the plan.
func planPoint(x, y geom.Wheels) layout.Point { return layout.Point{X: x, Y: y} }

// at returns the place on the screen of a place of the plan.
func (m Map) at(q layout.Point) render.Point {
	out := m.Axle.Add(draft.Pt(geom.MM(float64(q.X)*m.PerWheel), geom.MM(-float64(q.Y)*m.PerWheel)))
	if !m.Left {
		out.X = 2*m.Axle.X - out.X
	}
	return out
}

// apart is how far a narrow screen's grips are from each other, in pixels: nearer ones are left out, the less important first.
const apart = 26

// grips lists the places at which a plan is dragged, of the guides that are drawn, the most important first.
func (m Map) grips(p layout.Plan, lines []render.Mark, narrow bool) []Grip {
	along := m.PerWheel // of a figure that grows rearwards
	if !m.Left {
		along = -along
	}
	const diagonal = math.Sqrt2 / 2
	foot, head := p.PillarFoot(), p.PillarHead()
	glass := planPoint(p.GlassEnd(), (p.Belt()+p.Height())/2)
	turn := -1. // a steeper pillar turns towards the nose
	if !m.Left {
		turn = 1
	}
	all := []Grip{
		{Figure: segments.Height, At: m.at(planPoint((head.X+p.GlassEnd())/2, p.Height())), Way: Up, IDs: []string{"roof"}},
		{Figure: segments.Belt, At: m.at(planPoint(p.Wheelbase()/2, p.Belt())), Way: Up,
			IDs: []string{"belt", "belt-ahead", "belt-level", "belt-pivot"}},
		{Figure: segments.Sill, At: m.at(planPoint(.62*p.Wheelbase(), p.Sill())), Way: Up, IDs: []string{"sill", "sill-front", "sill-rear"}},
		{Figure: segments.Clearance, At: m.at(planPoint(.38*p.Wheelbase(), p.Clearance())), Way: Up, IDs: []string{"clearance"}},
		{Figure: segments.FrontOverhang, At: m.at(planPoint(p.Nose(), .8)), Way: Along, Per: -along, IDs: []string{"nose"}},
		{Figure: segments.RearOverhang, At: m.at(planPoint(p.Tail(), .8)), Way: Along, Per: along, IDs: []string{"tail"}},
		{Figure: segments.GlassEnd, At: m.at(glass), Way: Along, Per: along, IDs: []string{"glass-end"}},
		{Figure: segments.WheelsBetween, At: m.at(planPoint(p.Wheelbase(), p.RearRadius())), Way: Along, Per: along,
			IDs: []string{"wheel-rear", "rim-rear"}},
		{Figure: segments.ArchGap, At: m.at(planPoint(-diagonal*p.FrontArch(), .5+diagonal*p.FrontArch())), Way: Up, IDs: []string{"arch-front"}},
		{Figure: segments.PillarRake, At: m.at(head), Way: Turn, Per: turn, About: m.at(foot), IDs: []string{"pillar"}},
		{Figure: segments.PillarAim, At: m.at(planPoint(0, p.PillarAim())), Way: Up, IDs: []string{"pillar-mark"}},
	}
	drawn := map[string]bool{}
	for _, line := range lines {
		drawn[line.Tag().ID] = true
	}
	var out []Grip
	for _, g := range all {
		for i, id := range g.IDs { // what an overlay's vehicles share is drawn once
			if drawn[m.prefix+id] {
				g.IDs[i] = m.prefix + id
			}
		}
		g.IDs = slices.DeleteFunc(g.IDs, func(id string) bool { return !drawn[id] })
		if g.Way == Up {
			g.Per = -m.PerWheel
		}
		near := func(h Grip) bool { return narrow && h.At.Sub(g.At).Len() < apart }
		if len(g.IDs) > 0 && !math.IsNaN(float64(g.At.X)) && !slices.ContainsFunc(out, near) {
			out = append(out, g)
		}
	}
	return out
}
