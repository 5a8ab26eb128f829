package layout

import (
	"math"

	"hubrule/internal/geom"
)

// Ground angles by the tangent construction of 49 CFR 523.2: a line that touches the tyre's arc
// and the underside. The tyre is taken at its free radius, so a loaded vehicle has a little less.

// tangentAngle returns the angle from the ground of the line that touches a tyre of radius r from
// below and passes through the corner at distance x from the wheel's centre line and height h.
// x, h and r share one unit. A corner inside the tyre has no tangent: 90°.
func tangentAngle(r, x, h float64) geom.Degrees {
	d := math.Hypot(x, h-r)
	if d <= r {
		return 90
	}
	return geom.Degrees((math.Asin(r/d) + math.Atan2(h-r, x)) * 180 / math.Pi)
}

// Approach returns the approach angle over the lower front corner.
func (p Plan) Approach() geom.Degrees {
	return tangentAngle(.5, float64(-p.Nose()-p.ChinSetback()), float64(p.Chin()))
}

// Departure returns the departure angle over the lower rear corner.
func (p Plan) Departure() geom.Degrees {
	return tangentAngle(float64(p.RearRadius()), float64(p.Tail()-p.TailSetback()-p.Wheelbase()), float64(p.TailLow()))
}

// Breakover returns the breakover angle: the least sum of both tangents along the underbody,
// which is level at the clearance between the tyres.
func (p Plan) Breakover() geom.Degrees { return p.breakoverAt(p.breakoverX()) }

// breakoverX returns the x of the underbody that a ramp touches first.
func (p Plan) breakoverX() float64 {
	lo, hi := .5, float64(p.Wheelbase()-p.RearRadius())
	// The sum is convex between the tyres: golden section, to far below any printed digit.
	const golden = .6180339887498949
	a, b := hi-float64(golden*(hi-lo)), lo+float64(golden*(hi-lo))
	for hi-lo > 1e-9 {
		if p.breakoverAt(a) < p.breakoverAt(b) {
			hi, b = b, a
			a = hi - float64(golden*(hi-lo))
		} else {
			lo, a = a, b
			b = lo + float64(golden*(hi-lo))
		}
	}
	return (lo + hi) / 2
}

// AngleLine is a line of a ground angle: from where it touches a tyre to the corner of the underside that it passes.
type AngleLine struct{ Touch, Corner Point }

// ExtendTo returns the end of the line, extended to x or up to height top, whichever comes first. The line is vertical where the
// corner lies inside the tyre or over its edge.
func (l AngleLine) ExtendTo(x, top geom.Wheels) Point {
	along, ahead := l.Corner.Sub(l.Touch), x-l.Touch.X
	if along.X*ahead <= 0 {
		return Point{X: l.Touch.X, Y: top}
	}
	share := float64(ahead / along.X)
	if end := l.Touch.Add(along.Times(share)); end.Y <= top {
		return end
	}
	return l.Touch.Add(along.Times(float64((top - l.Touch.Y) / along.Y)))
}

// tangentLine returns the line at an angle from the ground that touches the tyre of radius r round c from below, on its way to corner.
func tangentLine(c Point, r geom.Wheels, angle geom.Degrees, corner Point) AngleLine {
	sin, cos := math.Sincos(angle.Radians())
	if corner.X < c.X {
		sin = -sin
	}
	return AngleLine{c.Add(Point{X: geom.Wheels(float64(r) * sin), Y: geom.Wheels(float64(r) * -cos)}), corner}
}

// AngleLines returns the lines of approach, departure and of both sides of the breakover angle.
func (p Plan) AngleLines() (approach, departure, rampFront, rampRear AngleLine) {
	front, rear := Point{Y: .5}, Point{X: p.Wheelbase(), Y: p.RearRadius()}
	x := p.breakoverX()
	apex := Point{X: geom.Wheels(x), Y: p.Clearance()}
	toFront := tangentAngle(.5, x, float64(p.Clearance()))
	toRear := tangentAngle(float64(p.RearRadius()), float64(p.Wheelbase())-x, float64(p.Clearance()))
	return tangentLine(front, .5, p.Approach(), Point{X: p.Nose() + p.ChinSetback(), Y: p.Chin()}),
		tangentLine(rear, p.RearRadius(), p.Departure(), Point{X: p.Tail() - p.TailSetback(), Y: p.TailLow()}),
		tangentLine(front, .5, toFront, apex), tangentLine(rear, p.RearRadius(), toRear, apex)
}

// breakoverAt returns the sum of the tangent angles to both tyres through the underbody x behind the front axle.
func (p Plan) breakoverAt(x float64) geom.Degrees {
	h := float64(p.Clearance())
	return tangentAngle(.5, x, h) + tangentAngle(float64(p.RearRadius()), float64(p.Wheelbase())-x, h)
}
