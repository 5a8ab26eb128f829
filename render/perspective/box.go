package perspective

import (
	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render"
)

// boxEdges lists the edges of the enclosing box by the indices of their corners.
var boxEdges = [12][2]int{{0, 1}, {0, 2}, {0, 4}, {1, 3}, {1, 5}, {2, 3}, {2, 6}, {3, 7}, {4, 5}, {4, 6}, {5, 7}, {6, 7}}

// isBehind reports whether both sides at an edge of the enclosing box face away from the eye.
func (d *drawing) isBehind(e [2]int) bool {
	off := d.camera.Eye.Sub(d.solid.Corners()[e[0]])
	for axis, off := range []geom.Wheels{off.X, off.Y, off.Z} {
		bit := 1 << axis // set in the corners of the side at the far end of the axis
		if e[0]&bit == e[1]&bit && off != 0 && off > 0 == (e[0]&bit != 0) {
			return false
		}
	}
	return true
}

// enclosure draws the enclosing box, its far edges dashed and not through the body.
func (d *drawing) enclosure() {
	corners := d.solid.Corners()
	var seen, behind [][]view.ImagePoint
	for _, e := range boxEdges {
		if s := d.visible(corners[e[0]], corners[e[1]]); d.isBehind(e) {
			behind = append(behind, d.clip(s, d.uncovered)...)
		} else {
			seen = append(seen, s)
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
	for _, e := range boxEdges {
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
