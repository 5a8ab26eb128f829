package layout

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"runtime/debug"
	"slices"
	"strconv"
	"testing"

	"hubrule/segments"
)

// TestMain lets the heap grow further between collections: every plan is garbage soon after it is checked.
func TestMain(m *testing.M) {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	os.Exit(m.Run())
}

// segment finds a segment of the catalogue.
func segment(t testing.TB, name string) *segments.Profile {
	t.Helper()
	p, err := segments.Find(name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// brief makes a brief of a segment and figure, value, figure, value …
func brief(t testing.TB, name string, pins ...string) segments.Brief {
	t.Helper()
	b := segments.Brief{Profile: segment(t, name)}
	for i := 0; i < len(pins); i += 2 {
		b.Pins = append(b.Pins, pin(t, pins[i], pins[i+1]))
	}
	return b
}

func pin(t testing.TB, figure, value string) segments.Pin {
	t.Helper()
	f, ok := segments.Lookup(figure)
	if !ok {
		t.Fatalf("no figure %s", figure)
	}
	p, err := segments.ParsePin(f, value)
	if err != nil {
		t.Fatal(err)
	}
	p.Origin = segments.Origin{Place: fmt.Sprintf("--pin %s=%s", figure, value)}
	return p
}

// randomPins fixes 1 to 6 figures, half of the values inside their range, half up to 3 half-ranges outside.
func randomPins(t testing.TB, rnd *rand.Rand, p *segments.Profile) segments.Brief {
	b := segments.Brief{Profile: p}
	for range 1 + rnd.IntN(6) {
		f := segments.WheelsBetween + segments.Figure(rnd.IntN(int(segments.FigureCount-segments.WheelsBetween)))
		if _, twice := b.Pin(f); twice || !p.Form.Has(f) {
			continue
		}
		r := p.Figures[f].Range
		if f.Info().Role == segments.Derived {
			r = derivedRange(p, f)
		}
		steps := 2*rnd.Float64() - 1
		if rnd.IntN(2) == 0 {
			steps = math.Copysign(1+3*rnd.Float64(), steps)
		}
		v := (r.Lo+r.Hi)/2 + steps*r.HalfWidth()
		a := f.Info()
		v = math.Max(a.Lo, math.Min(a.Hi, v))
		// Written as people do: with one to six decimals.
		text := fmt.Sprintf("%.*f", 1+rnd.IntN(6), v)
		if x, err := strconv.ParseFloat(text, 64); err != nil || x < a.Lo || x > a.Hi {
			text = fmt.Sprintf("%.6f", v)
		}
		if a.Unit == segments.InWheels {
			text += "w"
		}
		b.Pins = append(b.Pins, pin(t, f.String(), text))
	}
	return b
}

func TestSolveAtTypicalValues(t *testing.T) {
	for _, name := range segments.Names() {
		p := segment(t, name)
		got, err := Solve(segments.Brief{Profile: p})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		want := Typical(p)
		for f := range segments.FigureCount {
			if p.Form.Has(f) && math.Abs(got.Value(f)-want.Value(f)) > 1.5e-6 {
				t.Errorf("%s: %s = %v; want %v", name, f, got.Value(f), want.Value(f))
			}
			if got.stops[f] != "" {
				t.Errorf("%s: %s is stopped: %s", name, f, got.stops[f])
			}
		}
	}
}

// Every feasible answer meets its pins, all relations and all limits.
func TestSolveRandomPins(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(7, 7))
	feasible, body, pillar := 0, 0, 0
	var neighbours census
	for i := range trials(t, 5000) {
		p := segment(t, segments.Names()[i%len(segments.Names())])
		b := randomPins(t, rnd, p)
		s := newSolver(b)
		sol := s.attempt()
		switch {
		case sol.failed && sol.pillar:
			pillar++
			continue
		case sol.failed:
			body++
			continue
		}
		feasible++
		checkSolution(t, s, sol)
		if i%10 == 0 || proving() {
			checkNearest(t, rnd, s, &neighbours)
		}
	}
	t.Logf("feasible %d, body clashes %d, pillar clashes %d", feasible, body, pillar)
	t.Logf("%d answers of stages beside %d neighbours", neighbours.answers, neighbours.tried)
	if neighbours.tried < 50*neighbours.answers {
		t.Errorf("%d neighbours of %d answers: too few to mean anything", neighbours.tried, neighbours.answers)
	}
	if total := feasible + body + pillar; feasible < total*8/10 || body < total/25 || pillar < total/250 {
		t.Errorf("feasible %d, body %d, pillar %d: too few of one kind to mean anything", feasible, body, pillar)
	}
}

// checkSolution tells what a solution breaks.
func checkSolution(t *testing.T, s solver, sol solution) {
	t.Helper()
	v := sol.values
	// Of several pins that say the same thing the first are met; the others, and limits that pins settle, may be missed by what
	// the last digits of all of them leave open.
	open := 1e-9
	for _, k := range s.pins {
		open += 8 * k.slack // shares of up to some 8 were seen
	}
	for _, k := range s.pins {
		if miss := math.Abs(v[k.pin.Figure] - k.value); miss > open {
			t.Errorf("%s %s: %v; want %v", s.profile.Name, k.pin.Figure, v[k.pin.Figure], k.value)
		}
	}
	again := derive(v)
	for f := segments.Wheelbase; f < segments.FigureCount; f++ {
		if math.Abs(again[f]-v[f]) > 1e-9 {
			t.Errorf("%s %s: %v; its relation gives %v", s.profile.Name, f, v[f], again[f])
		}
	}
	x := s.variablesOf(v)
	for _, l := range s.limits {
		if room := l.room.value(x); room < -open {
			t.Errorf("%s: %s: missed by %v", s.profile.Name, l.name, -room)
		}
	}
	// But for the rake's last digit, seen from the header.
	if head := v[segments.Wheelbase] + s.q/2 + v[segments.GlassEnd] - v[segments.PillarHead] - .4; head < -open-1e-4 {
		t.Errorf("%s: %s: missed by %v", s.profile.Name, headBeforeGlass, -head)
	}
	if r := v[segments.PillarRake]; r < 15-40*open || r > 85+40*open {
		t.Errorf("%s: rake %v", s.profile.Name, r)
	}
}

// variablesOf turns figures back into working variables of body and ends.
func (s solver) variablesOf(v segments.Values) vector {
	x := s.centres()
	for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
		if s.profile.Form.Has(f) && !isPillar(f) {
			x[index(f)] = v[f]
		}
	}
	x[index(segments.GreenhouseToBody)] = v[segments.Greenhouse] - s.typical[segments.GreenhouseToBody]*v[segments.BodySide]
	if s.profile.GlassFromFront {
		x[index(segments.GlassEnd)] += v[segments.WheelsBetween]
	}
	return x
}

// proving reports whether make prove runs the long proofs.
func proving() bool { return os.Getenv("HUBRULE_PROVE") != "" }

// trials is how many random briefs a test tries: usually as many as it says, under make prove the number in HUBRULE_PROVE.
func trials(t *testing.T, usual int) int {
	t.Helper()
	if !proving() {
		return usual
	}
	n, err := strconv.Atoi(os.Getenv("HUBRULE_PROVE"))
	if err != nil {
		t.Fatalf("HUBRULE_PROVE: %v", err)
	}
	return n
}

// checkNearest compares the answer of each stage with 200 random neighbours that meet its pins and limits: none is nearer to the centre.
func checkNearest(t *testing.T, rnd *rand.Rand, s solver, neighbours *census) {
	t.Helper()
	eqs := s.bodyEquations()
	body := s.bodyStage()
	out := body.solve(eqs, s.limits, byDigits)
	compare(t, rnd, body, eqs, s.limits, out, neighbours)
	ends := s.endsStage(out.at)
	ends.slack += s.slackOf(func(f segments.Figure) bool { return !isPillar(f) })
	last := ends.solve(eqs, s.limits, byDigits)
	if last.failed {
		t.Errorf("%s: the ends find no place on a body that has one", s.profile.Name)
	}
	compare(t, rnd, ends, eqs, s.limits, last, neighbours)
	v := s.values(last.at)
	eqs, limits := s.pillarEquations(v), s.pillarLimits(v)
	line := s.pillarStage(v)
	compare(t, rnd, line, eqs, limits, line.solve(eqs, limits, byDigits), neighbours)
}

// census counts the answers of stages that were compared and the neighbours that they were compared with.
type census struct{ tried, answers int }

func compare(t *testing.T, rnd *rand.Rand, st stage, eqs []equation, limits []limit, out outcome, neighbours *census) {
	t.Helper()
	set, clash := st.orthonormalise(eqs)
	if out.failed || clash != nil {
		return // the next stage's business
	}
	z := make([]float64, len(st.moving))
	for i, j := range st.moving {
		z[i] = (out.at[j] - st.centre[j]) / st.step[j]
	}
	mine, tried := norm(z), 0
	for range 400 {
		step := make([]float64, len(z))
		for i, j := range st.moving {
			step[i] = rnd.NormFloat64()
			if st.step[j] > 100 { // an end in the body's stage: a step of its own, not ten thousand
				step[i] *= 1e-4
			}
			if rnd.IntN(3) == 0 {
				step[i] = 0 // along an edge too
			}
		}
		for _, dir := range set.directions {
			subtract(step, dot(step, dir), dir)
		}
		scale(step, math.Pow(10, -3*rnd.Float64()))
		other := out.at
		for i, j := range st.moving {
			other[j] += step[i] * st.step[j]
		}
		if slices.ContainsFunc(limits, func(l limit) bool { return l.room.value(other) < math.Min(0, l.room.value(out.at)) }) {
			continue
		}
		subtract(step, -1, z)
		if theirs := norm(step); theirs < mine-1e-9*(1+mine) {
			t.Errorf("%s: a neighbour at %v, the answer at %v", t.Name(), theirs, mine)
			return
		}
		if tried++; tried == 200 {
			break
		}
	}
	neighbours.tried, neighbours.answers = neighbours.tried+tried, neighbours.answers+1
}

// What stops a figure is told truly: at the answer the limit has no room left.
func TestStoppedLimitsHaveNoRoom(t *testing.T) {
	told := 0
	for _, name := range segments.Names() {
		p := segment(t, name)
		for _, tw := range segments.TweakNames() {
			for _, strength := range []float64{-2, -1, 1, 2} {
				d := segments.AppliedTweak{Tweak: tweak(t, tw), Strength: strength}
				if d.Tweak.Refusal(p) != "" {
					continue
				}
				s := newSolver(segments.Brief{Profile: p, Tweaks: []segments.AppliedTweak{d}})
				sol := s.attempt()
				told += checkStopped(t, s, sol)
			}
		}
	}
	if told < 100 {
		t.Errorf("only %d figures are stopped: too few to mean anything", told)
	}
}

func checkStopped(t *testing.T, s solver, sol solution) (told int) {
	t.Helper()
	x := s.variablesOf(sol.values)
	for f, name := range sol.stops {
		told++
		for _, l := range s.limits {
			if l.name == name && l.room.value(x) > 1e-6 && f != segments.GlassEnd && !isPillar(f) {
				t.Errorf("%s: %s is told to be stopped by %q, which has %v of room", s.profile.Name, f, name, l.room.value(x))
			}
		}
	}
	return told
}

// A pinned figure that stands at a limit has the limit named beside it.
func TestPinnedAtALimit(t *testing.T) {
	for _, c := range []struct{ figure, value, limit string }{
		{"greenhouse", "0.2w", "greenhouse 0.1w more than header-drop"},
		{"chin-setback", "0w", "chin-setback at least 0"},
		{"body-side", "0.1w", "body-side at least 0.1w"},
		{"pillar-rake", "15", "pillar-rake at least 15"},
		{"height", "2.2w", ""},
	} {
		plan, err := Solve(brief(t, "suv", c.figure, c.value))
		if err != nil {
			t.Errorf("%s=%s: %v", c.figure, c.value, err)
			continue
		}
		f, _ := segments.Lookup(c.figure)
		if plan.stops[f] != c.limit || plan.states[f] != statePinned {
			t.Errorf("%s=%s: %s, %q; want pinned, %q", c.figure, c.value, plan.states[f], plan.stops[f], c.limit)
		}
	}
}

// Worked by hand: what pins and tweaks must not do, or must.
func TestSolveByHand(t *testing.T) {
	solve := func(b segments.Brief) segments.Values {
		t.Helper()
		p, err := Solve(b)
		if err != nil {
			t.Fatal(err)
		}
		return p.Values()
	}
	// A pin on belt or greenhouse moves the sill by a ninth of what it would at its full half-range: under .02 w.
	for _, c := range [][2]string{{"belt", "1.79w"}, {"greenhouse", "0.556w"}, {"body-side", "1.413w"}} {
		if v := solve(brief(t, "suv", c[0], c[1])); math.Abs(v[segments.Sill]-.38) > .0195 {
			t.Errorf("%s=%s moves the sill to %v", c[0], c[1], v[segments.Sill])
		}
	}
	// The track rides along by .855 of the width's change.
	if v := solve(brief(t, "suv", "width", "2.63w")); math.Abs(v[segments.Track]-(2.163+.0855)) > 1e-6 {
		t.Errorf("track %v", v[segments.Track])
	}
	// Fastback turned round stands the tailgate up: +8° on a two-box, and leaves the glass.
	turned := brief(t, "suv")
	turned.Tweaks = []segments.AppliedTweak{{Tweak: tweak(t, "fastback"), Strength: -1}}
	if v := solve(turned); v[segments.TailRake] != 66 || v[segments.GlassEnd] != 0 {
		t.Errorf("tail-rake %v, glass-end %v; want 66, 0", v[segments.TailRake], v[segments.GlassEnd])
	}
	// A kept given figure is as it would be without the tweak.
	kept := brief(t, "suv")
	kept.Tweaks = []segments.AppliedTweak{{Tweak: tweak(t, "sporty"), Strength: 1}}
	kept.Keeps = []segments.Keep{{Figure: segments.BeltRise}}
	if v := solve(kept); v[segments.BeltRise] != 1.2 || v[segments.TailRake] != 54 {
		t.Errorf("belt-rise %v, tail-rake %v; want 1.2, 54", v[segments.BeltRise], v[segments.TailRake])
	}
	// A pinned rake turns the A-pillar about its foot; a pinned height keeps sill and ratio.
	was := solve(brief(t, "suv"))
	if v := solve(brief(t, "suv", "pillar-rake", "40")); math.Abs(v[segments.PillarFoot]-was[segments.PillarFoot]) > 1e-5 {
		t.Errorf("the foot goes from %v to %v", was[segments.PillarFoot], v[segments.PillarFoot])
	}
	if v := solve(brief(t, "suv", "height", "2.2w")); v[segments.Sill] != was[segments.Sill] || math.Abs(v[segments.GreenhouseToBody]-.5) > 1e-6 {
		t.Errorf("sill %v, ratio %v", v[segments.Sill], v[segments.GreenhouseToBody])
	}
}
