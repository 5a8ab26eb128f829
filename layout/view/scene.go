package view

import (
	"math"
	"slices"

	"hubrule/internal/geom"
)

// Scene is a solid before a camera: it knows what hides what. It works on the projected triangles of a fine mesh, sorted
// into a grid over the picture; no raster decides anything.
type Scene struct {
	solid  *Solid
	Camera Camera

	panels  []panel
	shell   *shell
	corners []corner  // the shell's points
	faces   []int32   // indices of the triangles that are not seen edge-on
	nearest []float32 // a hair more than any triangle's nearness
	box     geom.Box[ImageLength]
	size    ImageLength // of a cell
	columns int
	rows    int
	starts  []int32 // of each cell's triangles among those of all cells, and the end of the last
	cells   []int32 // indices of triangles
}

// corner is a point of the shell before the camera.
type corner struct {
	at   ImagePoint
	near float64 // see Camera.nearness
}

// NewScene places s before c. The camera must be one that s allows: CameraSpec.Camera of its plan, or a parallel one.
func NewScene(s *Solid, c Camera) *Scene {
	sc := &Scene{solid: s, Camera: c, panels: slices.Concat(s.panels(), s.fitted()), shell: s.shell()}
	sc.corners = make([]corner, len(sc.shell.points))
	for i, p := range sc.shell.points {
		sc.corners[i] = c.corner(p)
	}
	sc.sort()
	return sc
}

// corner returns Project, and what nearness makes of Depth.
func (c *Camera) corner(p Point3) corner {
	h := c.image(p)
	at := ImagePoint{X: ImageLength(h[0] / h[2]), Y: ImageLength(h[1] / h[2])}
	if c.isParallel {
		return corner{at, c.nearness(c.Depth(p))}
	}
	return corner{at, c.nearness(geom.Wheels(h[2]))}
}

// triangle returns the corners of the triangle i.
func (sc *Scene) triangle(i int32) (a, b, c *corner) {
	t := &sc.shell.triangles[i]
	return &sc.corners[t[0]], &sc.corners[t[1]], &sc.corners[t[2]]
}

// cellRange is a box of cells, ends included.
type cellRange struct{ fromX, fromY, toX, toY uint8 }

// sort lays a grid over the picture and puts every triangle that is not seen edge-on into the cells its box touches.
func (sc *Scene) sort() {
	const across = 160
	sc.findFaces()
	sc.size = max(sc.box.Width(), sc.box.Height()) / across
	sc.columns, sc.rows = int(sc.box.Width()/sc.size)+1, int(sc.box.Height()/sc.size)+1
	cells := make([][2]uint8, len(sc.corners))
	for i := range cells {
		x, y := sc.cell(sc.corners[i].at)
		cells[i] = [2]uint8{uint8(x), uint8(y)}
	}
	ranges := make([]cellRange, len(sc.faces))
	sc.starts = make([]int32, sc.columns*sc.rows+1)
	for k, i := range sc.faces {
		t := &sc.shell.triangles[i]
		a, b, c := cells[t[0]], cells[t[1]], cells[t[2]]
		r := cellRange{min(a[0], b[0], c[0]), min(a[1], b[1], c[1]), max(a[0], b[0], c[0]), max(a[1], b[1], c[1])}
		ranges[k] = r
		sc.eachCell(r, func(cell int) { sc.starts[cell]++ })
	}
	sum := int32(0)
	for i, n := range sc.starts { // for now each cell's end, which moves down to its start as it is filled
		sum += n
		sc.starts[i] = sum
	}
	sc.cells = make([]int32, sum)
	for k, i := range slices.Backward(sc.faces) {
		sc.eachCell(ranges[k], func(cell int) {
			sc.starts[cell]--
			sc.cells[sc.starts[cell]] = i
		})
	}
}

// findFaces finds the triangles that are not seen edge-on, and the box round them.
func (sc *Scene) findFaces() {
	sc.faces = make([]int32, 0, len(sc.shell.triangles))
	sc.nearest = make([]float32, len(sc.shell.triangles))
	seen := make([]bool, len(sc.corners))
	for i := range int32(len(sc.shell.triangles)) {
		const hair = 2e-7 // more than a number loses here
		a, b, c := sc.triangle(i)
		near := max(a.near, b.near, c.near)
		sc.nearest[i] = float32(near + float64(hair*math.Abs(near)))
		if math.Abs(b.at.Sub(a.at).Cross(c.at.Sub(a.at))) <= 1e-16 {
			continue
		}
		for _, k := range sc.shell.triangles[i] {
			seen[k] = true
		}
		sc.faces = append(sc.faces, i)
	}
	first, _, _ := sc.triangle(sc.faces[0])
	sc.box = geom.BoxOf(first.at)
	for i := range seen {
		if seen[i] {
			sc.box = geom.BoxOf(sc.corners[i].at, sc.box.Min, sc.box.Max)
		}
	}
}

// eachCell calls do with each cell of a range.
func (sc *Scene) eachCell(r cellRange, do func(cell int)) {
	for y := int(r.fromY); y <= int(r.toY); y++ {
		for x := int(r.fromX); x <= int(r.toX); x++ {
			do(y*sc.columns + x)
		}
	}
}

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

// covered reports whether a triangle nearer than the limit lies over a place of the picture.
func (sc *Scene) covered(at ImagePoint, limit float64) bool {
	if at.X < sc.box.Min.X || at.Y < sc.box.Min.Y || at.X > sc.box.Max.X || at.Y > sc.box.Max.Y {
		return false
	}
	x, y := sc.cell(at)
	return sc.coveredBy(sc.inCell(x, y), at, limit)
}

// inCell returns the triangles that may lie over a cell.
func (sc *Scene) inCell(x, y int) []int32 {
	cell := y*sc.columns + x
	return sc.cells[sc.starts[cell]:sc.starts[cell+1]]
}

// coveredBy reports whether one of some triangles covers a place of the picture and is nearer than the limit.
func (sc *Scene) coveredBy(triangles []int32, at ImagePoint, limit float64) bool {
	for _, i := range triangles {
		if float64(sc.nearest[i]) > limit && sc.lies(i, at, limit) {
			return true
		}
	}
	return false
}

// lies reports whether the triangle i lies over at and is nearer there than the limit; the wheel arches are cut out of it.
func (sc *Scene) lies(i int32, at ImagePoint, limit float64) bool {
	p, q, r := sc.triangle(i)
	if p.near <= limit && q.near <= limit && r.near <= limit {
		return false
	}
	u, v, w, isInside := shares(p.at, q.at, r.at, at)
	if !isInside {
		return false
	}
	sum := u + v + w
	u, v, w = u/sum, v/sum, w/sum
	near := float64(u*p.near) + float64(v*q.near) + float64(w*r.near)
	if !(near > limit) {
		return false
	}
	if int(i) < sc.shell.whole {
		return true
	}
	if p.near > 0 { // a pinhole: shares of the picture are not those of the surface
		u, v, w = u*p.near/near, v*q.near/near, w*r.near/near
	}
	return !sc.solid.inArch(sc.shell.over(i, u, v, w))
}

// shares returns the shares, which add up to anything but 0, of three corners in a place, and reports whether that lies between them.
func shares(a, b, c, at ImagePoint) (u, v, w float64, isInside bool) {
	a, b, c = a.Sub(at), b.Sub(at), c.Sub(at)
	u, v, w = b.Cross(c), c.Cross(a), a.Cross(b)
	isInside = (u >= 0 && v >= 0 && w >= 0 || u <= 0 && v <= 0 && w <= 0) && u+v+w != 0
	return u, v, w, isInside
}
