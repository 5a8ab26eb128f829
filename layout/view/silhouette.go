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
	g.free = make([][]float64, int(sc.box.Width()/g.size)+3)
	rows := int(sc.box.Height()/g.size) + 3
	free := slices.Repeat([]float64{1}, len(g.free)*rows)
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
	free   [][]float64 // 1 where nothing covers the picture, −1 elsewhere
}

// place returns the place at a column and a row.
func (g *raster) place(i, j int) ImagePoint {
	return ImagePoint{X: g.origin.X + ImageLength((ImageLength(i)-.5)*g.size), Y: g.origin.Y + ImageLength((ImageLength(j)-.5)*g.size)}
}

// gaps are the columns and rows between which a place lies.
type gaps struct{ left, right, over, under int16 }

// gapsAt returns the columns and rows between which a place lies, at both sides of it where it lies on one.
func (g *raster) gapsAt(p ImagePoint) gaps {
	const hair = 1e-6 // of a cell
	x, y := float64((p.X-g.origin.X)/g.size)+.5, float64((p.Y-g.origin.Y)/g.size)+.5
	return gaps{int16(math.Floor(x + hair)), int16(math.Ceil(x - hair)), int16(math.Floor(y + hair)), int16(math.Ceil(y - hair))}
}

// cover looks which places are covered: by one quad after the other, which only asks those that are still free.
func (g *raster) cover(sc *Scene) {
	at := make([]gaps, len(sc.corners))
	for i := range at {
		at[i] = g.gapsAt(sc.corners[i].at)
	}
	for _, k := range sc.faces {
		q := sc.shell.quads[k]
		a, b, c, d := &at[q.row], &at[q.row+1], &at[q.next], &at[q.next+1]
		from, to := min(a.right, b.right, c.right, d.right), max(a.left, b.left, c.left, d.left)
		top, bottom := min(a.under, b.under, c.under, d.under), max(a.over, b.over, c.over, d.over)
		for i := from; i <= to; i++ {
			column := g.free[i]
			for j := top; j <= bottom; j++ {
				if column[j] > 0 && sc.lies(k, g.place(int(i), int(j)), math.Inf(-1)) {
					column[j] = -1
				}
			}
		}
	}
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
	left, top := sc.cell(box.Min)
	right, bottom := sc.cell(box.Max)
	for y := top; y <= bottom; y++ {
		for x := left; x <= right; x++ {
			for _, i := range sc.inCell(x, y) {
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
		}
	}
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
	return len(w.arched) > 0 && w.scene.coveredBy(w.arched, w.from.Lerp(w.to, t), math.Inf(-1))
}
