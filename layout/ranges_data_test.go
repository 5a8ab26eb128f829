package layout

import (
	"math"
	"testing"

	"hubrule/segments"
)

// The ranges hold the measured bodies (Transport Canada, Canadian Vehicle Specifications): of each figure in every segment with 25 bodies
// or more at least three quarters, and of each figure in all segments together at least 82 %.
func TestRangesHoldMeasuredBodies(t *testing.T) {
	type count struct{ in, all float64 }
	cells, pools := map[[2]string]count{}, map[segments.Figure]count{}
	for _, b := range measuredBodies(t) {
		p := segment(t, b.segment)
		for f, v := range b.values {
			f := segments.Figure(f)
			if math.IsNaN(v) {
				continue
			}
			cell, pool := cells[[2]string{b.segment, f.String()}], pools[f]
			if beyond(v, rangeOf(p, f)) == 0 {
				cell.in++
				pool.in++
			}
			cell.all++
			pool.all++
			cells[[2]string{b.segment, f.String()}], pools[f] = cell, pool
		}
	}
	for at, c := range cells {
		switch share := c.in / c.all; {
		case c.all >= 25 && share < .75:
			t.Errorf("%s, %s: %.0f %% of %v bodies lie within the range", at[0], at[1], 100*share, c.all)
		case share < .75:
			t.Logf("%s, %s: %.0f %% of only %v bodies", at[0], at[1], 100*share, c.all)
		}
	}
	for f, c := range pools {
		if c.in < .82*c.all {
			t.Errorf("%s: %.1f %% of %v bodies lie within the ranges", f, 100*c.in/c.all, c.all)
		}
	}
	if len(pools) < 13 {
		t.Errorf("only %d figures are held against bodies", len(pools))
	}
}
