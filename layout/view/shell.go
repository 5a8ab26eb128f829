package view

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout/outline"
)

// shell is everything that hides, as cells of grids of points, which are two triangles each: the same before all cameras.
type shell struct {
	grids []grid
	quads []quad
	whole int    // the wheel arches may be cut out of the quads from this one on
	cut   []cell // of which these are made
}

// quad is a cell of a grid by the numbers of its first corners in two rows; the others follow them. Corners are counted over all grids, and
// those of a mirror image follow the grid's own.
type quad struct{ row, next int32 }

// cell is a cell of a grid by its first row and its first corner there.
type cell struct{ grid, row, i int32 }

// grid is the surface as it hides: rows of points.
type grid struct {
	rows, across int
	at           func(row, i int) Point3
	mirrors      bool // it is the left half
	arched       bool // the wheel arches are cut out of it
}

// size returns how many corners g has.
func (g grid) size() int {
	if g.mirrors {
		return 2 * g.rows * g.across
	}
	return g.rows * g.across
}

// corners returns the corners of a cell, in order.
func (g *grid) corners(row, i int) [4]Point3 {
	return [4]Point3{g.at(row, i), g.at(row, i+1), g.at(row+1, i+1), g.at(row+1, i)}
}

func (p panel) grid() grid {
	return grid{len(p.nodes), len(p.nodes[0]), func(row, i int) Point3 { return p.nodes[row][i].p }, p.mirrors, p.arched}
}

// mesh is a grid of points that only hides.
type mesh struct {
	rows    [][]Point3
	mirrors bool // m is the left half
	arched  bool // the wheel arches are cut out of it
}

func (m mesh) grid() grid {
	return grid{len(m.rows), len(m.rows[0]), func(row, i int) Point3 { return m.rows[row][i] }, m.mirrors, m.arched}
}

// newShell gathers the body's surface, the wheels and what is inside the body: what hides most comes first.
func (s *Solid) newShell() *shell {
	surface := slices.Concat(s.panels(), s.fitted())
	h := &shell{}
	for _, p := range surface {
		h.grids = append(h.grids, p.grid())
	}
	for _, w := range s.Wheels() {
		h.grids = append(h.grids, w.mesh().grid())
	}
	for _, m := range s.inside(surface) {
		h.grids = append(h.grids, m.grid())
	}
	h.quads = make([]quad, 0, h.corners())
	var cut []quad
	first := 0
	for grid, g := range h.grids {
		for row := range g.rows - 1 {
			for i := range g.across - 1 {
				corners := g.corners(row, i)
				isCut := g.arched && s.meetsArch(corners)
				for from := first; from < first+g.size(); from += g.rows * g.across {
					at := int32(from + row*g.across + i)
					if q := (quad{at, at + int32(g.across)}); isCut {
						cut, h.cut = append(cut, q), append(h.cut, cell{int32(grid), int32(row), int32(i)})
					} else {
						h.quads = append(h.quads, q)
					}
				}
			}
		}
		first += g.size()
	}
	h.whole = len(h.quads)
	h.quads = append(h.quads, cut...)
	return h
}

// corners returns how many corners there are.
func (h *shell) corners() (sum int) {
	for _, g := range h.grids {
		sum += g.size()
	}
	return sum
}

// each calls do with every corner, in order.
func (h *shell) each(do func(Point3)) {
	for _, g := range h.grids {
		for row := range g.rows {
			for i := range g.across {
				do(g.at(row, i))
			}
		}
		for row := range g.size()/g.across - g.rows {
			for i := range g.across {
				do(g.at(row, i).Mirror())
			}
		}
	}
}

// inArch reports whether a place of the side view lies in one of the wheel arches.
func (s *Solid) inArch(q place) bool {
	for _, a := range [2]*outline.Arch{&s.outline.FrontArch, &s.outline.RearArch} {
		x, y, r := q.x-float64(a.Centre.X), q.y-float64(a.Centre.Y), float64(a.Radius)
		if float64(x*x)+float64(y*y) < float64(r*r) {
			return true
		}
	}
	return false
}

// meetsArch reports whether what lies between four points may lie partly in one of the wheel arches, seen from the side.
func (s *Solid) meetsArch(p [4]Point3) bool {
	for _, arch := range [2]*outline.Arch{&s.outline.FrontArch, &s.outline.RearArch} {
		x := geom.Clamp(arch.Centre.X, min(p[0].X, p[1].X, p[2].X, p[3].X), max(p[0].X, p[1].X, p[2].X, p[3].X))
		y := geom.Clamp(arch.Centre.Y, min(p[0].Y, p[1].Y, p[2].Y, p[3].Y), max(p[0].Y, p[1].Y, p[2].Y, p[3].Y))
		if s.inArch(place{float64(x), float64(y)}) {
			return true
		}
	}
	return false
}
