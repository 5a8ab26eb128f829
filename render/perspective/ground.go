package perspective

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render/draft"
)

// visible returns the ends of the part of a line in space that lies before the eye and on the page; nil if there is none.
func (d *drawing) visible(a, b view.Point3) []view.ImagePoint {
	const least = .05 // depth, in wheels
	da, db := float64(d.camera.Depth(a)), float64(d.camera.Depth(b))
	switch {
	case da < least && db < least:
		return nil
	case da < least:
		a = a.Lerp(b, (least-da)/(db-da))
	case db < least:
		b = b.Lerp(a, (least-db)/(da-db))
	}
	p, q := d.at(a), d.at(b)
	from, to, inside := draft.Segment{A: p, B: q}.Clip(d.Space)
	if !inside {
		return nil
	}
	return []view.ImagePoint{d.toImage(p.Lerp(q, from)), d.toImage(p.Lerp(q, to))}
}

// clip returns the parts of a segment whose points all pass: it is sampled every millimetre, and ends are found by bisection.
func (d *drawing) clip(s []view.ImagePoint, passes func(view.ImagePoint) bool) [][]view.ImagePoint {
	if s == nil {
		return nil
	}
	n := max(1, int(math.Ceil(float64(d.length(s[1].Sub(s[0]).Len())))))
	on := func(t float64) view.ImagePoint { return s[0].Lerp(s[1], t) }
	var ends []view.ImagePoint // where a part starts and where it ends, by turns
	inside := false
	for i := range n + 1 {
		in, out := float64(i-1)/float64(n), float64(i)/float64(n)
		if passes(on(out)) == inside {
			continue
		}
		if inside = !inside; inside {
			in, out = out, in
		}
		if i > 0 {
			in, _ = geom.Bisect(in, out, 20, func(t float64) bool { return passes(on(t)) })
		}
		ends = append(ends, on(in))
	}
	if inside {
		ends = append(ends, s[1])
	}
	return slices.Collect(slices.Chunk(ends, 2))
}

// uncovered reports whether the vehicle leaves a point of the image free.
func (d *drawing) uncovered(s view.ImagePoint) bool { return d.noBody || !d.scene().Covers(s) }

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
	add := func(a, b view.Point3) { lines = append(lines, d.clip(d.visible(a, b), free)...) }
	for _, x := range along {
		add(view.Point3{X: x, Z: across[0]}, view.Point3{X: x, Z: across[len(across)-1]})
	}
	for _, z := range across {
		add(view.Point3{X: along[0], Z: z}, view.Point3{X: along[len(along)-1], Z: z})
	}
	d.polylines("grid", "grid", gridLine(), lines)
}

// horizonAt returns the y of the horizon on the page, and whether it lies within the page's space.
func (d *drawing) horizonAt() (y geom.MM, ok bool) {
	h, _ := d.camera.Horizon()
	y = d.toPage(view.ImagePoint{Y: h}).Y
	return y, y > d.Space.Min.Y && y < d.Space.Max.Y
}

// horizon draws the horizon from margin to margin, except behind the body.
func (d *drawing) horizon() {
	if y, ok := d.horizonAt(); ok {
		s := []view.ImagePoint{d.toImage(draft.Pt(d.Space.Min.X, y)), d.toImage(draft.Pt(d.Space.Max.X, y))}
		d.polylines("horizon", "horizon", horizonLine(), d.clip(s, d.uncovered))
	}
}
