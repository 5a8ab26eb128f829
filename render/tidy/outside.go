package tidy

import (
	"hubrule/internal/geom"
	"hubrule/layout/view"
)

// Outside returns what of runs lies outside loops: shut lines stop at a lens. An open loop is closed straight.
func Outside(runs, loops [][]view.ImagePoint) (out [][]view.ImagePoint) {
	for _, run := range runs {
		var rest []view.ImagePoint
		for i, p := range run {
			in := isInside(p, loops)
			if i > 0 && in != isInside(run[i-1], loops) {
				t, _ := geom.Bisect(0, 1, 24, func(t float64) bool { return isInside(run[i-1].Lerp(p, t), loops) != in })
				rest = append(rest, run[i-1].Lerp(p, t))
			}
			if !in {
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
