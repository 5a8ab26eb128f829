package draft

import "hubrule/internal/geom"

// PushApart places items on one lane: centres in the order given (ascending anchors), nearest to their
// anchors in the least-squares sense, neighbours at least gap apart, all inside lo..hi. It returns nil
// when the lane is too short. The order is kept, so leaders cannot cross.
//
// Subtracting the sizes that stand before each item turns the distances into a rising order, which is
// isotonic regression: pool adjacent violators (Ayer et al. 1955), then clamp.
func PushApart(anchors, sizes []geom.MM, gap, lo, hi geom.MM) []geom.MM {
	n := len(anchors)
	if n == 0 {
		return []geom.MM{}
	}
	before := make([]geom.MM, n)
	before[0] = sizes[0] / 2
	for i := 1; i < n; i++ {
		before[i] = before[i-1] + sizes[i-1]/2 + gap + sizes[i]/2
	}
	long := before[n-1] + sizes[n-1]/2
	if long > hi-lo+1e-9 {
		return nil
	}
	type pool struct {
		mean geom.MM
		n    geom.MM
	}
	var pools []pool
	for i, a := range anchors {
		pools = append(pools, pool{a - before[i], 1})
		for len(pools) > 1 && pools[len(pools)-2].mean > pools[len(pools)-1].mean {
			a, b := pools[len(pools)-2], pools[len(pools)-1]
			pools = append(pools[:len(pools)-2], pool{(geom.MM(a.mean*a.n) + geom.MM(b.mean*b.n)) / (a.n + b.n), a.n + b.n})
		}
	}
	out := make([]geom.MM, 0, n)
	for _, p := range pools {
		for range int(p.n) {
			z := min(max(p.mean, lo), hi-long)
			out = append(out, z+before[len(out)])
		}
	}
	return out
}
