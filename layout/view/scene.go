package view

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout/outline"
)

// Scene is a solid before a camera: it knows what hides what. It works on the projected triangles of a fine mesh, sorted
// into a grid over the picture; no raster decides anything.
type Scene struct {
	solid  *Solid
	Camera Camera

	panels  []panel
	faces   []face
	box     geom.Box[ImageLength]
	cells   [][]int32
	columns int
	rows    int
	size    ImageLength // of a cell
}

// face is one projected triangle.
type face struct {
	at     [3]ImagePoint
	near   [3]float64 // nearness of the corners, see Camera.nearness
	over   [3]place   // places of the side view, for what is cut out of it
	arched bool
}

// NewScene places s before c. The camera must be one that s allows: CameraSpec.Camera of its plan, or a parallel one.
func NewScene(s *Solid, c Camera) *Scene {
	sc := &Scene{solid: s, Camera: c, panels: slices.Concat(s.panels(), s.fitted())}
	meshes := s.inside(sc.panels)
	for _, p := range sc.panels {
		meshes = append(meshes, p.mesh())
	}
	for _, w := range s.Wheels() {
		meshes = append(meshes, w.mesh())
	}
	size := 0
	for _, m := range meshes {
		size += 4 * len(m.rows) * len(m.rows[0]) // at most two triangles a place, and their mirror images
	}
	sc.faces = make([]face, 0, size)
	for _, m := range meshes {
		sc.addMesh(m)
	}
	sc.sort()
	return sc
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

// mesh is a grid of points that only hides.
type mesh struct {
	rows    [][]Point3
	mirrors bool // m is the left half
	arched  bool // the wheel arches are cut out of it
}

// corner is a place of a mesh before the camera.
type corner struct {
	at   ImagePoint
	near float64 // see Camera.nearness
	over place   // of the side view, for what is cut out of it
}

func (sc *Scene) corner(p Point3) corner {
	return corner{sc.Camera.Project(p), sc.Camera.nearness(sc.Camera.Depth(p)), place{float64(p.X), float64(p.Y)}}
}

func (sc *Scene) addMesh(m mesh) {
	var before, beforeMirrored []corner
	for _, row := range m.rows {
		now, mirrored := make([]corner, len(row)), make([]corner, len(row))
		for j, p := range row {
			if now[j] = sc.corner(p); m.mirrors {
				mirrored[j] = sc.corner(p.Mirror())
			}
		}
		for j := 1; j < len(before); j++ {
			sc.add(&before[j-1], &before[j], &now[j], m.arched)
			if m.mirrors {
				sc.add(&beforeMirrored[j-1], &beforeMirrored[j], &mirrored[j], m.arched)
			}
			sc.add(&before[j-1], &now[j], &now[j-1], m.arched)
			if m.mirrors {
				sc.add(&beforeMirrored[j-1], &mirrored[j], &mirrored[j-1], m.arched)
			}
		}
		before, beforeMirrored = now, mirrored
	}
}

// add puts a triangle into the scene.
func (sc *Scene) add(a, b, c *corner, arched bool) {
	if math.Abs(b.at.Sub(a.at).Cross(c.at.Sub(a.at))) > 1e-16 {
		sc.faces = append(sc.faces, face{
			at: [3]ImagePoint{a.at, b.at, c.at}, near: [3]float64{a.near, b.near, c.near},
			over: [3]place{a.over, b.over, c.over}, arched: arched,
		})
	}
}

// unitCircle returns the corners of a polygon round the z axis, the first one again at the end.
func unitCircle(sides int) []Point3 {
	out := make([]Point3, sides+1)
	for i := range sides {
		sin, cos := sincos(geom.Degrees(360 * float64(i) / float64(sides)))
		out[i] = point3(cos, sin, 0)
	}
	out[sides] = out[0]
	return out
}

// mesh returns the tyre as a prism inside its cylinder, a hair smaller than it.
func (w Wheel) mesh() mesh {
	m := mesh{rows: make([][]Point3, 4)}
	for _, on := range unitCircle(96) {
		on = on.Times(float64(w.Radius))
		for k, p := range [4]Point3{w.Centre, w.Centre.Add(on), w.Inner.Add(on), w.Inner} {
			m.rows[k] = append(m.rows[k], p)
		}
	}
	return m
}

// sort lays a grid over the picture and puts every face into the cells its box touches.
func (sc *Scene) sort() {
	const across = 160
	bounds := make([]geom.Box[ImageLength], len(sc.faces))
	sc.box = sc.faces[0].bounds()
	for i := range sc.faces {
		b := sc.faces[i].bounds()
		bounds[i], sc.box = b, geom.BoxOf(sc.box.Min, sc.box.Max, b.Min, b.Max)
	}
	sc.size = max(sc.box.Width(), sc.box.Height()) / across
	sc.columns, sc.rows = int(sc.box.Width()/sc.size)+1, int(sc.box.Height()/sc.size)+1
	counts, sum := make([]int, sc.columns*sc.rows), 0
	sc.eachCell(bounds, func(i int, _ int32) { counts[i]++; sum++ })
	sc.cells = make([][]int32, len(counts))
	all := make([]int32, sum)
	for i, n := range counts {
		sc.cells[i], all = all[:0:n], all[n:]
	}
	sc.eachCell(bounds, func(i int, face int32) { sc.cells[i] = append(sc.cells[i], face) })
}

// eachCell calls do with each cell that the box of a face touches.
func (sc *Scene) eachCell(bounds []geom.Box[ImageLength], do func(cell int, face int32)) {
	for n := range bounds {
		x0, y0 := sc.cell(bounds[n].Min)
		x1, y1 := sc.cell(bounds[n].Max)
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				do(y*sc.columns+x, int32(n))
			}
		}
	}
}

func (f *face) bounds() geom.Box[ImageLength] { return geom.BoxOf(f.at[0], f.at[1], f.at[2]) }

func (sc *Scene) cell(p ImagePoint) (x, y int) {
	x = int((p.X - sc.box.Min.X) / sc.size)
	y = int((p.Y - sc.box.Min.Y) / sc.size)
	return max(0, min(sc.columns-1, x)), max(0, min(sc.rows-1, y))
}

// bias is how much nearer than a place something has to be to hide it, in wheels.
const bias geom.Wheels = .003

// hides reports whether anything stands between the eye and p.
func (sc *Scene) hides(p Point3) bool {
	d := sc.Camera.Depth(p) - bias
	return (sc.Camera.isParallel || d > 0) && sc.covered(sc.Camera.Project(p), sc.Camera.nearness(d))
}

// Covers reports whether the vehicle covers a place of the picture.
func (sc *Scene) Covers(at ImagePoint) bool { return sc.covered(at, math.Inf(-1)) }

// covered reports whether a face nearer than the limit lies over a place of the picture.
func (sc *Scene) covered(at ImagePoint, limit float64) bool {
	if at.X < sc.box.Min.X || at.Y < sc.box.Min.Y || at.X > sc.box.Max.X || at.Y > sc.box.Max.Y {
		return false
	}
	x, y := sc.cell(at)
	for _, n := range sc.cells[y*sc.columns+x] {
		if sc.faces[n].covers(at, limit, sc.solid) {
			return true
		}
	}
	return false
}

// covers reports whether f lies over at and is nearer there than the limit; the wheel arches are cut out of it.
func (f *face) covers(at ImagePoint, limit float64, s *Solid) bool {
	if max(f.near[0], f.near[1], f.near[2]) <= limit {
		return false
	}
	a, b, c := f.at[0].Sub(at), f.at[1].Sub(at), f.at[2].Sub(at)
	u, v, w := b.Cross(c), c.Cross(a), a.Cross(b)
	if !(u >= 0 && v >= 0 && w >= 0) && !(u <= 0 && v <= 0 && w <= 0) {
		return false
	}
	sum := u + v + w
	if sum == 0 {
		return false
	}
	u, v, w = u/sum, v/sum, w/sum
	close := float64(u*f.near[0]) + float64(v*f.near[1]) + float64(w*f.near[2])
	if !(close > limit) {
		return false
	}
	if !f.arched {
		return true
	}
	if f.near[0] > 0 { // a pinhole: shares of the picture are not those of the surface
		u, v, w = u*f.near[0]/close, v*f.near[1]/close, w*f.near[2]/close
	}
	return !s.inArch(place{
		float64(u*f.over[0].x) + float64(v*f.over[1].x) + float64(w*f.over[2].x),
		float64(u*f.over[0].y) + float64(v*f.over[1].y) + float64(w*f.over[2].y),
	})
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
