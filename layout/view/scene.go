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
	faces   []int32   // indices of the quads that are not seen edge-on
	nearest []float32 // a hair more than any quad's nearness
	box     geom.Box[ImageLength]
	size    ImageLength // of a cell
	columns int
	rows    int
	starts  []int32 // of each cell's quads among those of all cells, and the end of the last
	cells   []int32 // indices of quads
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

// quad returns the corners of the quad i: the triangles between the first three and between all but the second.
func (sc *Scene) quad(i int32) (a, b, c, d *corner) {
	q := sc.shell.quads[i]
	return &sc.corners[q.row], &sc.corners[q.row+1], &sc.corners[q.next+1], &sc.corners[q.next]
}

// cellRange is a box of cells, ends included.
type cellRange struct{ fromX, fromY, toX, toY uint8 }

// sort lays a grid over the picture and puts every quad that is not seen edge-on into the cells its box touches.
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
		q := sc.shell.quads[i]
		a, b, c, d := cells[q.row], cells[q.row+1], cells[q.next], cells[q.next+1]
		r := cellRange{min(a[0], b[0], c[0], d[0]), min(a[1], b[1], c[1], d[1]), max(a[0], b[0], c[0], d[0]), max(a[1], b[1], c[1], d[1])}
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

// findFaces finds the quads that are not seen edge-on, and the box round their triangles that are not.
func (sc *Scene) findFaces() {
	sc.faces = make([]int32, 0, len(sc.shell.quads))
	sc.nearest = make([]float32, len(sc.shell.quads))
	seen := make([]bool, len(sc.corners))
	for i, q := range sc.shell.quads {
		const flat, hair = 1e-16, 2e-7 // hair: more than a nearness loses here
		a, b, c, d := sc.quad(int32(i))
		near, across := max(a.near, b.near, c.near, d.near), c.at.Sub(a.at)
		sc.nearest[i] = float32(near + float64(hair*math.Abs(near)))
		isFirst, isSecond := math.Abs(b.at.Sub(a.at).Cross(across)) > flat, math.Abs(across.Cross(d.at.Sub(a.at))) > flat
		if !isFirst && !isSecond {
			continue
		}
		sc.faces = append(sc.faces, int32(i))
		seen[q.row], seen[q.next+1] = true, true
		seen[q.row+1], seen[q.next] = seen[q.row+1] || isFirst, seen[q.next] || isSecond
	}
	first, _, _, _ := sc.quad(sc.faces[0])
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

// covered reports whether a quad nearer than the limit lies over a place of the picture.
func (sc *Scene) covered(at ImagePoint, limit float64) bool {
	if at.X < sc.box.Min.X || at.Y < sc.box.Min.Y || at.X > sc.box.Max.X || at.Y > sc.box.Max.Y {
		return false
	}
	x, y := sc.cell(at)
	return sc.coveredBy(sc.inCell(x, y), at, limit)
}

// inCell returns the quads that may lie over a cell.
func (sc *Scene) inCell(x, y int) []int32 {
	cell := y*sc.columns + x
	return sc.cells[sc.starts[cell]:sc.starts[cell+1]]
}

// coveredBy reports whether one of some quads covers a place of the picture and is nearer than the limit.
func (sc *Scene) coveredBy(quads []int32, at ImagePoint, limit float64) bool {
	for _, i := range quads {
		if float64(sc.nearest[i]) > limit && sc.lies(i, at, limit) {
			return true
		}
	}
	return false
}

// lies reports whether the quad i lies over at and is nearer there than the limit; the wheel arches are cut out of it.
func (sc *Scene) lies(i int32, at ImagePoint, limit float64) bool {
	a, b, c, d := sc.quad(i)
	if isBeside(geom.Box[ImageLength]{Min: at, Max: at}, a.at, b.at, c.at, d.at) {
		return false
	}
	k := sc.shell.quads[i].corners()
	isCut := int(i) >= sc.shell.whole
	return sc.isOver([3]int32{k[0], k[1], k[2]}, isCut, at, limit) || sc.isOver([3]int32{k[0], k[2], k[3]}, isCut, at, limit)
}

// isBeside reports whether four places lie on one side of a box.
func isBeside(box geom.Box[ImageLength], a, b, c, d ImagePoint) bool {
	lo, hi := box.Min, box.Max
	return a.X < lo.X && b.X < lo.X && c.X < lo.X && d.X < lo.X || a.X > hi.X && b.X > hi.X && c.X > hi.X && d.X > hi.X ||
		a.Y < lo.Y && b.Y < lo.Y && c.Y < lo.Y && d.Y < lo.Y || a.Y > hi.Y && b.Y > hi.Y && c.Y > hi.Y && d.Y > hi.Y
}

// isOver reports whether a triangle, out of which the arches may be cut, lies over at and is nearer there than the limit.
func (sc *Scene) isOver(t [3]int32, isCut bool, at ImagePoint, limit float64) bool {
	p, q, r := &sc.corners[t[0]], &sc.corners[t[1]], &sc.corners[t[2]]
	a, b, c := p.at.Sub(at), q.at.Sub(at), r.at.Sub(at)
	u, v, w := b.Cross(c), c.Cross(a), a.Cross(b)
	if !(u >= 0 && v >= 0 && w >= 0) && !(u <= 0 && v <= 0 && w <= 0) {
		return false
	}
	sum := u + v + w
	if sum == 0 {
		return false
	}
	u, v, w = u/sum, v/sum, w/sum
	near := float64(u*p.near) + float64(v*q.near) + float64(w*r.near)
	if !(near > limit) {
		return false
	}
	if !isCut {
		return true
	}
	if p.near > 0 { // a pinhole: shares of the picture are not those of the surface
		u, v, w = u*p.near/near, v*q.near/near, w*r.near/near
	}
	return !sc.solid.inArch(sc.shell.over(t[0], t[1], t[2], u, v, w))
}
