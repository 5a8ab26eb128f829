package layout

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"hubrule/segments"
)

func randomTurns(r *rand.Rand, most float64) segments.Values {
	var out segments.Values
	for f := range out {
		out[f] = most * (2*r.Float64() - 1)
	}
	return out
}

// byRoundingParts is what rounding to the quantum does to a figure made of others.
const byRoundingParts = 4 * quantum

// TestVaryKeepsItsWord: over every segment and amount, each varied plan stays inside ranges and limits, no figure moves farther
// than asked, what is pinned stays, and most draws can be had.
func TestVaryKeepsItsWord(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 2))
	for _, name := range segments.Names() {
		height := number(segment(t, name).Figures[segments.Height].Value*1.02) + "w"
		for _, b := range []segments.Brief{brief(t, name), brief(t, name, "height", height)} {
			base, err := Solve(b)
			if err != nil {
				t.Fatal(err)
			}
			for _, most := range []float64{.1, .6, 1} {
				met := 0
				for range 40 {
					if plan, ok := Vary(base, randomTurns(r, most), most); ok {
						met++
						checkVaried(t, base, plan, most)
					}
				}
				if met < 16 {
					t.Errorf("%s, most %v: only %d of 40 draws could be had", name, most, met)
				}
			}
		}
	}
}

func checkVaried(t *testing.T, base, plan Plan, most float64) {
	t.Helper()
	name := base.Profile.Name
	for f := range segments.FigureCount {
		if f.Info().Role != segments.Declared || !base.Profile.Form.Has(f) {
			continue
		}
		in := base.Profile.Figures[f].Range
		v, w := plan.Value(f), base.Value(f)
		switch {
		case base.states[f] == statePinned:
			if v != w {
				t.Errorf("%s: pinned %v moved from %v to %v", name, f, w, v)
			}
		case v < min(in.Lo, w)-byRoundingParts || v > max(in.Hi, w)+byRoundingParts:
			t.Errorf("%s, most %v: %v = %v outside %v", name, most, f, v, in)
		case v-w > most*max(0, in.Hi-w)+byRoundingParts || w-v > most*max(0, w-in.Lo)+byRoundingParts:
			t.Errorf("%s, most %v: %v moved from %v to %v, farther than asked in %v", name, most, f, w, v, in)
		}
	}
	// The limits are judged on the varied figures alone, as if they had been the profile's own.
	s := newSolver(segments.Brief{Profile: base.Profile}).withTypical(plan.Values())
	at := s.variablesOf(plan.Values())
	for _, l := range s.limits {
		if l.room.value(at) < -byRoundingParts {
			t.Errorf("%s, most %v: %s fails by %v", name, most, l.name, -l.room.value(at))
		}
	}
	v := plan.Values()
	// But for the rake's last digit, seen from the header.
	if head := v[segments.Wheelbase] + s.q/2 + v[segments.GlassEnd] - v[segments.PillarHead] - .4; head < -1e-4 {
		t.Errorf("%s, most %v: %s: missed by %v", name, most, headBeforeGlass, -head)
	}
	if rake := v[segments.PillarRake]; rake < 15-byRoundingParts || rake > 85+byRoundingParts {
		t.Errorf("%s, most %v: rake %v", name, most, rake)
	}
}

// TestVaryNothing: without turns the plan stays as it is.
func TestVaryNothing(t *testing.T) {
	for _, name := range segments.Names() {
		base, err := Solve(brief(t, name))
		if err != nil {
			t.Fatal(err)
		}
		plan, ok := Vary(base, segments.Values{}, 1)
		if !ok || !sameNumbers(plan.Values(), base.Values(), byRoundingParts) {
			t.Errorf("%s: %v\n%v\nwant\n%v", name, ok, plan.Values(), base.Values())
		}
		if difference(plan, base) > 1e-3 {
			t.Errorf("%s: %v half-ranges apart", name, difference(plan, base))
		}
	}
}

// TestWithTheSameValues: a varied plan is its values; nothing else of it shows on paper.
func TestWithTheSameValues(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for _, name := range segments.Names() {
		base, err := Solve(brief(t, name))
		if err != nil {
			t.Fatal(err)
		}
		plan, ok := Vary(base, randomTurns(r, .3), 1)
		if !ok {
			continue
		}
		again := base.WithValues(plan.Values())
		plan.states, again.states = base.states, base.states
		plan.stops = again.stops
		if fmt.Sprint(again) != fmt.Sprint(plan) { // figures that a form lacks are NaN, which equals nothing
			t.Errorf("%s: the plan differs", name)
		}
	}
}

// difference returns by how many half-ranges two plans of one brief differ in the figure that differs most, among those that a side
// view shows.
func difference(p, q Plan) float64 {
	most := 0.
	for f := range segments.FigureCount {
		if p.InSideView(f) {
			most = math.Max(most, math.Abs(p.Value(f)-q.Value(f))/p.Profile.Figures[f].Range.HalfWidth())
		}
	}
	return most
}
