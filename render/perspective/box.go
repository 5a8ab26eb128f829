package perspective

import (
	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render"
)

// boxEdges lists the edges of the enclosing box by the indices of their corners.
func boxEdges() [][2]int {
	var out [][2]int
	for i := range 8 {
		for _, bit := range []int{1, 2, 4} {
			if i&bit == 0 {
				out = append(out, [2]int{i, i | bit})
			}
		}
	}
	return out
}

// faces reports whether the side of the enclosing box whose corners all have bit set, or clear, faces the eye.
func (d *drawing) faces(bit int, set bool) bool {
	corners, eye := d.solid.Corners(), d.camera.Eye
	c := corners[0]
	if set {
		c = corners[7]
	}
	off := map[int]geom.Wheels{1: eye.X - c.X, 2: eye.Y - c.Y, 4: eye.Z - c.Z}[bit]
	return off > 0 == set && off != 0
}

// isBehind reports whether both sides at an edge of the enclosing box face away from the eye.
func (d *drawing) isBehind(e [2]int) bool {
	for _, bit := range []int{1, 2, 4} {
		if e[0]&bit == e[1]&bit && d.faces(bit, e[0]&bit != 0) {
			return false
		}
	}
	return true
}

// enclosure draws the enclosing box, its far edges dashed and not through the body.
func (d *drawing) enclosure() {
	corners := d.solid.Corners()
	var seen, behind [][]view.ImagePoint
	for _, e := range boxEdges() {
		s, ok := d.visible(corners[e[0]], corners[e[1]])
		switch {
		case !ok:
		case d.isBehind(e):
			behind = append(behind, d.clip(s, d.uncovered)...)
		default:
			seen = append(seen, []view.ImagePoint{s.from, s.to})
		}
	}
	d.polylines("box", "box", boxLine(), seen)
	d.polylines("box", "box-behind", behindLine(), behind)
}

// thirds marks the thirds of the long edges and of the near upright of the enclosing box.
func (d *drawing) thirds() {
	const long, short geom.Wheels = .05, .035 // half a tick
	corners := d.solid.Corners()
	path := render.Path{}
	for _, e := range boxEdges() {
		upright := e[0]|2 == e[1]
		if d.isBehind(e) || e[0]|4 == e[1] || upright && e[0] != d.nearUpright() {
			continue
		}
		tick := view.Point3{Y: long}
		if upright {
			tick = view.Point3{X: short}
		}
		for _, third := range []float64{1. / 3, 2. / 3} {
			q := corners[e[0]].Lerp(corners[e[1]], third)
			path = path.Move(d.at(q.Sub(tick))).Line(d.at(q.Add(tick)))
		}
	}
	d.Curve(boxLine().For("box", "thirds"), path, 1)
}

// nearUpright returns the lower corner of the enclosing box that is nearest to the eye.
func (d *drawing) nearUpright() int {
	best, corners := 0, d.solid.Corners()
	for i := range corners {
		if i&2 == 0 && d.camera.Depth(corners[i]) < d.camera.Depth(corners[best]) {
			best = i
		}
	}
	return best
}
