package draft

import (
	"cmp"
	"slices"

	"hubrule/internal/geom"
)

// Lane is a row or column of labels: where it starts and ends on the page, and the least gap between neighbours, all in mm.
type Lane struct{ Lo, Hi, Gap geom.MM }

// Distribute sorts items by anchor and places them on a lane. measure returns an item's anchor and its size along the lane in mm.
// Distribute returns the anchors and the centres of the sorted items; the centres are nil when the lane is too short.
func Distribute[T any](items []T, lane Lane, measure func(T) (anchor, size geom.MM)) (anchors, centres []geom.MM) {
	slices.SortStableFunc(items, func(a, b T) int {
		p, _ := measure(a)
		q, _ := measure(b)
		return cmp.Compare(p, q)
	})
	var sizes []geom.MM
	for _, item := range items {
		anchor, size := measure(item)
		anchors, sizes = append(anchors, anchor), append(sizes, size)
	}
	return anchors, lane.Centres(anchors, sizes)
}

// Centres places items on the lane: in the order given (ascending anchors), nearest to their anchors in the least-squares sense,
// neighbours at least the gap apart. It returns nil when the lane is too short. The order is kept, so leaders cannot cross.
//
// Subtracting the sizes that stand before each item turns the distances into a rising order, which is
// isotonic regression: pool adjacent violators (Ayer et al. 1955), then clamp.
func (l Lane) Centres(anchors, sizes []geom.MM) []geom.MM {
	n := len(anchors)
	if n == 0 {
		return []geom.MM{}
	}
	before := make([]geom.MM, n)
	before[0] = sizes[0] / 2
	for i := 1; i < n; i++ {
		before[i] = before[i-1] + sizes[i-1]/2 + l.Gap + sizes[i]/2
	}
	long := before[n-1] + sizes[n-1]/2
	if long > l.Hi-l.Lo+1e-9 {
		return nil
	}
	type pool struct{ mean, n geom.MM }
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
			z := min(max(p.mean, l.Lo), l.Hi-long)
			out = append(out, z+before[len(out)])
		}
	}
	return out
}
