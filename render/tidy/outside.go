package tidy

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout/view"
)

// Outside returns what of runs lies outside loops: shut lines stop at a lens. An open loop is closed straight.
func Outside(runs, loops [][]view.ImagePoint) (out [][]view.ImagePoint) {
	boxes := slice.Map(loops, func(l []view.ImagePoint) geom.Box[view.ImageLength] { return geom.BoxOf(l[0], l...) })
	isIn := func(p view.ImagePoint) bool {
		return slices.ContainsFunc(boxes, func(b geom.Box[view.ImageLength]) bool { return b.Contains(geom.BoxOf(p)) }) && isInside(p, loops)
	}
	for _, run := range runs {
		var rest []view.ImagePoint
		before := false
		for i, p := range run {
			in := isIn(p)
			if i > 0 && in != before {
				t, _ := geom.Bisect(0, 1, 24, func(t float64) bool { return isIn(run[i-1].Lerp(p, t)) != in })
				rest = append(rest, run[i-1].Lerp(p, t))
			}
			if before = in; !in {
				rest = append(rest, p)
			}
			if ends := in || i == len(run)-1; ends && len(rest) > 1 {
				out = append(out, rest)
				rest = nil
			}
		}
	}
	return out
}

// isInside reports whether p lies inside one of the loops.
func isInside(p view.ImagePoint, loops [][]view.ImagePoint) bool {
	for _, l := range loops {
		in := false
		for i, a := range l {
			b := l[(i+1)%len(l)]
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y) {
				in = !in
			}
		}
		if in {
			return true
		}
	}
	return false
}
