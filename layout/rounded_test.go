package layout

import (
	"math"
	"slices"
	"testing"

	"hubrule/segments"
)

// Where pins agree only to half their last digit, one number stands everywhere: the drawn one, and a sentence says so.
func TestRoundedPin(t *testing.T) {
	for _, c := range []struct {
		between, wheelbase string
		summary            string
		rounded            []string
	}{
		{"3.08", "3019mm", "wheels-between 3.08, wheelbase 3015 mm", []string{"minivan: wheelbase 3019mm is drawn as 3015mm, to agree with the other pins"}},
		{"3.08", "3.015m", "wheels-between 3.08, wheelbase 3.015 m", nil},
		{"3.08", "4.08w", "wheels-between 3.08, wheelbase 4.08w", nil},
	} {
		p, err := Solve(brief(t, "minivan", "wheels-between", c.between, "wheelbase", c.wheelbase))
		if err != nil {
			t.Fatal(err)
		}
		if p.Summary() != c.summary || !slices.Equal(p.Rounded(), c.rounded) {
			t.Errorf("%s and %s: %q, %q; want %q, %q", c.between, c.wheelbase, p.Summary(), p.Rounded(), c.summary, c.rounded)
		}
		if off := p.Value(segments.Wheelbase) - float64(p.Wheelbase()); math.Abs(off) > exactly {
			t.Errorf("%s and %s: the value is %g, drawn %g", c.between, c.wheelbase, p.Value(segments.Wheelbase), p.Wheelbase())
		}
	}
}
