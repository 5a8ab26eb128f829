package view

import (
	"math"
	"slices"

	"hubrule/internal/geom"
)

type (
	point = geom.Point[geom.Wheels]
	cubic = geom.Cubic[geom.Wheels]

	spline = geom.Spline[geom.Wheels]
)

// graph is a spline read as a function of x, or of y: along that axis it only grows, or only falls.
type graph struct {
	spline spline    // its x is the axis along which it is read
	ends   []float64 // along the axis, ascending: start of each piece and end of the last
	lo, hi float64   // ends

	// Beyond its ends a graph stays level. An eased one levels off over a length instead, or goes on at half its slope where the
	// length is infinite: so there is no kink.
	easeLo, easeHi   float64
	slopeLo, slopeHi float64
}

// newGraph reads c as y over x, or as x over y if isOverY.
func newGraph(c spline, isOverY bool) graph {
	if isOverY {
		c = slices.Clone(c)
		for i := range c {
			for k, p := range c[i] {
				c[i][k] = point{X: p.Y, Y: p.X}
			}
		}
	}
	if c[0][0].X > c[len(c)-1][3].X {
		c = c.Backwards()
	}
	g := graph{spline: c, ends: []float64{float64(c[0][0].X)}}
	for _, q := range c {
		g.ends = append(g.ends, max(float64(q[3].X), g.ends[len(g.ends)-1]))
	}
	g.lo, g.hi = g.ends[0], g.ends[len(g.ends)-1]
	return g
}

// eased returns g so that it levels off smoothly beyond its ends, over these lengths.
func (g graph) eased(lo, hi float64) graph {
	_, g.slopeLo = g.at(g.lo + 1e-9)
	_, g.slopeHi = g.at(g.hi - 1e-9)
	g.easeLo, g.easeHi = lo, hi
	return g
}

// A graph that goes on for ever keeps this share of its slope, and bends to it over this length: so the lower edge of a nose is
// level in the middle. Judged by eye.
const (
	undersweep     = .5
	undersweepBend = .03
)

// beyond returns the value and the slope a way past an end that has this value and slope.
func beyond(end, slope, way, ease float64) (value, by float64) {
	switch {
	case ease == 0:
		return end, 0
	case math.IsInf(ease, 1):
		bent, by := beyond(0, slope, way, undersweepBend)
		return end + float64(undersweep*slope*way) + float64((1-undersweep)*bent), float64(undersweep*slope) + float64((1-undersweep)*by)
	}
	t := math.Min(1, math.Abs(way)/ease)
	return end + float64(slope*math.Copysign(ease*(t-float64(t*t/2)), way)), slope * (1 - t)
}

// at returns the value at v and its derivative.
func (g graph) at(v float64) (value, slope float64) {
	n := len(g.spline)
	switch {
	case v <= g.lo:
		return beyond(float64(g.spline[0][0].Y), g.slopeLo, v-g.lo, g.easeLo)
	case v >= g.hi:
		return beyond(float64(g.spline[n-1][3].Y), g.slopeHi, v-g.hi, g.easeHi)
	}
	i, _ := slices.BinarySearch(g.ends, v)
	i = min(max(i-1, 0), n-1)
	q := g.spline[i]
	t := solve([4]float64{float64(q[0].X), float64(q[1].X), float64(q[2].X), float64(q[3].X)}, v)
	dir := q.Derivative(t)
	if along := float64(dir.X); along > 1e-12 {
		slope = float64(dir.Y) / along
	}
	return float64(q.At(t).Y), slope
}

func (g graph) value(v float64) float64 {
	y, _ := g.at(v)
	return y
}

// solve returns the parameter at which the growing cubic with these control values is v, by Newton's method kept in a bracket.
func solve(k [4]float64, v float64) float64 {
	lo, hi := 0., 1.
	t := 0.5
	if k[3] > k[0] {
		t = (v - k[0]) / (k[3] - k[0])
	}
	for range 60 {
		p, q, r := mix(k[0], k[1], t), mix(k[1], k[2], t), mix(k[2], k[3], t)
		p, q = mix(p, q, t), mix(q, r, t)
		off := mix(p, q, t) - v
		if off > 0 {
			hi = t
		} else {
			lo = t
		}
		if math.Abs(off) < 1e-15 {
			break
		}
		next := t - off/(3*(q-p))
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-t) < 1e-15 {
			return next
		}
		t = next
	}
	return t
}

func mix(a, b, t float64) float64 { return a + float64((b-a)*t) }

// root returns where f, which is positive at lo and not at hi, turns. After 36 halvings the interval is smaller than the error of slopes
// that are taken as finite differences. Most of them need no value of f: false position (the Illinois method) shows its sign beforehand,
// as far as it is larger than its error.
func root(lo, hi float64, f func(float64) float64) float64 {
	const first, all, errorOfF = 6, 36, 1e-9 // halving first keeps to one root where there are several
	lo, hi = geom.Bisect(lo, hi, first, func(v float64) bool { return f(v) > 0 })
	yes, no, above, below, last, span := lo, hi, f(lo), f(hi), 0, hi-lo
	for tries := 0; tries < 12 && above > errorOfF && below < -errorOfF; tries++ {
		v := yes + float64(above/(above-below)*(no-yes))
		if at := f(v); at > errorOfF {
			yes, above, below, last = v, at, below/float64(1+max(last, 0)), 1
		} else if at < -errorOfF {
			no, below, above, last = v, at, above/float64(1+max(-last, 0)), -1
		} else {
			break
		}
	}
	lo, hi = geom.Bisect(lo, hi, all-first, func(v float64) bool { return (yes-v)/span >= 0 || (v-no)/span < 0 && f(v) > 0 })
	return (lo + hi) / 2
}

// crossing returns where f, which is smooth, positive at lo and negative at hi, is 0 within a hair: false position alone, which needs a
// third of the values that root does. Where f is not so, it is root.
func crossing(lo, hi float64, f func(float64) float64) float64 {
	const hair, narrow = 1e-10, 1e-11 // of f, and of the interval
	above, below, last := f(lo), f(hi), 0
	if !(above > 0 && below < 0) {
		return root(lo, hi, f)
	}
	for tries := 0; tries < 60; tries++ {
		v := lo + float64(above/(above-below)*(hi-lo))
		at := f(v)
		switch {
		case math.Abs(at) <= hair || math.Abs(hi-lo) <= narrow:
			return v
		case at > 0:
			lo, above, below, last = v, at, below/float64(1+max(last, 0)), 1
		default:
			hi, below, above, last = v, at, above/float64(1+max(-last, 0)), -1
		}
	}
	return root(lo, hi, f)
}
