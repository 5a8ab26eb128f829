package layout

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hubrule/segments"
)

// The ranges hold the measured bodies (Transport Canada, Canadian Vehicle Specifications): of each figure in every segment with 25 bodies
// or more at least three quarters, and of each figure in all segments together at least 82 %. Where fewer bodies were measured and the range
// holds less than three quarters, docs/figures.md says how many.
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
	var few []string
	for at, c := range cells {
		switch share := c.in / c.all; {
		case c.all >= 25 && share < .75:
			t.Errorf("%s, %s: %.0f %% of %v bodies lie within the range", at[0], at[1], 100*share, c.all)
		case share < .75:
			few = append(few, fmt.Sprintf("| %s | %s | %v | %.0f |", at[0], at[1], c.all, 100*share))
		}
	}
	text, err := os.ReadFile("../docs/figures.md")
	if err != nil {
		t.Fatal(err)
	}
	_, table, _ := strings.Cut(string(text), "## How many bodies a range holds")
	inDocs := regexp.MustCompile(`(?m)^\| [a-z-]+ \| [a-z-]+ \| \d+ \| \d+ \|$`).FindAllString(table, -1)
	slices.Sort(few)
	slices.Sort(inDocs)
	if !slices.Equal(few, inDocs) {
		t.Errorf("ranges that hold few of few bodies:\n%s\ndocs/figures.md:\n%s", strings.Join(few, "\n"), strings.Join(inDocs, "\n"))
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
