package perspective

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render/draft"
)

// imageSegment is a straight line in the image.
type imageSegment struct{ from, to view.ImagePoint }

// visible returns the part of a line in space that lies before the eye and on the page; false if there is none.
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

// clip returns the parts of a segment whose points all pass: it is sampled every millimetre, and ends are found by bisection.
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

// uncovered reports whether the vehicle leaves a point of the image free.
func (d *drawing) uncovered(s view.ImagePoint) bool { return d.noBody || !d.scene.Covers(s) }

// grid draws the ground in tiles of one wheel, not through the body. The front tyre's edges and the near side lie on grid lines.
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
		return d.uncovered(s) && !((p.X-rail.X)*side > 0 && p.Y < rail.Y) // levels are read there
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

// horizon draws the horizon from margin to margin, except behind the body.
func (d *drawing) horizon() {
	if !d.hasHorizon() {
		return
	}
	y := d.horizonAt()
	s := imageSegment{d.toImage(draft.Pt(d.Space.Min.X, y)), d.toImage(draft.Pt(d.Space.Max.X, y))}
	d.polylines("horizon", "horizon", horizonLine(), d.clip(s, d.uncovered))
}
