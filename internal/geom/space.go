package geom

import "math"

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

// Cross returns the outer product of two steps: the normal of the plane in which both lie.
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
