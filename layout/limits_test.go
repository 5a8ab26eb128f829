package layout

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// Every limit with a number of its own, at the limit and a hair to both sides: pins that leave nothing to choose put a plan on it.
// The numbers are those of docs/solve.md.
func TestBodyLimitsAtTheLimit(t *testing.T) {
	const hair = 1e-5 // w; the pins are written with six decimals, so their last digits leave less open
	type pins map[string]float64
	body := pins{"sill": .5, "height": 2.3, "belt": 1.5, "wheels-between": 3}
	ends := pins{"wheels-between": 3, "front-overhang": .6, "rear-overhang": .8, "arch-gap": .08}
	lamps := pins{"sill": .5, "height": 2.3, "belt": 1.5, "wheels-between": 3, "arch-gap": .08, "lamp-offset": 0, "lamp-depth": .2}
	for _, c := range []struct {
		limit, segment string
		pins           pins
		figure         string
		at             float64 // the last value of figure that keeps the limit
		up             bool    // larger values break it
	}{
		{"deck not above the belt by 0.15w", "sedan", body, "deck", 1.65, true},
		{"bonnet-edge 0.05w under the cowl", "sedan", pins{"belt": 1.5, "cowl": 1.4}, "bonnet-edge", 1.35, true},
		{"rear screen's foot 0.1w before the tail", "sedan", ends, "tail-foot", .8 + .5 - .1, true},
		{"lower front corner 0.03w ahead of the front arch", "sedan", ends, "chin-setback", .6 - .08 - .03, true},
		{"lower rear corner 0.03w behind the rear arch", "sedan", ends, "tail-setback", .8 - .08 - .03, true},
		{"side glass ends 0.1w before the tail", "suv", ends, "glass-end", .7, true},
		{"rear lamp's top not above the deck by 0.02w", "sedan", pins{"rear-lamp": 1.2, "deck": 1.5}, "lamp-depth", .32, true},
		{"front lamp's top not above the bonnet-edge by 0.05w", "suv", lamps, "bonnet-edge", 1.23, false},
	} {
		for _, step := range []float64{0, -hair, hair} {
			written := []string{c.figure, fmt.Sprintf("%.6fw", c.at+step)}
			for figure, v := range c.pins {
				f, _ := segments.Lookup(figure)
				written = append(written, figure, fmt.Sprintf("%.6f%s", v, strings.TrimSuffix(string(f.Info().Unit), "count")))
			}
			_, err := Solve(brief(t, c.segment, written...))
			breaks := step != 0 && (step > 0) == c.up
			var clash *Clash
			switch {
			case !breaks && err != nil:
				t.Errorf("%s: %s %+g: %v", c.limit, c.figure, step, err)
			case breaks && !errors.As(err, &clash):
				t.Errorf("%s: %s %+g: %v; want a clash", c.limit, c.figure, step, err)
			case breaks && (len(clash.Sets) != 1 || !slices.Equal(clash.Sets[0].Limits, []string{c.limit})):
				t.Errorf("%s: %s %+g: %v", c.limit, c.figure, step, err)
			}
		}
	}
}

// The rooms of limits with a number, computed from the figures of every typical plan.
func TestRoomsOfLimits(t *testing.T) {
	for _, p := range segments.All() {
		plan := Typical(p)
		s := newSolver(segments.Brief{Profile: p})
		v := plan.Value
		rooms := map[string]float64{
			"deck not above the belt by 0.15w":                    v(segments.Belt) + .15 - v(segments.Deck),
			"bonnet-edge 0.05w under the cowl":                    v(segments.Cowl) - .05 - v(segments.BonnetEdge),
			"rear screen's foot 0.1w before the tail":             float64(plan.Tail()-plan.Wheelbase()) - .1 - v(segments.TailFoot),
			"lower front corner 0.03w ahead of the front arch":    v(segments.FrontOverhang) - v(segments.ChinSetback) - v(segments.ArchGap) - .03,
			"lower rear corner 0.03w behind the rear arch":        v(segments.RearOverhang) - v(segments.TailSetback) - v(segments.ArchGap) - .03,
			"side glass ends 0.1w before the tail":                float64(plan.Tail()-plan.GlassEnd()) - .1,
			"body-side at least 0.1w":                             v(segments.BodySide) - .1,
			"greenhouse 0.1w more than header-drop":               v(segments.Greenhouse) - v(segments.HeaderDrop) - .1,
			"front arch 0.05w under the belt":                     float64(plan.BeltAt(0)-plan.FrontArch()) - .5 - .05,
			"rear arch 0.05w under the belt":                      float64(plan.BeltAt(plan.Wheelbase())-plan.RearArch()-plan.RearRadius()) - .05,
			"front lamp's top not above the bonnet-edge by 0.05w": v(segments.BonnetEdge) + .05 - v(segments.FrontLamp) - v(segments.LampDepth),
			"rear lamp's top not above the deck by 0.02w":         v(segments.Deck) + .02 - v(segments.RearLamp) - v(segments.LampDepth),
			"tyres 0.03w inside the width":                        v(segments.Width) - v(segments.Track) - float64(p.Wheel.SectionWidth/p.Wheel.Diameter) - .03,
		}
		if !p.Form.Has(segments.Deck) {
			delete(rooms, "deck not above the belt by 0.15w")
			delete(rooms, "rear lamp's top not above the deck by 0.02w")
		}
		if !p.Form.Has(segments.TailFoot) {
			delete(rooms, "rear screen's foot 0.1w before the tail")
		}
		x := s.variablesOf(plan.Values())
		for _, l := range s.limits {
			want, ok := rooms[l.name]
			if got := l.room.value(x); ok && (got < want-1e-5 || got > want+1e-5) {
				t.Errorf("%s: %s: room %.6f; want %.6f", p.Name, l.name, got, want)
			}
			delete(rooms, l.name)
		}
		if len(rooms) > 0 {
			t.Errorf("%s: no limits %v", p.Name, rooms)
		}
	}
}

// The rooms of the A-pillar's limits, computed from its line through aim and rake.
func TestRoomsOfPillarLimits(t *testing.T) {
	tan := func(degrees float64) float64 { return geom.Degrees(degrees).Tan() }
	for _, p := range segments.All() {
		plan := Typical(p)
		s := newSolver(segments.Brief{Profile: p})
		slope := plan.PillarRake().Tan()
		line := func(x geom.Wheels) float64 { return float64(plan.PillarAim()) + slope*float64(x) }
		rooms := map[string]float64{
			"pillar-rake at least 15":                               slope - tan(15),
			"pillar-rake at most 85":                                tan(85) - slope,
			"A-pillar's foot 0.3w behind the nose":                  float64(plan.BeltAt(plan.Nose()+.3)) - line(plan.Nose()+.3),
			"A-pillar 0.38w behind the nose at the cowl":            float64(plan.Cowl()) - line(plan.Nose()+.38),
			"A-pillar's head 0.4w before the end of the side glass": line(plan.GlassEnd()-.4) - float64(plan.PillarHead().Y),
		}
		var x vector
		x[index(segments.PillarAim)], x[index(segments.PillarRake)] = line(geom.Wheels(s.foot)), slope
		limits := s.pillarLimits(plan.Values())
		if len(limits) != len(rooms) {
			t.Errorf("%d limits of the A-pillar; want %d", len(limits), len(rooms))
		}
		// A pinned foot of the screen adds its own.
		base, header := plan.ScreenBase(), plan.PillarHead().Y
		steepest := (plan.Height() - plan.Cowl()) / geom.Wheels(tan(75))
		rooms["screen's foot 0.08w ahead of the A-pillar"] = float64(plan.Cowl()) - line(base+.08)
		rooms["screen's foot 0.3w behind the nose"] = float64(base - plan.Nose() - .3)
		rooms["screen at most 75° from the horizontal"] = float64(header) - line(base+plan.PillarHead().X-plan.HeaderTop()+steepest)
		x[index(segments.ScreenBase)] = float64(base)
		limits = append(limits, s.screenLimits(plan.Values(), float64(base))...)
		for _, l := range limits {
			if got, want := l.room.value(x), rooms[l.name]; math.Abs(got-want) > 1e-9 || want <= 0 {
				t.Errorf("%s: %s: room %.6f; want %.6f", p.Name, l.name, got, want)
			}
		}
	}
}

// Limits that contradict each other clash without any pin: that ends in a set of no pins, whatever was pinned.
func TestLimitsAloneClash(t *testing.T) {
	b := brief(t, "suv", "height", "2.3w")
	s := newSolver(b)
	s.limits = append(s.limits, limit{name: "impossible", room: constant(-1)})
	if c := s.clash(b); len(c.Sets) != 0 {
		t.Errorf("%v", c)
	}
}
