package view

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout/outline"
)

// shell is everything that hides, as triangles: the same before all cameras.
type shell struct {
	points    []Point3
	triangles [][3]int32 // indices of their corners
	whole     int        // the wheel arches may be cut out of the triangles from this one on
}

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
	h := &shell{points: make([]Point3, 0, size), triangles: make([][3]int32, 0, 2*size)}
	cut := make([][3]int32, 0, size/8)
	add := func(first, across int, mirrors, arched bool) {
		h.eachTriangle(first, across, mirrors, func(t [3]int32) {
			if arched && s.meetsArch(h.points[t[0]], h.points[t[1]], h.points[t[2]]) {
				cut = append(cut, t)
			} else {
				h.triangles = append(h.triangles, t)
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
	h.whole = len(h.triangles)
	h.triangles = append(h.triangles, cut...)
	return h
}

// eachTriangle calls do with the triangles of a grid of points, two in each of its cells, and with those of its mirror image, whose
// points it enters.
func (h *shell) eachTriangle(first, across int, mirrors bool, do func(triangle [3]int32)) {
	all := len(h.points) - first
	if mirrors {
		for _, p := range h.points[first:] {
			h.points = append(h.points, p.Mirror())
		}
	}
	for start := first; start < len(h.points); start += all {
		for row := start; row+across < start+all; row += across {
			for at := row; at+1 < row+across; at++ {
				a, b, c, d := int32(at), int32(at+1), int32(at+across+1), int32(at+across)
				do([3]int32{a, b, c})
				do([3]int32{a, c, d})
			}
		}
	}
}

// over returns the place of the side view at which shares of the corners of the triangle i meet.
func (h *shell) over(i int32, u, v, w float64) place {
	t := &h.triangles[i]
	a, b, c := &h.points[t[0]], &h.points[t[1]], &h.points[t[2]]
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

// meetsArch reports whether a triangle may lie partly in one of the wheel arches, seen from the side.
func (s *Solid) meetsArch(a, b, c Point3) bool {
	for _, arch := range [2]*outline.Arch{&s.outline.FrontArch, &s.outline.RearArch} {
		x := geom.Clamp(arch.Centre.X, min(a.X, b.X, c.X), max(a.X, b.X, c.X))
		y := geom.Clamp(arch.Centre.Y, min(a.Y, b.Y, c.Y), max(a.Y, b.Y, c.Y))
		if s.inArch(place{float64(x), float64(y)}) {
			return true
		}
	}
	return false
}
