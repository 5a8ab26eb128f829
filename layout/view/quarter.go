package view

import (
	"math"

	"hubrule/internal/geom"
)

// quarter is the super-ellipse quarter E(d) by which the half-width grows from the outline inwards: 0 on the outline, 1 from the depth
// on, tangent to the side and upright on the outline.
type quarter struct{ depth, exponent float64 }

// crowned is the turn from a top surface into the side; its exponent is judged by eye.
func crowned(depth float64) quarter { return quarter{depth, 2.6} }

// at returns E at a distance from the outline, and the derivative of its logarithm there.
func (q quarter) at(d float64) (value, log float64) {
	switch {
	case d <= 0:
		return 0, math.Inf(1)
	case d >= q.depth:
		return 1, 0
	}
	ln := math.Log1p(-d / q.depth)
	rest := -math.Expm1(q.exponent * ln) // 1 − (1 − d/depth)^exponent without loss near 0
	value = math.Exp(math.Log(rest) / q.exponent)
	return value, math.Exp((q.exponent-1)*ln) / float64(q.depth*rest)
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
