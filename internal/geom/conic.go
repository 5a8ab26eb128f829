package geom

import "math"

// Homogeneous is the image of a place or of a direction: right, down and depth, before the division by depth.
type Homogeneous [3]float64

// Ellipse is the exact image of a circle: centre, semi-axes and the angle of the major axis in radians, growing from x to y
// of its space. Seen edge-on a circle has Short 0: it is the segment between both ends of its major axis.
type Ellipse[U Scalar] struct {
	Centre      Point[U]
	Long, Short U
	Angle       float64
	Half        Point[U] // half width and half height of its box
	Cross       float64  // the matrix of its dual conic about the centre is [Half.X² Cross; Cross Half.Y²]
}

// ImageOfCircle returns the image of a circle whose semi-diameters, at right angles to each other, have the images a and b
// (directions), and whose centre has the image c. The dual conic of the image is a·aᵀ + b·bᵀ − c·cᵀ; it is moved to its own
// centre before axes are taken, which keeps the digits when the eye is far away.
// It reports false where the circle meets or passes the plane of the eye: there the image is no ellipse.
func ImageOfCircle[U Scalar](a, b, c Homogeneous) (Ellipse[U], bool) {
	w := float64(c[2]*c[2]) - float64(a[2]*a[2]) - float64(b[2]*b[2])
	if !(c[2] > 0 && w > 0) {
		return Ellipse[U]{}, false
	}
	var m [2]float64
	for i := range m {
		m[i] = (float64(c[2]*c[i]) - float64(a[2]*a[i]) - float64(b[2]*b[i])) / w
	}
	moved := func(q Homogeneous, i int) float64 { return q[i] - float64(m[i]*q[2]) }
	shape := func(i, j int) float64 {
		return (float64(moved(a, i)*moved(a, j)) + float64(moved(b, i)*moved(b, j)) - float64(moved(c, i)*moved(c, j))) / w
	}
	xx, xy, yy := math.Max(shape(0, 0), 0), shape(0, 1), math.Max(shape(1, 1), 0)
	half, gap := (xx+yy)/2, math.Hypot((xx-yy)/2, xy)
	e := Ellipse[U]{
		Centre: Point[U]{U(m[0]), U(m[1])},
		Angle:  math.Atan2(2*xy, xx-yy) / 2,
		Half:   Point[U]{U(math.Sqrt(xx)), U(math.Sqrt(yy))},
		Cross:  xy,
	}
	long := math.Sqrt(half + gap)
	e.Long = U(long)
	if long > 0 {
		// A circle seen square on has equal axes: the last digit must not make the short one the longer.
		e.Short = U(math.Min(math.Sqrt(math.Max(float64(xx*yy)-float64(xy*xy), 0))/long, long))
	}
	return e, true
}

// At returns the point of e at parameter t in radians; 0 lies on the major axis, π/2 on the minor one.
func (e Ellipse[U]) At(t float64) Point[U] {
	x, y := float64(e.Long)*math.Cos(t), float64(e.Short)*math.Sin(t)
	c, s := math.Cos(e.Angle), math.Sin(e.Angle)
	return e.Centre.Add(Point[U]{U(float64(x*c) - float64(y*s)), U(float64(x*s) + float64(y*c))})
}

// Degrees returns how round e is: 90° is a circle, 0° a segment. Ellipse templates carry this number.
func (e Ellipse[U]) Degrees() Degrees {
	if e.Long == 0 {
		return 90
	}
	return Degrees(math.Asin(math.Min(1, float64(e.Short/e.Long))) * 180 / math.Pi)
}

// Support returns how far e reaches from its centre along the direction n of length 1: the line n·x = n·Centre ± Support touches it.
func (e Ellipse[U]) Support(n Point[U]) U {
	x, y := float64(n.X), float64(n.Y)
	sum := float64(x*x*float64(e.Half.X*e.Half.X)) + float64(2*x*y*e.Cross) + float64(y*y*float64(e.Half.Y*e.Half.Y))
	return U(math.Sqrt(math.Max(0, sum)))
}

// TransformEllipse returns e in the other space of pl.
func TransformEllipse[U, V Scalar](e Ellipse[U], pl Similarity[U, V]) Ellipse[V] {
	k, turn := pl.Scale, 1.
	if pl.Mirror {
		turn = -1
	}
	return Ellipse[V]{
		Centre: pl.At(e.Centre),
		Long:   V(float64(e.Long) * k), Short: V(float64(e.Short) * k),
		Angle: turn * e.Angle,
		Half:  Point[V]{V(float64(e.Half.X) * k), V(float64(e.Half.Y) * k)},
		Cross: turn * e.Cross * k * k,
	}
}
