// Package geom holds the units, points and curves that every other room speaks in.
//
// A unit is a type, never a suffix of a name. Three spaces occur:
//
//	plan space   wheels, x rearwards from the front axle, y up from the ground
//	page space   millimetres, x right and y down from the top left corner
//	body space   real millimetres, only for dimensions
//
// Products that feed sums are wrapped in float64 or their own type, so that no
// processor fuses them into one rounding: every machine draws the same sheet.
package geom

import (
	"cmp"
	"math"
)

// Wheels is a length in outside diameters of the front tyre, the unit "w".
type Wheels float64

// MM is a length in millimetres, on paper or on the vehicle.
type MM float64

// Inch is an inch, exact by definition (ISO 31-1, MEM).
const Inch MM = 25.4

// Degrees is an angle in degrees, counter-clockwise in plan space.
type Degrees float64

// Radians returns d in radians.
func (d Degrees) Radians() float64 { return float64(d) * math.Pi / 180 }

// Tan returns the tangent of d: the slope of a line at that angle.
func (d Degrees) Tan() float64 { return math.Tan(d.Radians()) }

// Scalar is any length or plain number that a point can be made of.
type Scalar interface{ ~float64 }

// Clamp returns v, moved into lo to hi.
func Clamp[U cmp.Ordered](v, lo, hi U) U { return max(lo, min(hi, v)) }

// Point is a place, or a step between two places, in the space of its unit.
type Point[U Scalar] struct{ X, Y U }

// Add returns p moved by q.
func (p Point[U]) Add(q Point[U]) Point[U] { return Point[U]{p.X + q.X, p.Y + q.Y} }

// Sub returns the step from q to p.
func (p Point[U]) Sub(q Point[U]) Point[U] { return Point[U]{p.X - q.X, p.Y - q.Y} }

// Times returns the step p made k times as long.
func (p Point[U]) Times(k float64) Point[U] {
	return Point[U]{U(float64(float64(p.X) * k)), U(float64(float64(p.Y) * k))}
}

// Dot returns the inner product of two steps.
func (p Point[U]) Dot(q Point[U]) float64 {
	return float64(float64(p.X)*float64(q.X)) + float64(float64(p.Y)*float64(q.Y))
}

// Cross returns the cross product of two steps: positive when q turns counter-clockwise from p in plan space.
func (p Point[U]) Cross(q Point[U]) float64 {
	return float64(float64(p.X)*float64(q.Y)) - float64(float64(p.Y)*float64(q.X))
}

// Len returns the length of the step p.
func (p Point[U]) Len() U { return U(math.Hypot(float64(p.X), float64(p.Y))) }

// Unit returns the step p at length 1; the zero step stays zero.
func (p Point[U]) Unit() Point[U] {
	n := p.Len()
	if n == 0 {
		return p
	}
	return Point[U]{p.X / n, p.Y / n}
}

// Lerp returns the point a share t of the way from p to q.
func (p Point[U]) Lerp(q Point[U], t float64) Point[U] { return p.Add(q.Sub(p).Times(t)) }

// Box is an axis-parallel rectangle from Min to Max. A Box with Min beyond Max is empty.
type Box[U Scalar] struct{ Min, Max Point[U] }

// BoxOf returns the smallest box that holds all the points.
func BoxOf[U Scalar](p Point[U], more ...Point[U]) Box[U] {
	b := Box[U]{p, p}
	for _, q := range more {
		b.Min = Point[U]{min(b.Min.X, q.X), min(b.Min.Y, q.Y)}
		b.Max = Point[U]{max(b.Max.X, q.X), max(b.Max.Y, q.Y)}
	}
	return b
}

// Grow returns b wider by d on every side.
func (b Box[U]) Grow(d U) Box[U] {
	return Box[U]{Point[U]{b.Min.X - d, b.Min.Y - d}, Point[U]{b.Max.X + d, b.Max.Y + d}}
}

// Overlaps reports whether b and c share any area.
func (b Box[U]) Overlaps(c Box[U]) bool {
	return b.Min.X < c.Max.X && c.Min.X < b.Max.X && b.Min.Y < c.Max.Y && c.Min.Y < b.Max.Y
}

// Contains reports whether c lies in b, edges included.
func (b Box[U]) Contains(c Box[U]) bool {
	return c.Min.X >= b.Min.X && c.Max.X <= b.Max.X && c.Min.Y >= b.Min.Y && c.Max.Y <= b.Max.Y
}

// Width returns the extent of b along x.
func (b Box[U]) Width() U { return b.Max.X - b.Min.X }

// Height returns the extent of b along y.
func (b Box[U]) Height() U { return b.Max.Y - b.Min.Y }

// Point3 is a place, or a step between two places, in three dimensions. In plan space x runs rearwards from the front axle,
// y up from the ground and z from the centre line to the vehicle's left: towards the viewer of a left-facing side view.
type Point3[U Scalar] struct{ X, Y, Z U }

// Add returns p moved by q.
func (p Point3[U]) Add(q Point3[U]) Point3[U] { return Point3[U]{p.X + q.X, p.Y + q.Y, p.Z + q.Z} }

// Sub returns the step from q to p.
func (p Point3[U]) Sub(q Point3[U]) Point3[U] { return Point3[U]{p.X - q.X, p.Y - q.Y, p.Z - q.Z} }

// Times returns the step p made k times as long.
func (p Point3[U]) Times(k float64) Point3[U] {
	return Point3[U]{U(float64(float64(p.X) * k)), U(float64(float64(p.Y) * k)), U(float64(float64(p.Z) * k))}
}

// Dot returns the inner product of two steps.
func (p Point3[U]) Dot(q Point3[U]) float64 {
	return float64(float64(p.X)*float64(q.X)) + float64(float64(p.Y)*float64(q.Y)) + float64(float64(p.Z)*float64(q.Z))
}

// Cross returns the cross product of two steps: the normal of the plane in which both lie.
func (p Point3[U]) Cross(q Point3[U]) Point3[U] {
	of := func(a, b, c, d U) U { return U(float64(float64(a)*float64(d)) - float64(float64(b)*float64(c))) }
	return Point3[U]{of(p.Y, p.Z, q.Y, q.Z), of(p.Z, p.X, q.Z, q.X), of(p.X, p.Y, q.X, q.Y)}
}

// Len returns the length of the step p.
func (p Point3[U]) Len() U { return U(math.Sqrt(p.Dot(p))) }

// Unit returns the step p at length 1; the zero step stays zero.
func (p Point3[U]) Unit() Point3[U] {
	n := p.Len()
	if n == 0 {
		return p
	}
	return Point3[U]{p.X / n, p.Y / n, p.Z / n}
}

// Lerp returns the point a share t of the way from p to q.
func (p Point3[U]) Lerp(q Point3[U], t float64) Point3[U] { return p.Add(q.Sub(p).Times(t)) }

// Mirror returns p on the other side of the centre line.
func (p Point3[U]) Mirror() Point3[U] { return Point3[U]{p.X, p.Y, -p.Z} }
