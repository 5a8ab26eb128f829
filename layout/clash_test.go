package layout

import (
	"errors"
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"hubrule/segments"
)

// without returns b without the pins of these figures.
func without(b segments.Brief, figures ...segments.Figure) segments.Brief {
	b.Pins = slices.DeleteFunc(slices.Clone(b.Pins), func(p segments.Pin) bool { return slices.Contains(figures, p.Figure) })
	return b
}

// only returns b with just the pins of these figures.
func only(b segments.Brief, figures []segments.Figure) segments.Brief {
	b.Pins = slices.DeleteFunc(slices.Clone(b.Pins), func(p segments.Pin) bool { return !slices.Contains(figures, p.Figure) })
	return b
}

func (s ClashSet) figures() []segments.Figure {
	var out []segments.Figure
	for _, p := range s.Pins {
		out = append(out, p.Figure)
	}
	return out
}

// Every reported set clashes by itself, holds without any one of its pins, shares no pin with another set, and each
// value that is said to work does.
func TestClashesRandom(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(11, 3))
	clashes, proofs := 0, 0
	for i := range trials(t, 3000) {
		b := randomPins(t, rnd, segment(t, segments.Names()[i%len(segments.Names())]))
		_, err := Solve(b)
		if err == nil {
			continue
		}
		var c *Clash
		if !errors.As(err, &c) {
			t.Fatal(err)
		}
		clashes++
		proofs += checkClash(t, b, c)
	}
	t.Logf("%d clashes, %d proved in rationals", clashes, proofs)
	if clashes < 150 || proofs < 100 {
		t.Errorf("%d clashes, %d proofs: too few to mean anything", clashes, proofs)
	}
}

// checkClash returns how many sets it proved impossible in exact arithmetic.
func checkClash(t *testing.T, b segments.Brief, c *Clash) (proofs int) {
	t.Helper()
	seen := map[segments.Figure]bool{}
	var all []segments.Figure
	for _, set := range c.Sets {
		all = append(all, set.figures()...)
	}
	s := newSolver(b)
	for _, set := range c.Sets {
		if len(set.Pins) == 0 {
			t.Errorf("%s: a set without pins: %v", b.Profile.Name, set)
		}
		if _, err := Solve(only(b, set.figures())); err == nil {
			t.Errorf("%s: %v holds by itself", b.Profile.Name, set)
		}
		for _, p := range set.Pins {
			if seen[p.Figure] {
				t.Errorf("%s: %s stands in two sets", b.Profile.Name, p.Figure)
			}
			seen[p.Figure] = true
			if _, err := Solve(without(only(b, set.figures()), p.Figure)); err != nil {
				t.Errorf("%s: %v clashes without %s too", b.Profile.Name, set, p.Figure)
			}
			if p.Suggestion == "" {
				continue
			}
			others := slices.DeleteFunc(slices.Clone(all), func(f segments.Figure) bool { return slices.Contains(set.figures(), f) })
			works := without(b, append(others, p.Figure)...)
			works.Pins = append(works.Pins, pin(t, p.Figure.String(), p.Suggestion))
			if _, err := Solve(works); err != nil {
				t.Errorf("%s: %s=%s is said to work: %v\n%v", b.Profile.Name, p.Figure, p.Suggestion, err, set)
			}
		}
		if proves(s, set) {
			proofs++
		} else {
			t.Errorf("%s: %v: no combination of its constraints reads 0 ≥ 1", b.Profile.Name, set)
		}
	}
	return proofs
}

// proves looks for factors, positive for limits, with which the set's pins (form = 0) and limits (form ≥ 0) add up to a negative number
// ≥ 0, in exact rational arithmetic. An irreducible set has one such combination up to its scale, so it is found by elimination.
func proves(s solver, set ClashSet) bool {
	s = s.withPins(set.figures())
	sol := s.attempt()
	var pins, limits []affine
	if sol.pillar {
		pins, limits = s.pillarRows(sol.values, set.Limits)
	} else {
		for _, e := range s.bodyEquations() {
			pins = append(pins, e.form)
		}
		for _, l := range s.limits {
			if slices.Contains(set.Limits, l.name) {
				limits = append(limits, l.room)
			}
		}
	}
	rows := append(slices.Clone(pins), limits...)
	factors := dependency(rows)
	if factors == nil {
		return false
	}
	sum := new(big.Rat)
	for i, f := range factors {
		sum.Add(sum, new(big.Rat).Mul(f, rational(rows[i].constant)))
	}
	if sum.Sign() == 0 {
		return false
	}
	if sum.Sign() > 0 { // turn all signs: now the sum is below 0
		for _, f := range factors {
			f.Neg(f)
		}
	}
	// Irreducible: every limit pushes, and of the pins every one that this stage knows.
	for i, f := range factors {
		if i < len(pins) && f.Sign() == 0 || i >= len(pins) && f.Sign() <= 0 {
			return false
		}
	}
	return true
}

// pillarRows writes the A-pillar's part of a set over the body that its other pins give. Where the glass may give way its two
// limits are one: the head .4 w before a glass that ends .1 w before the tail.
func (s solver) pillarRows(body segments.Values, names []string) (pins, limits []affine) {
	for _, e := range s.pillarEquations(body) {
		pins = append(pins, e.form)
	}
	for _, l := range s.pillarLimits(body) {
		switch {
		case !slices.Contains(names, l.name):
		case l.name == headBeforeGlass && !s.isPinned(segments.GlassEnd):
			rearmost := body[segments.Wheelbase] + s.q/2 + body[segments.RearOverhang] - .1
			limits = append(limits, s.lineAt(rearmost-.4).plus(-(body[segments.Height] - s.drop)))
		default:
			limits = append(limits, l.room)
		}
	}
	return pins, limits
}

// dependency returns factors, not all 0, with which the rows' coefficients add up to exactly nothing; nil where the rows are independent
// or more than one way exists.
func dependency(rows []affine) []*big.Rat {
	n := len(rows)
	m := make([][]*big.Rat, n) // each row beside the combination of rows that it is
	for i, r := range rows {
		m[i] = make([]*big.Rat, variables+n)
		for j := range m[i] {
			m[i][j] = new(big.Rat)
			if j < variables {
				m[i][j] = rational(r.coefficients[j])
			} else if j == variables+i {
				m[i][j].SetInt64(1)
			}
		}
	}
	rank := 0
	for c := 0; c < variables && rank < n; c++ {
		p := slices.IndexFunc(m[rank:], func(row []*big.Rat) bool { return row[c].Sign() != 0 })
		if p < 0 {
			continue
		}
		m[rank], m[rank+p] = m[rank+p], m[rank]
		for i := rank + 1; i < n; i++ {
			if m[i][c].Sign() == 0 {
				continue
			}
			by := new(big.Rat).Quo(m[i][c], m[rank][c])
			for j := range m[i] {
				m[i][j].Sub(m[i][j], new(big.Rat).Mul(by, m[rank][j]))
			}
		}
		rank++
	}
	if rank != n-1 {
		return nil
	}
	return m[n-1][variables:]
}

func rational(x float64) *big.Rat {
	r := new(big.Rat)
	r.SetFloat64(x)
	return r
}

// What is pinned at the value that it has changes nothing, and the order of pins means nothing.
func TestPinsAgain(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(5, 8))
	for i := range trials(t, 600) {
		b := randomPins(t, rnd, segment(t, segments.Names()[i%len(segments.Names())]))
		plan, err := Solve(b)
		if err != nil {
			continue
		}
		turned := b
		turned.Pins = slices.Clone(b.Pins)
		slices.Reverse(turned.Pins)
		again, err := Solve(turned)
		if err != nil || again.Values() != plan.Values() && !sameNumbers(again.Values(), plan.Values(), 0) {
			t.Errorf("%s: turned round: %v", b.Profile.Name, err)
		}
		checkPinnedAgain(t, rnd, b, plan)
	}
}

// checkPinnedAgain pins one more figure at the value it has, to the last digit, and then all figures as tables print them.
func checkPinnedAgain(t *testing.T, rnd *rand.Rand, b segments.Brief, plan Plan) {
	t.Helper()
	s := newSolver(b).withoutSlack()
	sol := s.attempt()
	if sol.failed {
		return // it leans on the last digits of its pins, which others may not
	}
	exact := sol.values
	f := segments.WheelsBetween + segments.Figure(rnd.IntN(int(segments.FigureCount-segments.WheelsBetween)))
	if _, there := b.Pin(f); !there && b.Profile.Form.Has(f) && sensible(f, exact[f]) {
		more := b
		more.Pins = append(slices.Clone(b.Pins), pin(t, f.String(), written(f, exact[f], 12)))
		same, err := Solve(more)
		if err != nil || !sameNumbers(same.Values(), plan.Values(), 1e-5) {
			t.Errorf("%s %v: pinned again at %s=%v: %v", b.Profile.Name, names(b), f, exact[f], err)
			for g := range segments.FigureCount {
				if err == nil && math.Abs(same.Value(g)-plan.Value(g)) > 1e-5 {
					t.Logf("  %s %v %v %s", g, plan.Value(g), same.Value(g), plan.stops[g])
				}
			}
		}
	}
	more := b
	for f := segments.WheelsBetween; f < segments.FigureCount; f++ {
		if _, there := b.Pin(f); !there && b.Profile.Form.Has(f) && sensible(f, plan.Value(f)) {
			digits := 3
			if f.Info().Unit == segments.InDegrees {
				digits = 1
			}
			more.Pins = append(slices.Clone(more.Pins), pin(t, f.String(), written(f, plan.Value(f), digits)))
		}
	}
	if _, err := Solve(more); err != nil {
		t.Errorf("%s %v: its own printed figures clash: %v", b.Profile.Name, names(b), err)
	}
}

func sensible(f segments.Figure, x float64) bool { return x >= f.Info().Lo && x <= f.Info().Hi }

// written writes a figure's value with so many decimals.
func written(f segments.Figure, x float64, decimals int) string {
	text := big.NewFloat(x).Text('f', decimals)
	if f.Info().Unit == segments.InWheels {
		text += "w"
	}
	return text
}

func number(x float64) string { return big.NewFloat(x).Text('f', 6) }

func names(b segments.Brief) string {
	var out []string
	for _, p := range b.Pins {
		out = append(out, p.Figure.String()+"="+p.Text)
	}
	return strings.Join(out, " ")
}

func sameNumbers(a, b segments.Values, within float64) bool {
	for f := range a {
		if math.Abs(a[f]-b[f]) > within || math.IsNaN(a[f]) != math.IsNaN(b[f]) {
			return false
		}
	}
	return true
}
