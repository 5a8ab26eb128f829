package perspective

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/draft"
)

// imageSegment is a straight piece of the picture.
type imageSegment struct{ from, to view.ImagePoint }

// visible returns the part of the line between two places of the vehicle's space that lies before the eye and on the page.
func (d *drawing) visible(a, b view.Point3) (imageSegment, bool) {
	const least = .05 // depth, in wheels
	da, db := float64(d.camera.Depth(a)), float64(d.camera.Depth(b))
	if da < least && db < least {
		return imageSegment{}, false
	}
	if da < least {
		a = a.Lerp(b, (least-da)/(db-da))
	} else if db < least {
		b = b.Lerp(a, (least-db)/(da-db))
	}
	p, q := d.at(a), d.at(b)
	from, to, inside := draft.Segment{A: p, B: q}.Clip(d.Space)
	return imageSegment{d.toImage(p.Lerp(q, from)), d.toImage(p.Lerp(q, to))}, inside
}

// clip returns the parts of a stretch where all of its places pass: it is walked in millimetres, and ends are found by halving.
func (d *drawing) clip(s imageSegment, passes func(view.ImagePoint) bool) [][]view.ImagePoint {
	n := max(1, int(math.Ceil(float64(d.length(s.to.Sub(s.from).Len())))))
	on := func(t float64) view.ImagePoint { return s.from.Lerp(s.to, t) }
	turn := func(in, out float64) view.ImagePoint {
		for range 20 {
			if mid := (in + out) / 2; passes(on(mid)) {
				in = mid
			} else {
				out = mid
			}
		}
		return on(in)
	}
	var out [][]view.ImagePoint
	var start view.ImagePoint
	inside := false
	for i := range n + 1 {
		t, before := float64(i)/float64(n), float64(i-1)/float64(n)
		now := passes(on(t))
		switch {
		case now && !inside && i == 0:
			start = on(t)
		case now && !inside:
			start = turn(t, before)
		case !now && inside:
			out = append(out, []view.ImagePoint{start, turn(before, t)})
		}
		inside = now
	}
	if inside {
		out = append(out, []view.ImagePoint{start, s.to})
	}
	return out
}

// uncovered reports whether the vehicle leaves a place of the picture free.
func (d *drawing) uncovered(s view.ImagePoint) bool { return d.noBody || !d.scene.Covers(s) }

// grid draws the ground in tiles of one wheel, not through the body: the front tyre's edges and the near side lie on lines.
func (d *drawing) grid() {
	const beyond = 1
	corners := d.solid.Corners()
	lo, hi := corners[0], corners[7]
	near := d.wheels[0].Wheel.Centre.Z
	steps := func(from, to, through geom.Wheels) []geom.Wheels {
		var out []geom.Wheels
		for k := math.Ceil(float64(from-through) - 1e-9); through+geom.Wheels(k) <= to; k++ {
			out = append(out, through+geom.Wheels(k))
		}
		return out
	}
	along := steps(lo.X-beyond, hi.X+beyond, -.5)
	across := steps(lo.Z-beyond, near+beyond, near)
	foot, _, side := d.levelEdge()
	rail := d.at(foot)
	free := func(s view.ImagePoint) bool {
		p := d.toPage(s)
		return d.uncovered(s) && !((p.X-rail.X)*side > 0 && p.Y < rail.Y) // there the levels are read
	}
	var lines [][]view.ImagePoint
	add := func(a, b view.Point3) {
		if s, ok := d.visible(a, b); ok {
			lines = append(lines, d.clip(s, free)...)
		}
	}
	for _, x := range along {
		add(view.Point3{X: x, Z: across[0]}, view.Point3{X: x, Z: across[len(across)-1]})
	}
	for _, z := range across {
		add(view.Point3{X: along[0], Z: z}, view.Point3{X: along[len(along)-1], Z: z})
	}
	d.polylines("grid", "grid", gridLine(), lines)
}

// horizonAt returns the y of the horizon on the page.
func (d *drawing) horizonAt() geom.MM {
	y, _ := d.camera.Horizon()
	return d.toPage(view.ImagePoint{Y: y}).Y
}

// hasHorizon reports whether the horizon lies on the page.
func (d *drawing) hasHorizon() bool {
	y := d.horizonAt()
	return y > d.Space.Min.Y && y < d.Space.Max.Y
}

// horizon draws the eye's level from margin to margin, broken behind the body.
func (d *drawing) horizon() {
	if !d.hasHorizon() {
		return
	}
	y := d.horizonAt()
	s := imageSegment{d.toImage(draft.Pt(d.Space.Min.X, y)), d.toImage(draft.Pt(d.Space.Max.X, y))}
	d.polylines("horizon", "horizon", horizonLine(), d.clip(s, d.uncovered))
}

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

// faces reports whether the side of the enclosing box with all corners that have bit set, or clear, looks at the eye.
func (d *drawing) faces(bit int, set bool) bool {
	corners, eye := d.solid.Corners(), d.camera.Eye
	c := corners[0]
	if set {
		c = corners[7]
	}
	off := map[int]geom.Wheels{1: eye.X - c.X, 2: eye.Y - c.Y, 4: eye.Z - c.Z}[bit]
	return off > 0 == set && off != 0
}

// isBehind reports whether an edge of the enclosing box lies between two sides that look away from the eye.
func (d *drawing) isBehind(e [2]int) bool {
	for _, bit := range []int{1, 2, 4} {
		if e[0]&bit == e[1]&bit && d.faces(bit, e[0]&bit != 0) {
			return false
		}
	}
	return true
}

// enclosure draws the enclosing box; its far edges are dashed, where nothing covers them.
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

// thirds ticks the long edges and the uprights of the enclosing box's near sides at their thirds.
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
	d.Curve("box", "thirds", boxLine(), path, 1)
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
