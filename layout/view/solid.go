package view

import (
	"math"

	"hubrule/geom"
	"hubrule/layout"
	"hubrule/segments"
)

// Point3 is a place in plan space: wheels, x rearwards from the front axle, y up from the ground, z to the vehicle's left.
type Point3 = geom.Point3[geom.Wheels]

// Solid is the body over a solved side view: one half-width function Z(x, y), told in docs/views.md.
type Solid struct {
	Plan    layout.Plan
	Anatomy layout.Anatomy

	shape    segments.Solid
	form     segments.Form
	width    float64
	tumble   float64 // tangent of the tumblehome
	rise     float64 // tangent of the belt's rise
	places   places
	face     graph // x of the face over y
	back     graph // x of the tail over y; on up a tailgate
	top      graph // y of bonnet, roof and deck over x
	low      graph // y of the lower edge over x
	screen   graph // x of the screen's edge over y
	rear     graph // x of the rear screen over y, where one stands on a deck or bed; open: of the frame's rear edge
	rail     graph // open: y of the frame's upper rail over x
	cowlHalf float64
}

// Of builds the solid over p. It moves with every figure of p.
func Of(p layout.Plan) *Solid {
	s := &Solid{Plan: p, Anatomy: p.Anatomy(), shape: p.Profile.Solid, form: p.Profile.Form}
	s.width = p.Values[segments.Width]
	s.tumble = geom.Degrees(p.Values[segments.Tumblehome]).Tan()
	s.rise = p.BeltRise.Tan()
	s.survey()
	s.cowlHalf = s.half(s.places.cowl.x, s.places.cowl.y)
	return s
}

// quarter is the super-ellipse quarter E(d; depth, square): 0 on the outline, 1 from depth on, tangent to the side and upright on
// the outline. It returns the value and the derivative of its logarithm by d.
func quarter(d, depth, square float64) (value, log float64) {
	switch {
	case d <= 0:
		return 0, math.Inf(1)
	case d >= depth:
		return 1, 0
	}
	ln := math.Log1p(-d / depth)
	rest := -math.Expm1(square * ln) // 1 − (1 − d/depth)^square without loss near 0
	value = math.Exp(math.Log(rest) / square)
	return value, math.Exp((square-1)*ln) / float64(depth*rest)
}

// ease runs from 0 at a to 1 at b with level ends.
func ease(a, b, v float64) float64 {
	t := math.Min(1, math.Max(0, (v-a)/(b-a)))
	return t * t * (3 - 2*t)
}

// crownSquare is the exponent of the turn from a top surface into the side; judged by eye.
const crownSquare = 2.6

// HalfWidth returns the half-width of the body over a place of the side view; 0 on and outside the outline.
// Over the deck of a vehicle with a rear screen it is the cab's.
func (s *Solid) HalfWidth(p layout.Point) geom.Wheels {
	return geom.Wheels(s.half(float64(p.X), float64(p.Y)))
}

// half is HalfWidth in plain numbers.
func (s *Solid) half(x, y float64) float64 {
	return s.halfOf(x, y, s.isCab(x, y))
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

// factor is one super-ellipse quarter of Z: how deep a place lies under one part of the outline, and that depth's derivatives.
type factor struct{ d, dx, dy, depth, square float64 }

// factors lists what takes its share of the side at (x, y). cab tells which side of a shelf or rail is meant.
func (s *Solid) factors(x, y float64, cab bool) (out [4]factor) {
	n := s.shape
	front, frontSlope := s.face.at(y)
	out[0] = factor{x - front, 1, -frontSlope, float64(n.NoseLength), n.NoseSquare}
	back, backSlope := s.back.at(y)
	out[1] = factor{back - x, -1, backSlope, float64(n.TailLength), n.TailSquare}
	out[2], out[3] = factor{d: 1}, factor{d: 1}
	if top, slope, depth := s.crown(x, cab); depth > 1e-6 {
		out[2] = factor{top - y, slope, -1, depth, crownSquare}
	}
	if cab && s.places.hasFoot {
		rear, slope := s.rear.at(y)
		out[3] = factor{rear - x, -1, slope, float64(n.RearBow), n.RearSquare}
	}
	return out
}

// halfOf returns Z over (x, y).
func (s *Solid) halfOf(x, y float64, cab bool) float64 {
	z, _ := s.plain(x, y)
	for _, f := range s.factors(x, y, cab) {
		e, _ := quarter(f.d, f.depth, f.square)
		z *= e
	}
	return z
}

// surface returns Z over (x, y) and the derivatives of ln Z.
func (s *Solid) surface(x, y float64, cab bool) (z, byX, byY float64) {
	side, sx, sy := s.side(x, y)
	z, byX, byY = side, sx/side, sy/side
	for _, f := range s.factors(x, y, cab) {
		if e, log := quarter(f.d, f.depth, f.square); e < 1 {
			z *= e
			byX += float64(log * f.dx)
			byY += float64(log * f.dy)
		}
	}
	return z, byX, byY
}

// side returns the half-width of the body side and of the glass above it, before nose, tail and roof take their share, and
// its derivatives.
func (s *Solid) side(x, y float64) (z, byX, byY float64) {
	z, byY = s.plain(x, y)
	const h = 1e-5 // along x the side is smooth and nearly straight
	ahead, _ := s.plain(x+h, y)
	behind, _ := s.plain(x-h, y)
	return z, (ahead - behind) / (2 * h), byY
}

// The side's own numbers, in wheels; judged by eye.
const (
	taperEnds  = .03  // the side's taper from the axles to nose and tail
	waist      = .66  // height of the widest line as a share of sill to belt
	doorsIn    = .012 // the doors inside the arches, at the widest line
	underArch  = .006 // tuck at the arches
	glassCurve = .03  // curve of the side glass, per w
	archReach  = .6   // over which the arches' width runs into the doors'
)

func (s *Solid) plain(x, y float64) (z, byY float64) {
	p := s.Plan
	base := float64(p.Wheelbase)
	out := math.Max(0, math.Abs(x-base/2)-base/2) / (float64(p.Tail-p.Nose)/2 - base/2)
	full := s.width/2 - float64(taperEnds*out*out)
	door := ease(float64(p.FrontArch)+.02, float64(p.FrontArch)+.02+archReach, x) *
		ease(float64(p.RearArch)+.02, float64(p.RearArch)+.02+archReach, base-x)
	sill, belt := float64(p.Sill), float64(p.Belt)+float64((x-base/2)*s.rise)
	wide := sill + float64(waist*(belt-sill))
	full -= float64(doorsIn * door)
	inset := float64(s.shape.BeltInset)
	switch {
	case y <= wide:
		tuck, t := float64(float64(s.shape.Tuck)*door)+underArch, (wide-y)/(wide-sill)
		return full - float64(tuck*t*t), 2 * tuck * t / (wide - sill)
	case y <= belt:
		t := (y - wide) / (belt - wide)
		return full - float64(inset*t*t), -2 * inset * t / (belt - wide)
	}
	v := y - belt
	return full - inset - float64(v*s.tumble) - float64(glassCurve*v*v), -s.tumble - 2*glassCurve*v
}

// crown returns the height from which a section's top edge rounds into its side, the slope of that height and the depth of
// the rounding; depth 0: none. Over screen, face and tail the height stays that of the roof's or bonnet's end, so that each crown
// alone shapes its corner.
func (s *Solid) crown(x float64, cab bool) (top, slope, depth float64) {
	const atCowl = .02 // a wing rises to the belt
	p, n := &s.places, s.shape
	roof := float64(n.RoofCrown)
	switch {
	case x < p.cowl.x:
		top, slope = s.top.at(x)
		return top, slope, atCowl + float64((float64(n.BonnetCrown)-atCowl)*math.Min(1, (p.cowl.x-x)/(p.cowl.x-p.edge.x)))
	case s.form == segments.Open && cab && x <= p.head.x:
		return p.head.y, 0, roof
	case s.form == segments.Open && cab:
		top, slope = s.rail.at(x)
		return top, slope, roof
	case s.form == segments.Open:
		top, slope = s.top.at(x)
		return top, slope, float64(n.DeckCrown) * ease(p.opening.hi, p.opening.hi+.5, x)
	case x <= p.head.x:
		return p.head.y, 0, roof
	case !p.hasFoot:
		top, slope = s.top.at(x)
		if s.form == segments.Fastback {
			roof = mix(roof, float64(n.DeckCrown), ease(p.roofEnd.x-.2, float64(s.Plan.Tail)-.1, x))
		}
		return top, slope, roof
	case cab && x > p.screenTop.x:
		return p.screenTop.y, 0, roof
	case cab:
		top, slope = s.top.at(x)
		return top, slope, roof
	case x < p.foot.x || s.form == segments.Bed:
		return 0, 0, 0
	}
	top, slope = s.top.at(x)
	return top, slope, float64(n.DeckCrown) * ease(p.foot.x, p.foot.x+.6, x)
}
