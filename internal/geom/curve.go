package geom

import "math"

// Quad is a parabola as a quadratic Bézier: start, control point, end.
type Quad[U Scalar] [3]Point[U]

// Cubic is a cubic Bézier: start, two control points, end.
type Cubic[U Scalar] [4]Point[U]

// Parabola is the curve y = Vertex.Y + Bend·(x − Vertex.X)²; Turned exchanges x and y.
type Parabola[U Scalar] struct {
	Vertex Point[U]
	Bend   float64 // per U
	Turned bool
}

// Bowed returns the line from a to b whose middle stands rise to the left of its chord: the draughtsman's bow.
func Bowed[U Scalar](a, b Point[U], rise U) Quad[U] {
	d := b.Sub(a).Unit()
	left := Point[U]{-d.Y, d.X}
	return Quad[U]{a, a.Lerp(b, .5).Add(left.Times(2 * float64(rise))), b}
}

// turned exchanges x and y of q where p is turned.
func (p Parabola[U]) turned(q Point[U]) Point[U] {
	if p.Turned {
		return Point[U]{q.Y, q.X}
	}
	return q
}

// Along returns p between from and to on its own axis: x, or y when turned. It is exact.
func (p Parabola[U]) Along(from, to U) Quad[U] {
	a := p.On(from)
	slope, half := 2*p.Bend*float64(from-p.turned(p.Vertex).X), float64(to-from)/2
	return Quad[U]{a, a.Add(p.turned(Point[U]{U(half), U(slope * half)})), p.On(to)}
}

// On returns the point of p at t on its own axis.
func (p Parabola[U]) On(t U) Point[U] {
	peak := p.turned(p.Vertex)
	d := float64(t - peak.X)
	return p.turned(Point[U]{t, peak.Y + U(p.Bend*d*d)})
}

// At returns the point of q at parameter t in 0..1.
func (q Quad[U]) At(t float64) Point[U] { return q.blossom(t, t) }

func (q Quad[U]) blossom(s, t float64) Point[U] {
	return q[0].Lerp(q[1], s).Lerp(q[1].Lerp(q[2], s), t)
}

// Cut returns the piece of q between parameters from and to (de Casteljau).
func (q Quad[U]) Cut(from, to float64) Quad[U] {
	return Quad[U]{q.blossom(from, from), q.blossom(from, to), q.blossom(to, to)}
}

// Elevate returns q as a cubic; nothing is approximated.
func (q Quad[U]) Elevate() Cubic[U] {
	return Cubic[U]{q[0], q[0].Lerp(q[1], 2./3), q[2].Lerp(q[1], 2./3), q[2]}
}

// Length returns the length of q by 24 chords, short by less than a thousandth for the shallow bows of a body.
func (q Quad[U]) Length() U {
	var sum U
	at := q[0]
	for i := 1; i <= 24; i++ {
		next := q.At(float64(i) / 24)
		sum += next.Sub(at).Len()
		at = next
	}
	return sum
}

// Straight returns the line from a to b as a cubic with evenly spaced control points.
func Straight[U Scalar](a, b Point[U]) Cubic[U] {
	return Cubic[U]{a, a.Lerp(b, 1./3), a.Lerp(b, 2./3), b}
}

// At returns the point of c at parameter t in 0..1.
func (c Cubic[U]) At(t float64) Point[U] {
	a, b, d := c[0].Lerp(c[1], t), c[1].Lerp(c[2], t), c[2].Lerp(c[3], t)
	return a.Lerp(b, t).Lerp(b.Lerp(d, t), t)
}

// Cut returns the piece of c between parameters from and to (de Casteljau).
func (c Cubic[U]) Cut(from, to float64) Cubic[U] {
	at := func(r, s, t float64) Point[U] {
		a, b, d := c[0].Lerp(c[1], r), c[1].Lerp(c[2], r), c[2].Lerp(c[3], r)
		return a.Lerp(b, s).Lerp(b.Lerp(d, s), t)
	}
	return Cubic[U]{at(from, from, from), at(from, from, to), at(from, to, to), at(to, to, to)}
}

// Derivative returns the derivative of c by its parameter at t.
func (c Cubic[U]) Derivative(t float64) Point[U] {
	a, b, d := c[1].Sub(c[0]), c[2].Sub(c[1]), c[3].Sub(c[2])
	return a.Lerp(b, t).Lerp(b.Lerp(d, t), t).Times(3)
}

// Bounds returns the smallest box that holds c, from the roots of its derivative.
func (c Cubic[U]) Bounds() Box[U] {
	ends := []Point[U]{c[3]}
	for _, t := range append(extremes(c[0].X, c[1].X, c[2].X, c[3].X), extremes(c[0].Y, c[1].Y, c[2].Y, c[3].Y)...) {
		ends = append(ends, c.At(t))
	}
	return BoxOf(c[0], ends...)
}

// extremes returns the parameters inside 0..1 at which the cubic with these coefficients turns back.
func extremes[U Scalar](a, b, c, d U) []float64 {
	u, v, w := float64(b-a), float64(c-b), float64(d-c)
	// u(1−t)² + 2v·t(1−t) + w·t² = 0 as q2·t² + 2·q1·t + q0
	q2, q1, q0 := u-2*v+w, v-u, u
	disc := float64(q1*q1) - float64(q2*q0)
	if disc < 0 {
		return nil
	}
	// The stable pair of roots: no difference of nearly equal numbers.
	r := -(q1 + math.Copysign(math.Sqrt(disc), q1))
	var out []float64
	for _, t := range [2]float64{r / q2, q0 / r} {
		if t > 0 && t < 1 {
			out = append(out, t)
		}
	}
	return out
}

// BoundsOf returns the smallest box that holds all of run, which must not be empty.
func BoundsOf[U Scalar](run []Cubic[U]) Box[U] {
	box := run[0].Bounds()
	for _, c := range run[1:] {
		b := c.Bounds()
		box = BoxOf(box.Min, box.Max, b.Min, b.Max)
	}
	return box
}
