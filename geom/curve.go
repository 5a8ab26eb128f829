package geom

// Quad is a parabola as a quadratic Bézier: start, control point, end.
type Quad[U Scalar] [3]Point[U]

// Cubic is a cubic Bézier: start, two control points, end.
type Cubic[U Scalar] [4]Point[U]

// Straight returns the line from a to b as a cubic with evenly spaced control points.
func Straight[U Scalar](a, b Point[U]) Cubic[U] {
	return Cubic[U]{a, a.Mix(b, 1./3), a.Mix(b, 2./3), b}
}

// At returns the point of c at parameter t in 0..1.
func (c Cubic[U]) At(t float64) Point[U] {
	a, b, d := c[0].Mix(c[1], t), c[1].Mix(c[2], t), c[2].Mix(c[3], t)
	return a.Mix(b, t).Mix(b.Mix(d, t), t)
}
