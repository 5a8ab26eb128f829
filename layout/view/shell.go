package view

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout/outline"
)

// shell is everything that hides, as cells of grids of points, which are two triangles each: the same before all cameras.
type shell struct {
	points []Point3
	quads  []quad
	whole  int // the wheel arches may be cut out of the quads from this one on
}

// quad is a cell of a grid by the indices of its first corners in two rows; the others follow them.
type quad struct{ row, next int32 }

// corners returns the indices of the corners, in order: the first and the third are those of both triangles.
func (q quad) corners() [4]int32 { return [4]int32{q.row, q.row + 1, q.next + 1, q.next} }

// mesh is a grid of points that only hides.
type mesh struct {
	rows    [][]Point3
	mirrors bool // m is the left half
	arched  bool // the wheel arches are cut out of it
}

// newShell gathers the body's surface, the wheels and what is inside the body: what hides most comes first.
func (s *Solid) newShell() *shell {
	surface := slices.Concat(s.panels(), s.fitted())
	var meshes []mesh
	for _, w := range s.Wheels() {
		meshes = append(meshes, w.mesh())
	}
	meshes = append(meshes, s.inside(surface)...)
	size := 0
	for _, p := range surface {
		size += 2 * len(p.nodes) * len(p.nodes[0])
	}
	for _, m := range meshes {
		size += 2 * len(m.rows) * len(m.rows[0])
	}
	h := &shell{points: make([]Point3, 0, size), quads: make([]quad, 0, size)}
	var cut []quad
	add := func(first, across int, mirrors, arched bool) {
		h.eachQuad(first, across, mirrors, func(q quad) {
			if arched && s.meetsArch(h.points[q.row], h.points[q.row+1], h.points[q.next], h.points[q.next+1]) {
				cut = append(cut, q)
			} else {
				h.quads = append(h.quads, q)
			}
		})
	}
	for _, p := range surface {
		first := len(h.points)
		for _, column := range p.nodes {
			for i := range column {
				h.points = append(h.points, column[i].p)
			}
		}
		add(first, len(p.nodes[0]), p.mirrors, p.arched)
	}
	for _, m := range meshes {
		first := len(h.points)
		for _, row := range m.rows {
			h.points = append(h.points, row...)
		}
		add(first, len(m.rows[0]), m.mirrors, m.arched)
	}
	h.whole = len(h.quads)
	h.quads = append(h.quads, cut...)
	return h
}

// eachQuad calls do with the cells of a grid of points, and with those of its mirror image, whose points it enters.
func (h *shell) eachQuad(first, across int, mirrors bool, do func(quad)) {
	all := len(h.points) - first
	if mirrors {
		for _, p := range h.points[first:] {
			h.points = append(h.points, p.Mirror())
		}
	}
	for start := first; start < len(h.points); start += all {
		for row := start; row+across < start+all; row += across {
			for at := row; at+1 < row+across; at++ {
				do(quad{int32(at), int32(at + across)})
			}
		}
	}
}

// over returns the place of the side view at which shares of three points meet.
func (h *shell) over(i, j, k int32, u, v, w float64) place {
	a, b, c := &h.points[i], &h.points[j], &h.points[k]
	return place{
		float64(u*float64(a.X)) + float64(v*float64(b.X)) + float64(w*float64(c.X)),
		float64(u*float64(a.Y)) + float64(v*float64(b.Y)) + float64(w*float64(c.Y)),
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
func (s *Solid) meetsArch(a, b, c, d Point3) bool {
	for _, arch := range [2]*outline.Arch{&s.outline.FrontArch, &s.outline.RearArch} {
		x := geom.Clamp(arch.Centre.X, min(a.X, b.X, c.X, d.X), max(a.X, b.X, c.X, d.X))
		y := geom.Clamp(arch.Centre.Y, min(a.Y, b.Y, c.Y, d.Y), max(a.Y, b.Y, c.Y, d.Y))
		if s.inArch(place{float64(x), float64(y)}) {
			return true
		}
	}
	return false
}
