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
	spline      spline // its x is the axis along which it is read
	pieces      []piece
	lo, hi      float64 // ends along the axis
	least, most float64 // bounds of its values, where they do not go on for ever

	// Beyond its ends a graph stays level. An eased one levels off over a length instead, or goes on at half its slope where the
	// length is infinite: so there is no kink.
	easeLo, easeHi   float64
	slopeLo, slopeHi float64
}

// piece is a cubic of a graph by its control values, and where it ends.
type piece struct {
	x, y [4]float64
	end  float64
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
	g := graph{spline: c, lo: float64(c[0][0].X), hi: float64(c[len(c)-1][3].X), least: math.Inf(1), most: math.Inf(-1)}
	end := g.lo
	for _, q := range c {
		end = max(end, float64(q[3].X))
		g.pieces = append(g.pieces, piece{
			[4]float64{float64(q[0].X), float64(q[1].X), float64(q[2].X), float64(q[3].X)},
			[4]float64{float64(q[0].Y), float64(q[1].Y), float64(q[2].Y), float64(q[3].Y)}, end})
		for _, p := range q { // a cubic lies between its control values
			g.bound(float64(p.Y))
		}
	}
	return g
}

// bound widens the bounds to a value.
func (g *graph) bound(v float64) { g.least, g.most = min(g.least, v), max(g.most, v) }

// eased returns g so that it levels off smoothly beyond its ends, over these lengths.
func (g graph) eased(lo, hi float64) graph {
	_, g.slopeLo = g.at(g.lo + 1e-9)
	_, g.slopeHi = g.at(g.hi - 1e-9)
	g.easeLo, g.easeHi = lo, hi
	for _, end := range [2]float64{g.lo - lo, g.hi + hi} {
		if !math.IsInf(end, 0) {
			g.bound(g.value(end))
		}
	}
	return g
}

// isBounded reports whether the value at v surely lies within the bounds.
func (g *graph) isBounded(v float64) bool {
	return (v >= g.lo || !math.IsInf(g.easeLo, 1)) && (v <= g.hi || !math.IsInf(g.easeHi, 1))
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
	t := min(1, math.Abs(way)/ease)
	return end + float64(slope*math.Copysign(ease*(t-float64(t*t/2)), way)), slope * (1 - t)
}

// at returns the value at v and its derivative.
func (g *graph) at(v float64) (value, slope float64) {
	switch n := len(g.spline); {
	case v <= g.lo:
		return beyond(float64(g.spline[0][0].Y), g.slopeLo, v-g.lo, g.easeLo)
	case v >= g.hi:
		return beyond(float64(g.spline[n-1][3].Y), g.slopeHi, v-g.hi, g.easeHi)
	}
	p := &g.pieces[0]
	for i := 1; v > p.end; i++ {
		p = &g.pieces[i]
	}
	t := solve(&p.x, v)
	if along := slopeOf(&p.x, t); along > 1e-12 {
		slope = slopeOf(&p.y, t) / along
	}
	value, _ = valueOf(&p.y, t)
	return value, slope
}

func (g *graph) value(v float64) float64 {
	y, _ := g.at(v)
	return y
}

// valueOf returns the value of the cubic with these control values at a parameter, and the step from which it comes.
func valueOf(k *[4]float64, t float64) (value, step float64) {
	p, q, r := mix(k[0], k[1], t), mix(k[1], k[2], t), mix(k[2], k[3], t)
	p, q = mix(p, q, t), mix(q, r, t)
	return mix(p, q, t), q - p
}

// slopeOf returns its derivative.
func slopeOf(k *[4]float64, t float64) float64 {
	p, q, r := k[1]-k[0], k[2]-k[1], k[3]-k[2]
	return 3 * mix(mix(p, q, t), mix(q, r, t), t)
}

// solve returns the parameter at which the growing cubic with these control values is v, by Newton's method kept in a bracket.
func solve(k *[4]float64, v float64) float64 {
	lo, hi := 0., 1.
	t := 0.5
	if k[3] > k[0] {
		t = (v - k[0]) / (k[3] - k[0])
	}
	for range 60 {
		off, step := valueOf(k, t)
		if off -= v; off > 0 {
			hi = t
		} else {
			lo = t
		}
		if math.Abs(off) < 1e-15 {
			break
		}
		next := t - off/(3*step)
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

// sample is a value of a function.
type sample struct{ at, value float64 }

// root returns where f, which is positive at lo and not at hi, turns. After 36 halvings the interval is smaller than the error of slopes
// that are taken as finite differences. Most of them need no value of f: a narrow bracket shows its sign beforehand.
func root(lo, hi float64, f func(float64) float64) float64 {
	const first, all = 6, 36 // halving first keeps to one root where there are several
	from, to := sample{at: lo}, sample{at: hi}
	for range first {
		mid := (from.at + to.at) / 2
		if value := f(mid); value > 0 {
			from = sample{mid, value}
		} else {
			to = sample{mid, value}
		}
	}
	if from.at == lo {
		from.value = f(lo)
	}
	if to.at == hi {
		to.value = f(hi)
	}
	yes, no := bracket(from, to, f)
	span := to.at - from.at
	lo, hi = geom.Bisect(from.at, to.at, all-first, func(v float64) bool { return (yes-v)/span >= 0 || (v-no)/span < 0 && f(v) > 0 })
	return (lo + hi) / 2
}

// bracket narrows the interval in which f turns from positive to negative, as far as its values are larger than their error: by inverse
// quadratic interpolation where that is sure to help, else by halving (Chandrupatla 1997). Each step goes a hair too far, so that the
// interval grows narrow from both sides.
func bracket(positive, negative sample, f func(float64) float64) (yes, no float64) {
	const narrow, errorOfF = 1e-11, 1e-13
	last, other := negative, positive // on either side of 0
	for share := .5; min(positive.value, -negative.value) > errorOfF && math.Abs(other.at-last.at) > 3*narrow; {
		v := last.at + float64(share*(other.at-last.at))
		before, next := last, sample{v, f(v)}
		if math.Abs(next.value) <= errorOfF {
			break
		}
		if next.value > 0 == (last.value > 0) {
			last = next
		} else {
			last, other, before = next, last, other
		}
		if next.value > 0 {
			positive = next
		} else {
			negative = next
		}
		hair := narrow / math.Abs(other.at-last.at)
		share = geom.Clamp(interpolated(last, other, before)+hair, hair, 1-hair)
	}
	return positive.at, negative.at
}

// interpolated returns where f lets expect 0 between two samples on either side of it, from one before them: as a share of the way from
// the first to the second.
func interpolated(a, b, before sample) float64 {
	x, y := (a.at-b.at)/(before.at-b.at), (a.value-b.value)/(before.value-b.value)
	if !(y*y < x && (1-y)*(1-y) < 1-x) {
		return .5
	}
	return float64(a.value/(b.value-a.value)*before.value/(b.value-before.value)) +
		float64((before.at-a.at)/(b.at-a.at)*a.value/(before.value-a.value)*b.value/(before.value-b.value))
}

// crossing returns where f, which is smooth, positive at lo and negative at hi, is 0 within a hair: false position alone (the Illinois
// method). Where f is not so, it is root.
func crossing(lo, hi sample, f func(float64) float64) float64 {
	const hair, narrow = 1e-10, 1e-11 // of f, and of the interval
	last := 0.
	if !(lo.value > 0 && hi.value < 0) {
		return root(lo.at, hi.at, f)
	}
	for tries := 0; tries < 60; tries++ {
		v := lo.at + float64(lo.value/(lo.value-hi.value)*(hi.at-lo.at))
		switch value := f(v); {
		case math.Abs(value) <= hair || math.Abs(hi.at-lo.at) <= narrow:
			return v
		case value > 0:
			lo, hi.value, last = sample{v, value}, hi.value/float64(1+max(last, 0)), 1
		default:
			hi, lo.value, last = sample{v, value}, lo.value/float64(1+max(-last, 0)), -1
		}
	}
	return root(lo.at, hi.at, f)
}
