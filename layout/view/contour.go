package view

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/internal/parallel"
)

// Contour returns the lines along which the surface turns away from the eye: normal · (P − eye) = 0, solved on the surface itself
// along the edges of each panel's grid, joined through its cells and filled in between. They are not yet tested for being hidden.
func (sc *Scene) Contour() []Line {
	var halves []half
	for _, p := range sc.panels {
		for _, d := range p.sides() {
			halves = append(halves, half{p, d})
		}
	}
	found := parallel.Map(halves, func(h half) [][]node {
		if sc.isSquareOn() && h.side == right { // the mirror image of the half before
			return nil
		}
		return sc.runsOf(h)
	})
	for i, h := range halves {
		if sc.isSquareOn() && h.side == right {
			found[i] = mirrored(found[i-1])
		}
	}
	pieces := slices.Concat(found...)
	const apart geom.Wheels = 1e-3 // nearer places of a contour add nothing to it
	var out []Line
	for _, d := range []side{left, right} {
		pieces = append(pieces, sc.turningCrease(d)...)
	}
	for _, run := range joined(pieces) {
		l := Line{Name: "contour", Kind: ContourLine, arched: true}
		l.reserve(len(run))
		for i, j := range run {
			if i == 0 || i == len(run)-1 || j.p.Sub(l.Points[len(l.Points)-1]).Len() >= apart {
				l.add(j.vertex)
			}
		}
		out = append(out, l)
	}
	return out
}

// half is a panel on one of its sides.
type half struct {
	panel
	side side
}

// runsOf returns the runs of the contour on half a panel.
func (sc *Scene) runsOf(h half) (out [][]node) {
	if h.remembering != nil {
		h.at = h.remembering()
	}
	for _, run := range sc.follow(h.panel, h.side) {
		out = append(out, sc.fill(h.panel, h.side, sc.fill(h.panel, h.side, run)))
	}
	return out
}

// isSquareOn reports whether the camera sees the vehicle's right as the mirror image of its left.
func (sc *Scene) isSquareOn() bool { return sc.Camera.isParallel && sc.Camera.forward.Z == 0 }

// mirrored returns the mirror image of runs on the left.
func mirrored(runs [][]node) [][]node {
	out := make([][]node, len(runs))
	for i, run := range runs {
		out[i] = slices.Clone(run)
		for k := range run {
			out[i][k].vertex = run[k].on(right)
		}
	}
	return out
}

// turningCrease returns what belongs to the contour of the crease between screen and roof, above the A-pillar's head: where one
// surface faces the eye and the other turns away. The normals lie between, at right angles to the line of sight.
func (sc *Scene) turningCrease(d side) [][]node {
	var out [][]node
	before := false
	for _, c := range sc.solid.crease {
		a, b := c[0].on(d), c[1].on(d)
		facingA, facingB := sc.facing(a), sc.facing(b)
		turns := facingA > 0 != (facingB > 0)
		if turns && !before {
			out = append(out, nil)
		}
		if before = turns; turns {
			a.normal = a.normal.Times(math.Abs(facingB)).Add(b.normal.Times(math.Abs(facingA))).Unit()
			out[len(out)-1] = append(out[len(out)-1], node{vertex: a})
		}
	}
	return out
}

// follow finds the contour on one half of a panel.
func (sc *Scene) follow(p panel, d side) [][]node {
	away := make([][]float64, len(p.nodes))
	for i, column := range p.nodes {
		away[i] = make([]float64, len(column))
		for j := range column {
			away[i][j] = sc.facing(column[j].on(d))
		}
	}
	return zeroRuns(away, func(e edge) node {
		from, to, r := p.nodes[e.i][e.j], p.nodes[e.toI][e.toJ], noBoundary
		if from.boundary != noBoundary && to.boundary != noBoundary {
			r = max(from.boundary, to.boundary) // both lie on the outline, and so does what lies between
		}
		at := func(t float64) node { return p.node(from.q.mix(to.q, t), r, d) }
		start, end := sample{0, away[e.i][e.j]}, sample{1, away[e.toI][e.toJ]}
		if from.boundary != r {
			start.value = sc.facing(at(0).vertex)
		}
		if to.boundary != r || from.q.mix(to.q, 1) != to.q {
			end.value = sc.facing(at(1).vertex)
		}
		return sc.turn(start, end, away[e.i][e.j] > 0, at)
	})
}

// turn returns the place between two at which the surface stops facing the eye, or starts; away says which it does at the first.
func (sc *Scene) turn(from, to sample, away bool, at func(float64) node) node {
	sign := 1.
	if !away {
		sign = -1
	}
	from.value, to.value = sign*from.value, sign*to.value
	var last node
	lastAt := math.NaN()
	found := crossing(from, to, func(t float64) float64 {
		last, lastAt = at(t), t
		return sign * sc.facing(last.vertex)
	})
	if found != lastAt {
		return at(found)
	}
	return last
}

// fill adds a place of the contour between every two: it is sought across the chord, no farther away than half of it.
func (sc *Scene) fill(p panel, d side, run []node) []node {
	out := append(make([]node, 0, 2*len(run)), run[0])
	for i := 1; i < len(run); i++ {
		a, b := run[i-1].q, run[i].q
		across := place{(a.y - b.y) / 4, (b.x - a.x) / 4}
		at := func(t float64) node {
			return p.node(place{(a.x+b.x)/2 + float64(t*across.x), (a.y+b.y)/2 + float64(t*across.y)}, noBoundary, d)
		}
		before, after := sample{-1, sc.facing(at(-1).vertex)}, sample{1, sc.facing(at(1).vertex)}
		if away := before.value > 0; away != (after.value > 0) {
			mid := sc.turn(before, after, away, at)
			if mid.p.Sub(run[i].p).Len() < run[i-1].p.Sub(run[i].p).Len() {
				out = append(out, mid)
			}
		}
		out = append(out, run[i])
	}
	return out
}

// joined puts runs together whose ends meet: at the centre line and where panels meet.
func joined(rest [][]node) [][]node {
	const meets geom.Wheels = 1e-4
	near := func(a, b node) bool { return a.p.Sub(b.p).Len() < meets }
	var out [][]node
	for len(rest) > 0 {
		run := rest[0]
		rest = rest[1:]
		for i := 0; i < len(rest); i++ {
			other := rest[i]
			first, last := other[0], other[len(other)-1]
			switch {
			case near(run[len(run)-1], first):
				run = slices.Concat(run, other[1:])
			case near(run[len(run)-1], last):
				run = slices.Concat(run, reversed(other)[1:])
			case near(run[0], last):
				run = slices.Concat(other, run[1:])
			case near(run[0], first):
				run = slices.Concat(reversed(other), run[1:])
			default:
				continue
			}
			rest = slices.Delete(rest, i, i+1)
			i = -1 // the grown run may meet one that was passed over
		}
		if len(run) > 3 {
			out = append(out, run)
		}
	}
	return out
}

// reversed returns a copy of s from its last element to its first.
func reversed[T any](s []T) []T {
	s = slices.Clone(s)
	slices.Reverse(s)
	return s
}
