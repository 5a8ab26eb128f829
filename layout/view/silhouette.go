package view

import (
	"math"
	"slices"

	"hubrule/internal/geom"
)

// Silhouette returns the edge of what the vehicle covers of the picture, wheels included, as closed loops to be filled by the even-odd
// rule. The edge is found along the lines of a grid by halving, so that it lies where the vehicle ends, not where a raster does;
// its corners are cut by less than a cell.
func (sc *Scene) Silhouette() [][]ImagePoint {
	const across = 320
	g := &raster{origin: sc.box.Min, size: max(sc.box.Width(), sc.box.Height()) / across}
	g.free = make([][]int8, int(sc.box.Width()/g.size)+3)
	rows := int(sc.box.Height()/g.size) + 3
	free := slices.Repeat([]int8{1}, len(g.free)*rows)
	for i := range g.free {
		g.free[i], free = free[:rows:rows], free[rows:]
	}
	g.cover(sc)
	way := way{scene: sc}
	return zeroRuns(g.free, func(e edge) ImagePoint {
		from, to := g.place(e.i, e.j), g.place(e.toI, e.toJ)
		if g.free[e.i][e.j] > 0 {
			from, to = to, from
		}
		way.set(from, to)
		t, _ := geom.Bisect(0, 1, 20, way.isCovered)
		return from.Lerp(to, t)
	})
}

// raster is a grid of places of the picture.
type raster struct {
	origin ImagePoint
	size   ImageLength // of a cell
	free   [][]int8    // 1 where nothing covers the picture, −1 elsewhere
}

// place returns the place at a column and a row.
func (g *raster) place(i, j int) ImagePoint {
	return ImagePoint{X: g.origin.X + ImageLength((ImageLength(i)-.5)*g.size), Y: g.origin.Y + ImageLength((ImageLength(j)-.5)*g.size)}
}

// cover looks which places are covered: by one quad after the other, which only asks those that are still free.
func (g *raster) cover(sc *Scene) {
	for k := range sc.bounds {
		if sc.bounds[k].isEdgeOn() {
			continue
		}
		a, b, c, d := sc.quad(int32(k))
		left, right := g.between(g.origin.X, min(a.at.X, b.at.X, c.at.X, d.at.X), max(a.at.X, b.at.X, c.at.X, d.at.X))
		top, bottom := g.between(g.origin.Y, min(a.at.Y, b.at.Y, c.at.Y, d.at.Y), max(a.at.Y, b.at.Y, c.at.Y, d.at.Y))
		for i := left; i <= right; i++ {
			column := g.free[i]
			for j := top; j <= bottom; j++ {
				if column[j] > 0 && sc.lies(int32(k), g.place(i, j), math.Inf(-1)) {
					column[j] = -1
				}
			}
		}
	}
}

// between returns the first and the last column, or row, between two places that are counted from an origin.
func (g *raster) between(origin, from, to ImageLength) (first, last int) {
	const hair = 1e-6 // of a cell
	at := func(x ImageLength) float64 { return float64((x-origin)/g.size) + .5 }
	return int(math.Ceil(at(from) - hair)), int(math.Floor(at(to) + hair))
}

// way is a straight way over the picture and what covers it.
type way struct {
	scene    *Scene
	from, to ImagePoint
	covered  []stretch // by whole triangles
	arched   []int32   // quads out of which the wheel arches are cut
}

// stretch is a part of a way, from 0 at its start to 1 at its end.
type stretch struct{ from, to float64 }

// set moves the way between two places that lie at most a few cells apart, and finds what lies over it.
func (w *way) set(from, to ImagePoint) {
	sc, box := w.scene, geom.BoxOf(from, to)
	w.from, w.to, w.covered, w.arched = from, to, w.covered[:0], w.arched[:0]
	first, last := sc.square(box.Min), sc.square(box.Max)
	sc.eachCell(first, last, func(cell int) {
		for _, i := range sc.inCell(cell) {
			if !sc.bounds[i].meet(first, last) {
				continue
			}
			a, b, c, d := sc.quad(i)
			switch {
			case isBeside(box, a.at, b.at, c.at, d.at):
			case int(i) >= sc.shell.whole:
				w.arched = append(w.arched, i)
			default:
				w.add(a.at, b.at, c.at)
				w.add(a.at, c.at, d.at)
			}
		}
	})
}

// add enters the stretch of the way that a triangle covers.
func (w *way) add(a, b, c ImagePoint) {
	s := stretch{0, 1}
	turn := math.Copysign(1, b.Sub(a).Cross(c.Sub(a)))
	for _, side := range [3][2]ImagePoint{{a, b}, {b, c}, {c, a}} {
		along := side[1].Sub(side[0])
		start, end := turn*along.Cross(w.from.Sub(side[0])), turn*along.Cross(w.to.Sub(side[0])) // not negative inside
		switch {
		case start < 0 && end < 0:
			return
		case start < 0:
			s.from = max(s.from, start/(start-end))
		case end < 0:
			s.to = min(s.to, start/(start-end))
		}
	}
	if s.from <= s.to {
		w.covered = append(w.covered, s)
	}
}

// isCovered reports whether the vehicle covers the place a share t of the way.
func (w *way) isCovered(t float64) bool {
	for _, s := range w.covered {
		if s.from <= t && t <= s.to {
			return true
		}
	}
	return slices.ContainsFunc(w.arched, func(i int32) bool { return w.scene.lies(i, w.from.Lerp(w.to, t), math.Inf(-1)) })
}
