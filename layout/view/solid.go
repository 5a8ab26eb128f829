// Package view turns a plan into a solid and finds what cameras see of it: the front, rear, top and side view and true pinhole
// perspective, with exact ellipses, hidden lines and contours. It knows no paper: what it gives lies in plan space or on a
// camera's picture. How the solid and the cameras work is described in docs/views.md.
// Lengths and shares of shape in its code are judged by eye unless they name a source; counts of steps and chords are as many as change
// nothing that is seen.
package view

import (
	"math"
	"sync"

	"hubrule/internal/geom"
	"hubrule/internal/parallel"
	"hubrule/layout"
	"hubrule/layout/outline"
	"hubrule/segments"
)

// Point3 is a place in plan space: wheels, x rearwards from the front axle, y up from the ground, z to the vehicle's left.
type Point3 = geom.Point3[geom.Wheels]

// Solid is the body over a solved side view: one half-width function Z(x, y), described in docs/views.md. Its numbers are in wheels.
type Solid struct {
	plan    layout.Plan
	outline outline.Outline

	shape    segments.Solid
	form     segments.Form
	side     sideFigures
	width    float64 // of the body
	tumble   float64 // tangent of the tumblehome
	rise     float64 // tangent of the belt's rise
	nose     quarter // by which the half-width grows behind the face, before the tail and before a rear screen
	tail     quarter
	bow      quarter
	places   places
	face     graph // x of the face over y
	back     graph // x of the tail over y; on up a tailgate
	top      graph // y of bonnet, roof and deck over x
	low      graph // y of the lower edge over x
	screen   graph // x of the screen's side edge over y
	centre   graph // x of the screen's centre line over y
	rear     graph // x of the rear screen over y, where one stands on a deck or bed; open: of the frame's rear edge
	roof     graph // y of the roof over x, where a rear screen stands behind it
	rail     graph // open: y of the frame's upper rail over x
	cowlHalf float64

	headSlope float64                 // of the roof where the screen's edge has turned into it
	panels    func() []panel          // the surface, made once for all cameras
	fittings  func() []superEllipsoid // closed bodies that stand on the left of the surface, likewise
	fitted    func() []panel          // their surfaces
	shell     func() *shell           // all that hides, likewise
	lines     func() []Line           // the vehicle's own, likewise
	cuts      func() []Line           // the sections, likewise
	glass     func() []Line           // the edges of its windows, closed
	crease    [][2]vertex             // left, between screen and roof above the A-pillar's head: on either surface
}

// NewSolid builds the solid over p. It moves with every figure of p.
func NewSolid(p layout.Plan) *Solid {
	s := &Solid{plan: p, outline: outline.Of(p), shape: p.Profile.Solid, form: p.Profile.Form}
	s.side, s.width = sideFiguresOf(p), p.Value(segments.Width)
	s.tumble = geom.Degrees(p.Value(segments.Tumblehome)).Tan()
	s.rise = p.BeltRise().Tan()
	s.nose = quarter{float64(s.shape.NoseLength), s.shape.NoseSquare}
	s.tail = quarter{float64(s.shape.TailLength), s.shape.TailSquare}
	s.bow = quarter{float64(s.shape.RearBow), s.shape.RearSquare}
	s.survey()
	roof := &s.top
	if s.form == segments.Open {
		roof = &s.rail
	} else if s.places.hasFoot {
		roof = &s.roof
	}
	_, s.headSlope = roof.at(s.places.head.x + 1e-6)
	// Nose and tail are full before the tyres begin, whatever the overhang.
	const least = .02              // where no overhang is left
	const around, full = 1.05, 1.1 // just outside the tyre; a quarter is full within a hair at 1 ÷ 1.1 of its depth
	r := float64(p.RearRadius())
	s.nose.depth = geom.Clamp(full*(-.5*around-s.face.value(.5)), least, s.nose.depth)
	s.tail.depth = geom.Clamp(full*(s.back.value(r)-float64(p.Wheelbase())-r*around), least, s.tail.depth)
	s.fitted = sync.OnceValue(func() []panel { return parallel.Map(s.fittings(), superEllipsoid.panel) })
	s.shell, s.lines, s.glass = sync.OnceValue(s.newShell), sync.OnceValue(s.ownLines), sync.OnceValue(s.windows)
	s.cuts = sync.OnceValue(s.sections)
	s.panels, s.fittings = sync.OnceValue(s.surfacePanels), sync.OnceValue(s.closedBodies)
	s.cowlHalf = float64(s.outer(s.places.cowl).p.Z)
	s.crease = s.screenCrease()
	return s
}

// ease runs from 0 at a to 1 at b with level ends.
func ease(a, b, v float64) float64 {
	switch t := (v - a) / (b - a); {
	case t <= 0:
		return 0
	case t >= 1:
		return 1
	default:
		return t * t * (3 - float64(2*t))
	}
}

// HalfWidth returns the half-width of the body over a place of the side view; 0 on and outside the outline.
// Over the deck of a vehicle with a rear screen it is the cab's.
func (s *Solid) HalfWidth(p layout.Point) geom.Wheels {
	q := at(p)
	return geom.Wheels(s.halfOf(q.x, q.y, s.isCab(q.x, q.y)))
}

// isCab reports whether (x, y) belongs to what stands on a deck or bed, or to an open car's screen frame.
func (s *Solid) isCab(x, y float64) bool {
	p := &s.places
	switch {
	case s.form == segments.Open:
		return x > p.cowl.x && y > s.top.value(x)+1e-9
	case p.hasFoot:
		return x < p.foot.x && y > p.foot.y
	}
	return false
}

// BeltWidth returns the body's width over the belt line, at mid-wheelbase.
func (s *Solid) BeltWidth() geom.Wheels { return s.widthAt(s.plan.Belt()) }

// RoofWidth returns the width that the side glass leaves at the header's height, at mid-wheelbase, before the roof's edge rounds in.
func (s *Solid) RoofWidth() geom.Wheels { return s.widthAt(s.plan.PillarHead().Y) }

func (s *Solid) widthAt(y geom.Wheels) geom.Wheels {
	half, _ := s.bodySide(float64(s.plan.Wheelbase())/2, float64(y))
	return geom.Wheels(2 * half)
}

// ends are the x of face, tail and rear screen at one height, with the slopes of these lines.
type ends struct{ face, faceSlope, back, backSlope, rear, rearSlope float64 }

// endsAt returns the ends at height y; the rear screen only where it takes its share, on a cab.
func (s *Solid) endsAt(y float64, cab bool) (e ends) {
	e.face, e.faceSlope = s.face.at(y)
	e.back, e.backSlope = s.back.at(y)
	if cab && s.places.hasFoot {
		e.rear, e.rearSlope = s.rear.at(y)
	}
	return e
}

// endsNear is endsAt for the place (x, y): ends that lie so far away that the side is full there are left infinitely far.
func (s *Solid) endsNear(x, y float64, cab bool) ends {
	e := ends{face: math.Inf(-1), back: math.Inf(1), rear: math.Inf(1)}
	if !s.face.isBounded(y) || x < s.face.most+s.nose.depth {
		e.face, e.faceSlope = s.face.at(y)
	}
	if !s.back.isBounded(y) || x > s.back.least-s.tail.depth {
		e.back, e.backSlope = s.back.at(y)
	}
	if cab && s.places.hasFoot && (!s.rear.isBounded(y) || x > s.rear.least-s.bow.depth) {
		e.rear, e.rearSlope = s.rear.at(y)
	}
	return e
}

// halfOf returns Z over (x, y).
func (s *Solid) halfOf(x, y float64, cab bool) float64 {
	return s.halfBetween(s.endsNear(x, y, cab), x, y, cab)
}

// halfBetween returns Z over (x, y), between the ends at height y. cab chooses the side of a shelf or rail.
func (s *Solid) halfBetween(e ends, x, y float64, cab bool) float64 {
	return s.halfUnder(s.crown(x, cab), e, x, y, cab)
}

// halfUnder returns Z over (x, y), between the ends at height y and under the crown at x.
func (s *Solid) halfUnder(c crown, e ends, x, y float64, cab bool) float64 {
	z, _ := s.bodySide(x, y)
	z *= s.nose.value(x - e.face)
	z *= s.tail.value(e.back - x)
	if c.depth > noCrown {
		z *= crowned(c.depth).value(c.top - y)
	}
	if cab && s.places.hasFoot {
		z *= s.bow.value(e.rear - x)
	}
	return z
}

// noCrown is the depth of a crown up to which there is none.
const noCrown = 1e-6

// slopes are a half-width and the derivatives of its logarithm.
type slopes struct{ z, byX, byY float64 }

// take lets a quarter take its share at a depth that grows with x and y; its own depth grows along x.
func (s *slopes) take(q quarter, d, dx, dy, grows float64) {
	if e, log := q.at(d); e < 1 {
		s.z *= e
		s.byX += float64(log * (dx - float64(d/q.depth*grows)))
		s.byY += float64(log * dy)
	}
}

// halfAndSlopes returns Z over (x, y) and the derivatives of ln Z.
func (s *Solid) halfAndSlopes(x, y float64, cab bool) slopes {
	const h = 1e-5 // along x the side is smooth and nearly straight
	z, byY := s.bodySide(x, y)
	ahead, _ := s.bodySide(x+h, y)
	behind, _ := s.bodySide(x-h, y)
	out, e := slopes{z, (ahead - behind) / (2 * h) / z, byY / z}, s.endsNear(x, y, cab)
	out.take(s.nose, x-e.face, 1, -e.faceSlope, 0)
	out.take(s.tail, e.back-x, -1, e.backSlope, 0)
	if c := s.crown(x, cab); c.depth > noCrown && c.top-y < c.depth {
		const h = 1e-6
		grows := (c.depth - s.crownDepth(x-h, cab)) / h // from ahead: behind a bonnet another crown begins
		out.take(crowned(c.depth), c.top-y, c.slope, -1, grows)
	}
	if cab && s.places.hasFoot {
		out.take(s.bow, e.rear-x, -1, e.rearSlope, 0)
	}
	return out
}

// crown is the height from which a section's top edge rounds into its side, the slope of that height and the depth of the rounding; depth
// 0: none.
type crown struct{ top, slope, depth float64 }

// crown returns the crown at x. Over screen, face and tail its height stays that of the roof's or bonnet's end, so that each crown alone
// shapes its corner.
func (s *Solid) crown(x float64, cab bool) (out crown) {
	p := &s.places
	line, depth := s.crownLine(x, cab)
	switch out.depth = depth; {
	case x < p.cowl.x:
		out.top, out.slope = s.top.at(x)
		out.depth = s.bonnetCrown(x, out.top)
	case line != nil:
		out.top, out.slope = line.at(x)
	case depth > 0: // as the roof begins, so that its edge has no step
		out.top, out.slope = beyond(p.head.y, s.headSlope, x-p.head.x, runOut)
	}
	return out
}

// crownDepth returns the depth of crown alone.
func (s *Solid) crownDepth(x float64, cab bool) float64 {
	if x < s.places.cowl.x {
		return s.bonnetCrown(x, s.top.value(x))
	}
	_, depth := s.crownLine(x, cab)
	return depth
}

// bonnetCrown returns the depth of the crown at x under a bonnet's height.
func (s *Solid) bonnetCrown(x, top float64) float64 {
	const atCowl = .02 // a wing rises to the belt
	p := &s.places
	depth := atCowl + float64((float64(s.shape.BonnetCrown)-atCowl)*min(1, (p.cowl.x-x)/(p.cowl.x-p.edge.x)))
	const r = .5 + overTyre // deeper the front tyre would come out of the bonnet
	over := top - .5 - math.Sqrt(max(0, float64(r*r)-float64(x*x)))
	return min(depth, max(.03, over))
}

// crownLine returns the line from which the top edge behind the bonnet rounds into its side, nil over a screen, and how deep; depth 0:
// none.
func (s *Solid) crownLine(x float64, cab bool) (line *graph, depth float64) {
	p, n := &s.places, &s.shape
	depth = float64(n.RoofCrown)
	switch isOpen := s.form == segments.Open; {
	case x <= p.head.x && (cab || !isOpen):
		return nil, depth
	case isOpen && cab:
		return &s.rail, depth
	case isOpen:
		return &s.top, float64(n.DeckCrown) * ease(p.opening.hi, p.opening.hi+.5, x)
	case s.form == segments.Fastback:
		return &s.top, mix(depth, float64(n.DeckCrown), ease(p.roofEnd.x-.2, s.side.tail-.1, x))
	case !p.hasFoot:
		return &s.top, depth
	case cab:
		return &s.roof, depth
	case x < p.foot.x || s.form == segments.Bed:
		return nil, 0
	}
	return &s.top, float64(n.DeckCrown) * ease(p.foot.x, p.foot.x+.6, x)
}
