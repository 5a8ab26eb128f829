package view

import "hubrule/internal/geom"

// Contour returns the lines along which the skin turns away from the eye: normal · (P − eye) = 0, solved on the surface itself
// along the edges of each panel's grid, joined through its cells and filled in between. They are not yet tested for being hidden.
func (sc *Scene) Contour() []Line {
	var pieces [][]joint
	for _, p := range sc.skin {
		for _, side := range []float64{1, -1} {
			if side < 0 && !p.mirrors {
				continue
			}
			for _, run := range sc.follow(p, side) {
				pieces = append(pieces, sc.fill(p, side, sc.fill(p, side, run)))
			}
		}
	}
	const apart geom.Wheels = 1e-3 // nearer places of a contour add nothing to it
	var out []Line
	for _, run := range joined(pieces) {
		l := Line{Name: "contour", Kind: ContourLine, arched: true}
		for i, j := range run {
			if i > 0 && i < len(run)-1 && j.p.Sub(l.Points[len(l.Points)-1]).Len() < apart {
				continue
			}
			l.Points = append(l.Points, j.p)
			l.outs = append(l.outs, j.normal)
		}
		out = append(out, l)
	}
	return out
}

// joint is one place of a contour.
type joint struct {
	q         place // on its panel
	p, normal Point3
}

// turning returns the surface at a place of a panel, on the side that is meant, and how far it turns away: negative faces the eye.
func (sc *Scene) turning(p panel, q place, r rim, side float64) (joint, float64) {
	point, normal := p.at(q)
	if r != noRim {
		point, normal = p.rim(q, r)
	}
	if side < 0 {
		point, normal = point.Mirror(), normal.Mirror()
	}
	return joint{q, point, normal}, normal.Dot(sc.Camera.sightLine(point))
}

// follow finds the contour on one half of a panel.
func (sc *Scene) follow(p panel, side float64) [][]joint {
	away := make([][]float64, len(p.nodes))
	for i, column := range p.nodes {
		away[i] = make([]float64, len(column))
		for j, n := range column {
			point, normal := n.p, n.normal
			if side < 0 {
				point, normal = point.Mirror(), normal.Mirror()
			}
			away[i][j] = normal.Dot(sc.Camera.sightLine(point))
		}
	}
	links, order := map[edge][]edge{}, []edge(nil)
	link := linker(links, &order)
	for i := 0; i+1 < len(p.nodes); i++ {
		for j := 0; j+1 < len(p.nodes[i]); j++ {
			cellLinks(away, i, j, link)
		}
	}
	at := map[edge]joint{}
	for _, e := range order {
		at[e] = sc.onEdge(p, e, away, side)
	}
	return runs(order, links, at)
}

// onEdge solves for the contour along an edge of the grid.
func (sc *Scene) onEdge(p panel, e edge, away [][]float64, side float64) joint {
	from, to := p.nodes[e.i][e.j], p.nodes[e.i][e.j]
	if e.across {
		to = p.nodes[e.i+1][e.j]
	} else {
		to = p.nodes[e.i][e.j+1]
	}
	a, b, r := from.q, to.q, noRim
	if from.rim != noRim && to.rim != noRim {
		r = max(from.rim, to.rim) // both lie on the outline, and so does what lies between
	}
	between := func(t float64) place { return place{mix(a.x, b.x, t), mix(a.y, b.y, t)} }
	sign := 1.
	if away[e.i][e.j] <= 0 {
		sign = -1
	}
	t := root(0, 1, func(t float64) float64 {
		_, g := sc.turning(p, between(t), r, side)
		return sign * g
	})
	out, _ := sc.turning(p, between(t), r, side)
	return out
}

// fill adds a place of the contour between every two: it is sought across the chord, no farther away than half of it.
func (sc *Scene) fill(p panel, side float64, run []joint) []joint {
	out := run[:1:1]
	for i := 1; i < len(run); i++ {
		a, b := run[i-1].q, run[i].q
		across := place{(a.y - b.y) / 4, (b.x - a.x) / 4}
		between := func(t float64) place {
			return place{(a.x+b.x)/2 + float64(t*across.x), (a.y+b.y)/2 + float64(t*across.y)}
		}
		_, before := sc.turning(p, between(-1), noRim, side)
		_, after := sc.turning(p, between(1), noRim, side)
		if (before > 0) != (after > 0) {
			sign := 1.
			if before <= 0 {
				sign = -1
			}
			t := root(-1, 1, func(t float64) float64 {
				_, g := sc.turning(p, between(t), noRim, side)
				return sign * g
			})
			mid, _ := sc.turning(p, between(t), noRim, side)
			if mid.p.Sub(run[i].p).Len() < run[i-1].p.Sub(run[i].p).Len() {
				out = append(out, mid)
			}
		}
		out = append(out, run[i])
	}
	return out
}

// joined puts runs together whose ends meet: at the centre line and where panels meet.
func joined(pieces [][]joint) [][]joint {
	const meets geom.Wheels = 1e-4
	near := func(a, b joint) bool { return a.p.Sub(b.p).Len() < meets }
	var out [][]joint
	rest := append([][]joint(nil), pieces...)
	for len(rest) > 0 {
		run := rest[0]
		rest = rest[1:]
		for grown := true; grown; {
			grown = false
			for i, other := range rest {
				first, last := other[0], other[len(other)-1]
				switch {
				case near(run[len(run)-1], first):
					run = append(append([]joint(nil), run...), other[1:]...)
				case near(run[len(run)-1], last):
					run = append(append([]joint(nil), run...), backwards(other)[1:]...)
				case near(run[0], last):
					run = append(append([]joint(nil), other...), run[1:]...)
				case near(run[0], first):
					run = append(backwards(other), run[1:]...)
				default:
					continue
				}
				rest = append(rest[:i:i], rest[i+1:]...)
				grown = true
				break
			}
		}
		if len(run) > 3 {
			out = append(out, run)
		}
	}
	return out
}

func backwards(run []joint) []joint {
	out := make([]joint, len(run))
	for i, j := range run {
		out[len(run)-1-i] = j
	}
	return out
}
