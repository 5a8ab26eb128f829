package view

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
)

// quarter is the super-ellipse quarter E(d) by which the half-width grows from the outline inwards over d wheels: 0 on the outline,
// 1 from the depth on, tangent to the side and upright on the outline.
type quarter struct{ depth, exponent float64 }

// crowned is the turn from a top surface into the side; its exponent is judged by eye.
func crowned(depth float64) quarter { return quarter{depth, 2.6} }

// at returns E at a distance from the outline, and the derivative of its logarithm there.
func (q quarter) at(d float64) (value, log float64) {
	if value, ln, rest := q.grown(d); value > 0 && value < 1 {
		return value, math.Exp((q.exponent-1)*ln) / float64(q.depth*rest)
	} else if value == 0 {
		return 0, math.Inf(1)
	}
	return 1, 0
}

// grown returns E at a distance from the outline; where it is neither 0 nor 1, the logarithm of the depth that is left, and E to the
// exponent.
func (q quarter) grown(d float64) (value, ln, rest float64) {
	switch {
	case d <= 0:
		return 0, 0, 0
	case d >= q.depth:
		return 1, 0, 1
	}
	ln = math.Log1p(-d / q.depth)
	rest = -math.Expm1(q.exponent * ln) // 1 − (1 − d/depth)^exponent without loss near 0
	return math.Exp(math.Log(rest) / q.exponent), ln, rest
}

// value returns E at a distance from the outline.
func (q quarter) value(d float64) float64 {
	value, _, _ := q.grown(d)
	return value
}

// inverse returns the distance from the outline at which E has a value.
func (q quarter) inverse(value float64) float64 {
	return q.depth * (1 - math.Pow(1-math.Pow(value, q.exponent), 1/q.exponent))
}

// evenly returns the distance from the outline a share of the way round, from 0 on the outline to 1 at full width: even turns, so that
// places lie neither far apart where the quarter is flat nor where it is upright.
func (q quarter) evenly(turn float64) float64 {
	_, cos := sincos(geom.Degrees(90 * turn))
	return q.depth * (1 - math.Pow(cos, 2/q.exponent))
}

// turnOf returns how far round E has grown to a value.
func (q quarter) turnOf(value float64) float64 {
	return math.Asin(math.Pow(value, q.exponent/2)) / (math.Pi / 2)
}

// The side's own numbers, in wheels; judged by eye.
const (
	taperEnds  = .03  // the side's taper from the axles to nose and tail
	waist      = .66  // height of the widest line as a share of sill to belt
	doorsIn    = .012 // the doors inside the arches, at the widest line
	underArch  = .006 // tuck at the arches
	glassCurve = .03  // curve of the side glass, per w
	archReach  = .6   // over which the arches' width runs into the doors'
	underBelt  = .08  // the widest line stays this far under the belt
	overTyre   = .03  // and over the arches this far above the tyre
)

// sideFigures are figures that each place of the body side needs, in wheels: looked up once.
type sideFigures struct {
	base, beyond, frontArch, rearArch, rearRadius, sill, belt float64 // beyond: from an axle to the end, on average
	nose, tail                                                float64
}

func sideFiguresOf(p layout.Plan) sideFigures {
	base := float64(p.Wheelbase())
	return sideFigures{base, float64(p.Tail()-p.Nose())/2 - base/2, float64(p.FrontArch()), float64(p.RearArch()),
		float64(p.RearRadius()), float64(p.Sill()), float64(p.Belt()), float64(p.Nose()), float64(p.Tail())}
}

// bodySide returns the half-width of the body side and of the glass above it, before nose, tail and roof take their share, and
// its derivative by y.
func (s *Solid) bodySide(x, y float64) (z, byY float64) {
	b := &s.side
	base := b.base
	out := max(0, math.Abs(x-base/2)-base/2) / b.beyond
	full := s.width/2 - float64(taperEnds*out*out)
	door := ease(b.frontArch+.02, b.frontArch+.02+archReach, x) * ease(b.rearArch+.02, b.rearArch+.02+archReach, base-x)
	sill, belt := b.sill, b.belt+float64((x-base/2)*s.rise)
	wide := sill + float64(waist*(belt-sill))
	tyre := 1.
	if x > base/2 {
		tyre = 2 * b.rearRadius
	}
	// Over the arches the widest line rises to the tyre's top: a wing covers its wheel.
	wide += float64((1 - door) * max(0, min(belt-underBelt, tyre+overTyre)-wide))
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
	return full - inset - float64(v*s.tumble) - float64(glassCurve*v*v), -s.tumble - float64(2*glassCurve*v)
}
