package geom

import (
	"math"
	"slices"
)

// Spline is a line of cubics that meet end to end. A position on it is the number of a cubic plus the parameter there.
type Spline[U Scalar] []Cubic[U]

// locate returns the cubic on which a position lies and the parameter there.
func (s Spline[U]) locate(position float64) (piece int, t float64) {
	piece = min(int(position), len(s)-1)
	return piece, position - float64(piece)
}

// Find returns the first position between from and to, walking that way, at which holds turns true, found by halving;
// to where it never does.
func (s Spline[U]) Find(from, to float64, holds func(at, dir Point[U]) bool) float64 {
	const samples = 32 // places of each cubic that are looked at
	test := func(position float64) bool {
		i, t := s.locate(position)
		return holds(s[i].At(t), s[i].Derivative(t))
	}
	n := int(math.Ceil(math.Abs(to-from) * samples))
	last := from
	for i := range n + 1 {
		p := from + float64((to-from)*float64(i)/float64(max(n, 1)))
		if test(p) {
			p, _ = Bisect(p, last, 40, test)
			return p
		}
		last = p
	}
	return to
}

// At returns the point at a position.
func (s Spline[U]) At(position float64) Point[U] {
	i, t := s.locate(position)
	return s[i].At(t)
}

// Part returns the piece of s between two positions.
func (s Spline[U]) Part(from, to float64) Spline[U] {
	i, start := s.locate(from)
	j, end := s.locate(to)
	if i == j {
		return Spline[U]{s[i].Cut(start, end)}
	}
	return slices.Concat(Spline[U]{s[i].Cut(start, 1)}, s[i+1:j], Spline[U]{s[j].Cut(0, end)})
}

// Backwards returns s walked from its end to its start.
func (s Spline[U]) Backwards() Spline[U] {
	out := slices.Clone(s)
	slices.Reverse(out)
	for i, c := range out {
		out[i] = Cubic[U]{c[3], c[2], c[1], c[0]}
	}
	return out
}

// End returns place, direction and curvature at a position.
func (s Spline[U]) End(position float64) EndCondition[U] {
	i, t := s.locate(position)
	c := s[i].Cut(t, 1)
	in, next := c[1].Sub(c[0]), c[2].Sub(c[1])
	n := float64(in.Len())
	return EndCondition[U]{c[0], in.Unit(), 2. / 3 * in.Cross(next) / (n * n * n)}
}
