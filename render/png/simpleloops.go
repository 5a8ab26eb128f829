package png

// simpleLoops returns loops that cross themselves nowhere and together hold the same, counted odd or even, as l does:
// wherever two sides of l cross, the way between comes off as a loop of its own. The rasteriser knows no even-odd rule;
// for a loop that does not cross itself there is no difference.
func simpleLoops(l loop) []loop {
	n := len(l)
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue // neighbours
			}
			x, ok := crossing(l[i], l[i+1], l[j], l[(j+1)%n])
			if !ok {
				continue
			}
			between := append(loop{x}, l[i+1:j+1]...)
			rest := append(append(append(loop{}, l[:i+1]...), x), l[j+1:]...)
			return append(simpleLoops(between), simpleLoops(rest)...)
		}
	}
	return []loop{l}
}

// crossing returns where the sides ab and cd cross. A point on a side counts as lying to its right, so that a way
// through a corner crosses once and one that only touches not at all or twice.
func crossing(a, b, c, d pixelPoint) (pixelPoint, bool) {
	left := func(from, to, p pixelPoint) bool { return to.Sub(from).Cross(p.Sub(from)) > 0 }
	if left(a, b, c) == left(a, b, d) || left(c, d, a) == left(c, d, b) {
		return pixelPoint{}, false
	}
	side, other := b.Sub(a), d.Sub(c)
	return a.Lerp(b, c.Sub(a).Cross(other)/side.Cross(other)), true
}
