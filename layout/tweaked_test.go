package layout

import (
	"math"
	"math/rand/v2"
	"testing"

	"hubrule/segments"
)

func tweak(t testing.TB, name string) *segments.Tweak {
	t.Helper()
	tw, err := segments.FindTweak(name)
	if err != nil {
		t.Fatal(err)
	}
	return tw
}

// Tweaks alone never clash: each of the eight on each segment at strengths −2 to 2, and every two of them, both ways.
func TestTweaksNeverClash(t *testing.T) {
	t.Parallel()
	names := segments.TweakNames()
	solve := func(doses ...segments.AppliedTweak) {
		for _, name := range segments.Names() {
			p := segment(t, name)
			s := newSolver(segments.Brief{Profile: p, Tweaks: doses})
			sol := s.attempt()
			if sol.failed {
				t.Errorf("%s: %v: clash with %v", name, told(doses), sol.limits)
				continue
			}
			checkSolution(t, s, sol)
		}
	}
	for i, a := range names {
		for _, strength := range []float64{-2, -1, -.5, .5, 1, 2} {
			solve(segments.AppliedTweak{Tweak: tweak(t, a), Strength: strength})
		}
		for _, b := range names[i+1:] {
			for _, s := range [][2]float64{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}, {2, 2}, {2, -2}, {-2, 2}, {-2, -2}} {
				solve(segments.AppliedTweak{Tweak: tweak(t, a), Strength: s[0]}, segments.AppliedTweak{Tweak: tweak(t, b), Strength: s[1]})
			}
		}
	}
}

func told(doses []segments.AppliedTweak) string {
	out := ""
	for _, d := range doses {
		out += d.Tweak.Name + "=" + number(d.Strength) + " "
	}
	return out
}

// A lowered greenhouse (common practice: it reads as sportier): roof and greenhouse come down, the belt stays, the
// body side does not grow by more than the sill gives, the count of wheels between stays.
func TestSportyLowersTheGreenhouse(t *testing.T) {
	const same = 2e-6 // twice the quantum
	for _, name := range segments.Names() {
		p := segment(t, name)
		was := Typical(p)
		is, err := Solve(segments.Brief{Profile: p, Tweaks: []segments.AppliedTweak{{Tweak: tweak(t, "sporty"), Strength: 1}}})
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case is.Height() > was.Height()-.05, is.length(segments.Greenhouse) > was.length(segments.Greenhouse)-.05:
			t.Errorf("%s: height %.3f to %.3f, greenhouse %.3f to %.3f: not lowered", name, was.Height(), is.Height(), was.length(segments.Greenhouse), is.length(segments.Greenhouse))
		case math.Abs(float64(is.Belt()-was.Belt())) > same:
			t.Errorf("%s: the belt went from %v to %v", name, was.Belt(), is.Belt())
		case is.BodySide()-(was.Sill()-is.Sill()) > was.BodySide()+same:
			t.Errorf("%s: body side %v to %v with the sill at %v to %v", name, was.BodySide(), is.BodySide(), was.Sill(), is.Sill())
		case math.Abs(is.WheelsBetween()-was.WheelsBetween()) > same:
			t.Errorf("%s: wheels between %v to %v", name, was.WheelsBetween(), is.WheelsBetween())
		}
	}
}

// Strength 0 is no tweak, the order of tweaks means nothing, and what rides along goes with the body.
func TestTweakLaws(t *testing.T) {
	for _, name := range segments.Names() {
		p := segment(t, name)
		a, b := segments.AppliedTweak{Tweak: tweak(t, "sporty"), Strength: .7}, segments.AppliedTweak{Tweak: tweak(t, "longer"), Strength: 1}
		one, err1 := Solve(segments.Brief{Profile: p, Tweaks: []segments.AppliedTweak{a, b}})
		two, err2 := Solve(segments.Brief{Profile: p, Tweaks: []segments.AppliedTweak{b, a, {Tweak: tweak(t, "tough")}}})
		if err1 != nil || err2 != nil || !sameNumbers(one.Values(), two.Values(), 0) {
			t.Errorf("%s: the order of tweaks counts: %v %v", name, err1, err2)
		}
		tall, err := Solve(segments.Brief{Profile: p, Tweaks: []segments.AppliedTweak{{Tweak: tweak(t, "stately"), Strength: 1}}})
		if err != nil {
			t.Fatal(err)
		}
		was := Typical(p)
		if up := tall.Cowl() - was.Cowl(); math.Abs(float64(up-(tall.Belt()-was.Belt()))) > 2e-6 && tall.stops[segments.Cowl] == "" {
			t.Errorf("%s: the belt went up by %v, the cowl by %v", name, tall.Belt()-was.Belt(), up)
		}
	}
}

// The moves of a tweak that name parts, worked by hand for suv: sporty takes .09 w off the greenhouse; its sill falls by .6 of the half-range .10.
func TestTweakedParts(t *testing.T) {
	v := applyTweaks(segment(t, "suv"), []segments.AppliedTweak{{Tweak: tweak(t, "sporty"), Strength: 1}})
	// suv: height 2.35, sill .38, ratio .5 → body side 1.97/1.5 = 1.31333, greenhouse .65667
	for _, c := range []struct {
		f    segments.Figure
		want float64
	}{
		{segments.Sill, .38 - .06}, {segments.BodySide, 1.313333 + .06}, {segments.Greenhouse, .656667 - .09},
		{segments.Height, 2.35 - .09}, {segments.TailRake, 54}, {segments.PillarRake, 31.5}, {segments.ArchGap, .11},
	} {
		if math.Abs(v[c.f]-c.want) > 1e-6 {
			t.Errorf("%s = %v; want %v", c.f, v[c.f], c.want)
		}
	}
}

// movable lists what a tweak may move, each with the farthest move that a file may ask for.
func movable() []segments.Move {
	var out []segments.Move
	for f := range segments.FigureCount {
		m := segments.Move{Figure: f, Of: f, By: 2}
		switch a := f.Info(); {
		case a.Unit == segments.AsWord, a.Unit == segments.InMM:
			continue
		case a.Unit == segments.InDegrees:
			m.By = 45
		case a.Unit == segments.AsRatio:
			m.By = .5
		case a.Role == segments.Derived && f != segments.Greenhouse && f != segments.BodySide && f != segments.Wheelbase && f != segments.PillarFoot:
			continue
		}
		out = append(out, m)
	}
	return out
}

// A stranger's tweak, however wild, stops at limits: it neither clashes nor gives anything but numbers. Every move alone as far as a
// file may ask, in its own unit and in half-ranges, both ways; then many at once.
func TestWildTweaks(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 2))
	solve := func(p *segments.Profile, strength float64, moves ...segments.Move) {
		tw := &segments.Tweak{Name: "wild", Moves: moves}
		plan, err := Solve(segments.Brief{Profile: p, Tweaks: []segments.AppliedTweak{{Tweak: tw, Strength: strength}}})
		if err != nil {
			t.Errorf("%s: %+v at %v: %v", p.Name, moves, strength, err)
			return
		}
		for f, v := range plan.Values() {
			if plan.Profile.Form.Has(segments.Figure(f)) && (math.IsNaN(v) || math.IsInf(v, 0)) {
				t.Errorf("%s: %+v at %v: %s = %v", p.Name, moves, strength, segments.Figure(f), v)
			}
		}
	}
	for _, name := range segments.Names() {
		p := segment(t, name)
		for _, strength := range []float64{-2, 2} {
			for _, m := range movable() {
				solve(p, strength, m)
				if m.Figure.Info().Role == segments.Declared {
					m.By, m.HalfRanges = 10, true
					solve(p, strength, m)
				}
			}
		}
		for range 100 {
			var some []segments.Move
			among := 1 + r.IntN(6) // from all figures to few
			for _, m := range movable() {
				if r.IntN(among) == 0 {
					m.By *= 2*r.Float64() - 1
					some = append(some, m)
				}
			}
			solve(p, 2, some...)
		}
	}
}
