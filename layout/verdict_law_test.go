package layout

import (
	"math"
	"slices"
	"strings"
	"testing"

	"hubrule/segments"
)

// madeUp returns a segment whose ranges have their middles at the yardstick's multiple of k: its neighbours lie at round distances.
func madeUp(name string, form segments.Form, k float64) *segments.Profile {
	p := &segments.Profile{Name: name, Form: form}
	for _, m := range markers() {
		middle := (20 + k) * m.sigma
		p.Figures[m.figure] = segments.Entry{Value: middle, Range: segments.Range{Lo: middle - m.sigma, Hi: middle + m.sigma}}
	}
	return p
}

// at is what lies by so many of the yardstick's half-ranges from the middle of madeUp(…, 0), in the markers' order; NaN: not known.
func at(form segments.Form, by ...float64) measured {
	m := nothing(form)
	for i, k := range markers() {
		m.values[k.figure] = (20 + by[i]) * k.sigma
	}
	return m
}

func nothing(form segments.Form) measured {
	m := measured{form: form}
	for f := range m.values {
		m.values[f] = math.NaN()
	}
	return m
}

func all7(by float64) []float64 { return slices.Repeat([]float64{by}, 7) }

// The distance in round numbers: CALC, by hand from the formula of docs/verdict.md.
func TestDistanceByHand(t *testing.T) {
	nan := math.NaN()
	p := madeUp("own", segments.ThreeBox, 0)
	for _, c := range []struct {
		m    measured
		want float64
	}{
		{at(segments.ThreeBox, all7(0)...), 0},
		{at(segments.ThreeBox, all7(-1.5)...), 1.5},
		{at(segments.ThreeBox, 0, 7, 0, 0, 0, 0, 0), math.Sqrt(7)},
		{at(segments.ThreeBox, nan, 7, nan, nan, nan, nan, nan), 7},
		{at(segments.ThreeBox, 3, 4, nan, nan, nan, nan, nan), math.Sqrt(12.5)},
		{at(segments.Fastback, 3, nan, 3, nan, nan, nan, 3), math.Sqrt(10)}, // a neighbouring form: 1
		{at(segments.TwoBox, all7(1.5)...), 2.5},                            // another form: 2
		{at("", all7(1.5)...), 1.5},                                         // a form not known
		{nothing(segments.Bed), 2},
		{nothing(""), 0},
	} {
		if got := distance(c.m, p); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("distance(%v) = %.15f, want %.15f", c.m, got, c.want)
		}
	}
}

// Forms are as far from each other both ways.
func TestFormsApart(t *testing.T) {
	want := map[[2]segments.Form]float64{
		{segments.OneBox, segments.TwoBox}: 1, {segments.TwoBox, segments.OneBox}: 1,
		{segments.ThreeBox, segments.Fastback}: 1, {segments.Fastback, segments.ThreeBox}: 1,
	}
	for _, a := range segments.Forms() {
		for _, b := range segments.Forms() {
			w, near := want[[2]segments.Form{a, b}]
			if !near && a != b {
				w = 2
			}
			if got := formDistance(a, b); got != w {
				t.Errorf("formsApart(%s, %s) = %v, want %v", a, b, got, w)
			}
		}
	}
}

// The .3, .5, 1 and 2 of the line, a hair to both sides of each.
func TestStepsOfTheLine(t *testing.T) {
	const hair = 1e-6
	three := segments.ThreeBox
	own := madeUp("own", three, 0)
	alone := []*segments.Profile{own}
	other := func(k float64) []*segments.Profile { return []*segments.Profile{own, madeUp("other", three, k)} }
	for _, c := range []struct {
		by    float64
		among []*segments.Profile
		want  string
	}{
		{.5 - hair, alone, "reads as own"},
		{.5 + hair, alone, "reads as own, longer between the wheels (wheels-between +0.5)"},
		{1 - hair, alone, "reads as own, longer between the wheels (wheels-between +1.0)"},
		{1 + hair, alone, "an own stretched past its range: wheels-between +1.0, height +1.0"},
		{2 - hair, alone, "an own stretched past its range: wheels-between +2.0, height +2.0"},
		{2 + hair, alone, "reads as none of the 1; nearest own"},
		// At .75 own lies .75 away; another at 1.2 ± lies .45 away.
		{.75, other(1.2 + hair), "reads as own, longer between the wheels (wheels-between +0.8)"},
		{.75, other(1.2 - hair), "reads as other rather than own: wheels-between +0.8, height +0.8"},
		{1.2, other(2.2), "an own stretched past its range: wheels-between +1.2, height +1.2; next: other"},
		{-2 - hair, other(3), "reads as none of the 2; nearest own"},
	} {
		by := all7(c.by)
		by[0], by[1] = c.by+2e-9, c.by+1e-9 // the two furthest, without a doubt
		got := readsAs(at(three, by...), own, c.among)
		if got.Line != c.want {
			t.Errorf("at %v\ngot  %s\nwant %s", c.by, got.Line, c.want)
		}
		if !strings.HasPrefix(c.want, got.Short) || strings.ContainsAny(got.Short, "0123456789:(") != strings.Contains(got.Short, "none of the") {
			t.Errorf("at %v: short %q of %q", c.by, got.Short, got.Line)
		}
	}
}

// Every figure has its word for more and for less, and its true minus.
func TestWordsOfTheFurthest(t *testing.T) {
	words := [][2]string{
		{"longer between the wheels (wheels-between +1.4)", "shorter between the wheels (wheels-between −1.4)"},
		{"taller (height +1.4)", "lower (height −1.4)"},
		{"higher off the ground (sill +1.4)", "nearer the ground (sill −1.4)"},
		{"with more glass (greenhouse-to-body +1.4)", "with less glass (greenhouse-to-body −1.4)"},
		{"with more nose (front-overhang +1.4)", "with less nose (front-overhang −1.4)"},
		{"with more tail (rear-overhang +1.4)", "with less tail (rear-overhang −1.4)"},
		{"wider (width +1.4)", "narrower (width −1.4)"},
	}
	own := madeUp("own", segments.TwoBox, 0)
	for i, both := range words {
		for j, sign := range []float64{1, -1} {
			by := all7(.4)
			by[i] = sign * 1.4
			want := "reads as own, " + both[j]
			if got := readsAs(at(segments.TwoBox, by...), own, []*segments.Profile{own}).Line; got != want {
				t.Errorf("got  %s\nwant %s", got, want)
			}
		}
	}
}

// The order in which segments are listed changes no distance and no line; equals keep the order they came in.
func TestOrderOfSegmentsMeansNothing(t *testing.T) {
	all := segments.All()
	back := slices.Clone(all)
	slices.Reverse(back)
	for _, p := range all {
		m := measured{typicalValues(p), p.Form}
		m.values[segments.Height] += .2
		there, again := readsAs(m, p, all), readsAs(m, p, back)
		if !slices.Equal(there.Nearest, again.Nearest) || there.Line != again.Line {
			t.Errorf("%s: %s, and backwards %s", p.Name, there.Line, again.Line)
		}
	}
	twins := []*segments.Profile{madeUp("second", "", 1), madeUp("twin", "", 0), madeUp("brother", "", 0)}
	var names []string
	for _, n := range nearestSegments(at("", all7(0)...), twins) {
		names = append(names, n.Segment)
	}
	if got := strings.Join(names, " "); got != "twin brother second" {
		t.Errorf("nearest: %s", got)
	}
}

// Pinning one figure further and further away, from beyond the range's middle and the bodies' mean, never brings the plan nearer to its segment, nor makes any distance NaN.
func TestDistanceGrowsOutwards(t *testing.T) {
	for _, p := range segments.All() {
		for _, k := range markers() {
			last := 0.
			m := measured{typicalValues(p), p.Form}
			r := p.Figures[k.figure].Range
			from := max((r.Lo+r.Hi)/2, modelOf(p).figures(p)[k.figure])
			for step := range 20 {
				m.values[k.figure] = from + float64(step)*k.sigma
				d := distance(m, p)
				if !(d >= last) {
					t.Errorf("%s, %s %d half-ranges out: %v after %v", p.Name, k.figure, step, d, last)
				}
				last = d
			}
		}
	}
}

// A profile of one's own takes part in the verdict, known to the catalogue or not.
func TestOwnProfileTakesPart(t *testing.T) {
	mine := madeUp("mine", segments.OneBox, 0)
	v := readsAs(at(segments.OneBox, all7(0)...), mine, segments.All())
	if v.Line != "reads as mine" || v.Nearest[0] != (SegmentDistance{"mine", 0}) || len(v.Nearest) != 19 {
		t.Errorf("%s: %v", v.Line, v.Nearest[0])
	}
}
