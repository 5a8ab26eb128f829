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
	arched    int        // the wheel arches are cut out of the triangles before this one
}

// mesh is a grid of points that only hides.
type mesh struct {
	rows    [][]Point3
	mirrors bool // m is the left half
	arched  bool // the wheel arches are cut out of it
}

// newShell gathers the body's surface, what is inside it and the wheels.
func (s *Solid) newShell() *shell {
	surface := slices.Concat(s.panels(), s.fitted())
	var meshes []mesh // what hides most comes first
	for _, p := range surface {
		meshes = append(meshes, p.mesh())
	}
	for _, w := range s.Wheels() {
		meshes = append(meshes, w.mesh())
	}
	meshes = append(meshes, s.inside(surface)...)
	size := 0
	for _, m := range meshes {
		size += 2 * len(m.rows) * len(m.rows[0])
	}
	out := &shell{points: make([]Point3, 0, size)}
	var cut, whole [][3]int32
	whole = make([][3]int32, 0, 2*size)
	for _, m := range meshes {
		out.add(m, func(t [3]int32) {
			if m.arched && s.meetsArch(out.points[t[0]], out.points[t[1]], out.points[t[2]]) {
				cut = append(cut, t)
			} else {
				whole = append(whole, t)
			}
		})
	}
	out.triangles, out.arched = append(cut, whole...), len(cut)
	return out
}

// mesh returns the panel's places as a mesh.
func (p panel) mesh() mesh {
	m := mesh{mirrors: p.mirrors, arched: p.arched}
	for _, column := range p.nodes {
		points := make([]Point3, len(column))
		for i, n := range column {
			points[i] = n.p
		}
		m.rows = append(m.rows, points)
	}
	return m
}

// add enters the points of a mesh and calls do with its triangles, two in each of its cells.
func (h *shell) add(m mesh, do func(triangle [3]int32)) {
	first, across := int32(len(h.points)), int32(len(m.rows[0]))
	for _, row := range m.rows {
		h.points = append(h.points, row...)
	}
	all := int32(len(h.points)) - first
	if m.mirrors {
		for _, p := range h.points[first:] {
			h.points = append(h.points, p.Mirror())
		}
	}
	for at := first; at < int32(len(h.points)); at++ {
		if inMesh := (at - first) % all; inMesh%across == across-1 || inMesh >= all-across {
			continue
		}
		do([3]int32{at, at + 1, at + across + 1})
		do([3]int32{at, at + across + 1, at + across})
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
