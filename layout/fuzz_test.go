package layout

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"hubrule/segments"
)

// Whatever is pinned in whatever words: an answer without NaN or a clash, in bounded time.
func FuzzSolve(f *testing.F) {
	f.Add(uint8(11), "height=2.2w length=4600mm pillar-rake=30", "sporty", .8)
	f.Add(uint8(0), "wheel=255/45R20 belt=1.6w sill=0.02w", "cab-forward", -2.)
	f.Add(uint8(14), "glass-end=-6w pillar-foot=-4w deck=3w", "tough", 2.)
	f.Fuzz(func(t *testing.T, which uint8, pins, tweakName string, strength float64) {
		p := segment(t, segments.Names()[int(which)%len(segments.Names())])
		b := segments.Brief{Profile: p}
		if tw, err := segments.FindTweak(tweakName); segments.IsName(tweakName) && err == nil && math.Abs(strength) <= 2 && tw.Refusal(p) == "" {
			b.Tweaks = []segments.AppliedTweak{{Tweak: tw, Strength: strength}}
		}
		for _, word := range strings.Fields(pins) {
			name, value, _ := strings.Cut(word, "=")
			figure, ok := segments.Lookup(name)
			if _, twice := b.Pin(figure); !ok || twice || b.CannotPin(figure) != "" {
				continue
			}
			if pin, err := segments.ParsePin(figure, value); err == nil {
				b.Pins = append(b.Pins, pin)
			}
		}
		wheel := b.FittedProfile().Wheel.Diameter
		for _, pin := range b.Pins {
			if pin.CheckBounds(wheel) != nil {
				return
			}
		}
		start := time.Now()
		plan, err := Solve(b)
		if took := time.Since(start); took > 5*time.Second {
			t.Errorf("%s took %v", names(b), took)
		}
		var clash *Clash
		if errors.As(err, &clash) {
			if len(clash.Sets) == 0 {
				t.Errorf("%s: a clash without a set", names(b))
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range plan.FigureStatuses() {
			if math.IsNaN(s.Value) || math.IsInf(s.Value, 0) {
				t.Errorf("%s: %s = %v", names(b), s.Figure, s.Value)
			}
		}
	})
}
