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
	corners []corner // the shell's
	bounds  []bounds // of its quads
	box     geom.Box[ImageLength]
	size    ImageLength // of a square
	columns int         // of cells
	rows    int
	starts  []int32 // of each cell's quads among those of all cells, and the end of the last
	cells   []int32 // indices of quads
}

// A grid of squares lies over the picture, and one of cells, each of which is several squares wide. Cells list quads; squares, which are
// less than most quads, tell apart what lies in one cell.
const (
	squaresAcross = 240 // at most 254, for bounds
	squaresInCell = 3
)

// square is a square by its column and row.
type square struct{ x, y uint8 }

// bounds are a hair more than any nearness of a quad, and the squares that it lies between, these included; none where it is seen edge-on.
type bounds struct {
	nearest  float32
	from, to square
}

// edgeOn are the squares of a quad that is seen edge-on.
var edgeOn = bounds{from: square{math.MaxUint8, math.MaxUint8}}

// isEdgeOn reports whether the quad is seen edge-on.
func (b *bounds) isEdgeOn() bool { return b.from.x > b.to.x }

// meet reports whether one of the squares between two, these included, lies within b.
func (b *bounds) meet(from, to square) bool {
	return to.x >= b.from.x && from.x <= b.to.x && to.y >= b.from.y && from.y <= b.to.y
}

// corner is a point of the shell before the camera.
type corner struct {
	at   ImagePoint
	near float64 // see Camera.nearness
}

// NewScene places s before c. The camera must be one that s allows: CameraSpec.Camera of its plan, or a parallel one.
func NewScene(s *Solid, c Camera) *Scene {
	sc := &Scene{solid: s, Camera: c, panels: slices.Concat(s.panels(), s.fitted()), shell: s.shell()}
	sc.corners = make([]corner, 0, sc.shell.corners())
	sc.shell.each(func(p Point3) { sc.corners = append(sc.corners, c.corner(p)) })
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

// sort puts every quad that is not seen edge-on into the cells that its bounds touch.
func (sc *Scene) sort() {
	sc.measure()
	sc.size = max(sc.box.Width(), sc.box.Height()) / squaresAcross
	sc.columns, sc.rows = int(sc.box.Width()/sc.size)/squaresInCell+1, int(sc.box.Height()/sc.size)/squaresInCell+1
	squares := make([]square, len(sc.corners))
	for i := range squares {
		squares[i] = sc.square(sc.corners[i].at)
	}
	sc.starts = make([]int32, sc.columns*sc.rows+1)
	for i, q := range sc.shell.quads {
		if of := &sc.bounds[i]; !of.isEdgeOn() {
			a, b, c, d := squares[q.row], squares[q.row+1], squares[q.next], squares[q.next+1]
			of.from = square{min(a.x, b.x, c.x, d.x), min(a.y, b.y, c.y, d.y)}
			of.to = square{max(a.x, b.x, c.x, d.x), max(a.y, b.y, c.y, d.y)}
			sc.eachCell(of.from, of.to, func(cell int) { sc.starts[cell]++ })
		}
	}
	sum := int32(0)
	for i, n := range sc.starts { // for now each cell's end, which moves down to its start as it is filled
		sum += n
		sc.starts[i] = sum
	}
	sc.cells = make([]int32, sum)
	for i := range slices.Backward(sc.bounds) {
		sc.eachCell(sc.bounds[i].from, sc.bounds[i].to, func(cell int) {
			sc.starts[cell]--
			sc.cells[sc.starts[cell]] = int32(i)
		})
	}
}

// measure finds the nearness of the quads, which of them are seen edge-on, and the box round the triangles that are not.
func (sc *Scene) measure() {
	sc.bounds = make([]bounds, len(sc.shell.quads))
	const far = math.MaxFloat64
	low, high := ImagePoint{X: far, Y: far}, ImagePoint{X: -far, Y: -far}
	grow := func(a, b, c ImagePoint) {
		low = ImagePoint{X: min(low.X, a.X, b.X, c.X), Y: min(low.Y, a.Y, b.Y, c.Y)}
		high = ImagePoint{X: max(high.X, a.X, b.X, c.X), Y: max(high.Y, a.Y, b.Y, c.Y)}
	}
	for i := range sc.bounds {
		const flat, hair = 1e-16, 2e-7 // hair: more than a nearness loses here
		a, b, c, d := sc.quad(int32(i))
		near, across := max(a.near, b.near, c.near, d.near), c.at.Sub(a.at)
		isFirst, isSecond := math.Abs(b.at.Sub(a.at).Cross(across)) > flat, math.Abs(across.Cross(d.at.Sub(a.at))) > flat
		if isFirst {
			grow(a.at, b.at, c.at)
		}
		if isSecond {
			grow(a.at, c.at, d.at)
		}
		if !isFirst && !isSecond {
			sc.bounds[i] = edgeOn
		}
		sc.bounds[i].nearest = float32(near + float64(hair*math.Abs(near)))
	}
	sc.box = geom.Box[ImageLength]{Min: low, Max: high}
}

// eachCell calls do with each cell between two squares, these included.
func (sc *Scene) eachCell(from, to square, do func(cell int)) {
	for y := int(from.y) / squaresInCell; y <= int(to.y)/squaresInCell; y++ {
		for x := int(from.x) / squaresInCell; x <= int(to.x)/squaresInCell; x++ {
			do(y*sc.columns + x)
		}
	}
}

// square returns the square in which a place lies; outside the box the one next to it.
func (sc *Scene) square(p ImagePoint) square {
	x := int((p.X - sc.box.Min.X) / sc.size)
	y := int((p.Y - sc.box.Min.Y) / sc.size)
	last := func(cells int) int { return cells*squaresInCell - 1 }
	return square{uint8(max(0, min(last(sc.columns), x))), uint8(max(0, min(last(sc.rows), y)))}
}

// Covers reports whether the vehicle covers a place of the picture.
func (sc *Scene) Covers(at ImagePoint) bool { return sc.coveredBy(at, math.Inf(-1)) != nothing }

// nothing stands for no quad.
const nothing = -1

// coveredBy returns a quad nearer than the limit that lies over a place of the picture, or nothing.
func (sc *Scene) coveredBy(at ImagePoint, limit float64) int32 {
	if at.X < sc.box.Min.X || at.Y < sc.box.Min.Y || at.X > sc.box.Max.X || at.Y > sc.box.Max.Y {
		return nothing
	}
	where := sc.square(at)
	for _, i := range sc.inCell(sc.cellOf(where)) {
		if of := &sc.bounds[i]; float64(of.nearest) > limit && of.meet(where, where) && sc.lies(i, at, limit) {
			return i
		}
	}
	return nothing
}

// cellOf returns the cell of a square.
func (sc *Scene) cellOf(at square) int {
	return int(at.y)/squaresInCell*sc.columns + int(at.x)/squaresInCell
}

// inCell returns the quads that may lie over a cell.
func (sc *Scene) inCell(cell int) []int32 {
	return sc.cells[sc.starts[cell]:sc.starts[cell+1]]
}

// lies reports whether the quad i lies over at and is nearer there than the limit; the wheel arches are cut out of it.
func (sc *Scene) lies(i int32, at ImagePoint, limit float64) bool {
	a, b, c, d := sc.quad(i)
	if isBeside(geom.Box[ImageLength]{Min: at, Max: at}, a.at, b.at, c.at, d.at) {
		return false
	}
	over, isOver := sharesOf(a, b, c, at)
	if isOver && over.near > limit && !sc.isCutOut(i, over, 1) {
		return true
	}
	over, isOver = sharesOf(a, c, d, at)
	return isOver && over.near > limit && !sc.isCutOut(i, over, 2)
}

// isBeside reports whether four places lie on one side of a box.
func isBeside(box geom.Box[ImageLength], a, b, c, d ImagePoint) bool {
	lo, hi := box.Min, box.Max
	return a.X < lo.X && b.X < lo.X && c.X < lo.X && d.X < lo.X || a.X > hi.X && b.X > hi.X && c.X > hi.X && d.X > hi.X ||
		a.Y < lo.Y && b.Y < lo.Y && c.Y < lo.Y && d.Y < lo.Y || a.Y > hi.Y && b.Y > hi.Y && c.Y > hi.Y && d.Y > hi.Y
}

// shares are how a place of the picture lies between the corners of a triangle, and how near the triangle is there.
type shares struct{ u, v, w, near float64 }

// sharesOf returns how at lies in a triangle, and whether it does.
func sharesOf(p, q, r *corner, at ImagePoint) (out shares, isOver bool) {
	a, b, c := p.at.Sub(at), q.at.Sub(at), r.at.Sub(at)
	u, v, w := b.Cross(c), c.Cross(a), a.Cross(b)
	if !(u >= 0 && v >= 0 && w >= 0) && !(u <= 0 && v <= 0 && w <= 0) {
		return out, false
	}
	sum := u + v + w
	if sum == 0 {
		return out, false
	}
	u, v, w = u/sum, v/sum, w/sum
	return shares{u, v, w, float64(u*p.near) + float64(v*q.near) + float64(w*r.near)}, true
}

// isCutOut reports whether a place lies in a wheel arch that is cut out of the quad i: a place in the triangle between its first corner,
// the one called second, and the next.
func (sc *Scene) isCutOut(i int32, of shares, second int) bool {
	n := int(i) - sc.shell.whole
	if n < 0 {
		return false
	}
	a, b, c, d := sc.quad(i)
	q, r := b, c
	if second == 2 {
		q, r = c, d
	}
	if a.near > 0 { // a pinhole: shares of the picture are not those of the surface
		of.u, of.v, of.w = of.u*a.near/of.near, of.v*q.near/of.near, of.w*r.near/of.near
	}
	k := sc.shell.cut[n]
	points := sc.shell.grids[k.grid].corners(int(k.row), int(k.i))
	o, p, s := points[0], points[second], points[second+1]
	return sc.solid.inArch(place{
		float64(of.u*float64(o.X)) + float64(of.v*float64(p.X)) + float64(of.w*float64(s.X)),
		float64(of.u*float64(o.Y)) + float64(of.v*float64(p.Y)) + float64(of.w*float64(s.Y)),
	})
}
