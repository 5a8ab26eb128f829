package fonts_test

import (
	"testing"

	"hubrule/fonts"
	"hubrule/internal/geom"
)

// TestOutlines: capitals stand on the baseline and are as high as CapHeight says; every run ends where it starts, and
// every letter keeps within its advance.
func TestOutlines(t *testing.T) {
	for _, w := range fonts.Weights() {
		for _, g := range fonts.Shape("HIEZ08Å½", w) {
			runs := fonts.Outline(g, w).Cubics()
			if len(runs) == 0 {
				t.Fatalf("weight %d: %q has no outline", w, g.Letter)
			}
			var all []geom.Cubic[fonts.Units]
			for _, run := range runs {
				all = append(all, run...)
				if run[0][0] != run[len(run)-1][3] {
					t.Errorf("weight %d: %q is open", w, g.Letter)
				}
			}
			b := geom.BoundsOf(all)
			if b.Min.X < 0 || b.Max.X > fonts.Units(g.Advance) {
				t.Errorf("weight %d: %q from %v to %v, %d wide", w, g.Letter, b.Min.X, b.Max.X, g.Advance)
			}
			const high = fonts.CapHeight * fonts.UnitsPerEm
			if flat := g.Letter == 'H' || g.Letter == 'I' || g.Letter == 'E' || g.Letter == 'Z'; flat && (b.Min.Y != 0 || b.Max.Y != high) {
				t.Errorf("weight %d: %q from %v to %v high, want 0 to %v", w, g.Letter, b.Min.Y, b.Max.Y, high)
			}
		}
		if space := fonts.Outline(fonts.Shape(" ", w)[0], w); space != nil {
			t.Errorf("weight %d: a space has the outline %v", w, space)
		}
	}
}

// TestCountersAreWoundBackwards: what is filled is told by the sense of the runs: the hole of an O runs against its rim.
func TestCountersAreWoundBackwards(t *testing.T) {
	for _, w := range fonts.Weights() {
		var senses []bool
		for _, run := range fonts.Outline(fonts.Shape("O", w)[0], w).Flatten(8) {
			area := 0.
			for i, p := range run {
				area += p.Cross(run[(i+1)%len(run)])
			}
			senses = append(senses, area > 0)
		}
		if len(senses) != 2 || senses[0] == senses[1] {
			t.Errorf("weight %d: O has runs %v", w, senses)
		}
	}
}
