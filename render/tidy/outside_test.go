package tidy

import (
	"testing"

	"hubrule/layout/view"
)

// A line through a lens is cut at both its edges; one that ends in it loses its end, one inside it is left out.
func TestOutside(t *testing.T) {
	at := func(x, y view.ImageLength) view.ImagePoint { return view.ImagePoint{X: x, Y: y} }
	lens := [][]view.ImagePoint{{at(0, 0), at(1, 0), at(1, 1), at(0, 1), at(0, 0)}}
	runs := [][]view.ImagePoint{
		{at(-1, .5), at(.5, .5), at(2, .5)}, {at(-1, .2), at(.3, .2)}, {at(.3, .3), at(.4, .4)}, {at(-1, 2), at(2, 2)},
	}
	want := [][2]view.ImagePoint{{at(-1, .5), at(0, .5)}, {at(1, .5), at(2, .5)}, {at(-1, .2), at(0, .2)}, {at(-1, 2), at(2, 2)}}
	got := Outside(runs, lens)
	if len(got) != len(want) {
		t.Fatalf("%d runs outside the lens; want %d: %v", len(got), len(want), got)
	}
	for i, run := range got {
		if run[0].Sub(want[i][0]).Len() > 1e-6 || run[len(run)-1].Sub(want[i][1]).Len() > 1e-6 {
			t.Errorf("run %d: %v; want %v", i, run, want[i])
		}
	}
}
