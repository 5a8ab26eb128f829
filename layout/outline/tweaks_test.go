package outline

import (
	"strings"
	"testing"

	"hubrule/layout"
	"hubrule/segments"
)

// Every tweak at full strength, and most of them turned round, leaves a body that keeps all promises.
func TestOutlineOfTweaks(t *testing.T) {
	t.Parallel()
	drawn := 0
	for _, p := range segments.All() {
		for _, tweak := range segments.Tweaks() {
			for _, strength := range []float64{1, -.5} {
				applied := segments.AppliedTweak{Tweak: tweak, Strength: strength, Source: tweak.Name}
				plan, err := layout.Solve(segments.Brief{Profile: p, Tweaks: []segments.AppliedTweak{applied}})
				if err != nil {
					continue // not for this segment
				}
				drawn++
				if all := faults(plan); len(all) > 0 {
					t.Errorf("%s, %s=%g: %s", p.Name, tweak.Name, strength, strings.Join(all, "; "))
				}
			}
		}
	}
	if drawn < 250 {
		t.Errorf("only %d tweaked bodies", drawn)
	}
}
