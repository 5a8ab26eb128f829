package layout

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"hubrule/segments"
)

// rowOf returns the cells of a row in docs/verdict.md by its first cell.
func rowOf(t *testing.T, first string) []string {
	t.Helper()
	text, err := os.ReadFile("../docs/verdict.md")
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		cells := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), "|")
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		if cells[0] == first && len(cells) > 2 {
			return cells
		}
	}
	t.Fatalf("docs/verdict.md has no row %q", first)
	return nil
}

func sameCells(t *testing.T, docs, computed []string) {
	t.Helper()
	if got, want := strings.Join(docs, " | "), strings.Join(computed, " | "); got != want {
		t.Errorf("docs/verdict.md says\n| %s |\ncomputed\n| %s |", got, want)
	}
}

// The distances of the typical plans stand in docs/verdict.md as they are.
func TestTypicalDistancesInDocs(t *testing.T) {
	all := segments.All()
	for _, p := range all {
		near := nearestSegments(measured{typicalValues(p), p.Form}, all)
		own, next := near[0].Distance, near[1]
		sameCells(t, rowOf(t, p.Name)[:4],
			[]string{p.Name, fmt.Sprintf("%.2f", own), next.Segment, fmt.Sprintf("%.2f", next.Distance-own)})
	}
}

// tally counts bodies and how often they were called by their own name: first, and first or second, with their form known and without.
type tally struct{ bodies, first, second, firstOpen, secondOpen float64 }

func (s tally) cells(name, format string) []string {
	out := []string{name, fmt.Sprintf("%.0f", s.bodies)}
	for _, x := range []float64{s.first, s.second, s.firstOpen, s.secondOpen} {
		out = append(out, fmt.Sprintf(format, 100*x/s.bodies))
	}
	return out
}

func (s *tally) add(b measuredBody, all []*segments.Profile, form segments.Form) {
	known, open := nearestSegments(measured{b.values, form}, all), nearestSegments(measured{b.values, ""}, all)
	s.bodies++
	s.first += hit(known[:1], b.segment)
	s.second += hit(known[:2], b.segment)
	s.firstOpen += hit(open[:1], b.segment)
	s.secondOpen += hit(open[:2], b.segment)
}

// The rates on measured bodies stand in docs/verdict.md as they are (Transport Canada, Canadian Vehicle Specifications, SEEN).
func TestRatesInDocs(t *testing.T) {
	all, sum, own, within := segments.All(), tally{}, map[string]*tally{}, 0.
	called := map[string]int{}
	for _, p := range all {
		own[p.Name] = &tally{}
	}
	for _, b := range measuredBodies(t) {
		p := segment(t, b.segment)
		sum.add(b, all, p.Form)
		own[b.segment].add(b, all, p.Form)
		best := nearestSegments(measured{b.values, p.Form}, all)[0]
		if distance(measured{b.values, p.Form}, p) <= best.Distance+clearly {
			within++
		}
		if b.segment == "suv" {
			called[best.Segment]++
		}
	}
	for _, p := range all {
		cells := rowOf(t, p.Name)
		if own[p.Name].bodies > 0 {
			sameCells(t, append([]string{p.Name}, cells[4:]...), own[p.Name].cells(p.Name, "%.0f"))
		}
	}
	all18 := rowOf(t, "all")
	sameCells(t, append([]string{"all"}, all18[4:]...), sum.cells("all", "%.1f"))
	t.Logf("%v bodies, %.1f %% within .3 of the nearest; suvs are called %v", sum.bodies, 100*within/sum.bodies, called)
	if got := fmt.Sprintf("%.0f", 100*within/sum.bodies); got != "95" {
		t.Errorf("%s %% within .3 of the nearest; docs/verdict.md says 95", got)
	}
	if called["suv-large"] != 11 {
		t.Errorf("%d suvs called suv-large; docs/verdict.md says 11", called["suv-large"])
	}
}

// What tweaks do to the verdict stands in docs/verdict.md as it is.
func TestTweakRatesInDocs(t *testing.T) {
	t.Parallel()
	all := segments.All()
	for _, strength := range []float64{.5, 1, 2} {
		var plans, kept, far float64
		for _, p := range all {
			for _, name := range segments.TweakNames() {
				tw := tweak(t, name)
				if tw.Refusal(p) != "" {
					continue
				}
				for _, s := range []float64{strength, -strength} {
					m := measured{dosed(t, p, segments.AppliedTweak{Tweak: tw, Strength: s}).Values(), p.Form}
					d := distance(m, p)
					plans++
					if nearestSegments(m, all)[0].Distance >= d-clearly {
						kept++
					}
					if d > stretched {
						far++
					}
				}
			}
		}
		name := fmt.Sprintf("±%v", strength)
		if plans != 278 {
			t.Errorf("%v plans; docs/verdict.md says 278", plans)
		}
		sameCells(t, rowOf(t, name), []string{name, fmt.Sprintf("%.0f", 100*kept/plans), fmt.Sprintf("%.0f", 100*far/plans)})
	}
}

func dosed(t *testing.T, p *segments.Profile, doses ...segments.AppliedTweak) Plan {
	t.Helper()
	plan, err := Solve(segments.Brief{Profile: p, Tweaks: doses})
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

// Distances of bent suvs from suv, as another program computed them beforehand with its own solve (CALC, two digits).
func TestDistancesOfBentSuvs(t *testing.T) {
	suv := segment(t, "suv")
	dose := func(name string, strength float64) segments.AppliedTweak {
		return segments.AppliedTweak{Tweak: tweak(t, name), Strength: strength}
	}
	for _, c := range []struct {
		doses []segments.AppliedTweak
		want  float64
	}{
		{nil, .42},
		{[]segments.AppliedTweak{dose("sporty", 2)}, 1.4},
		{[]segments.AppliedTweak{dose("tough", 2)}, 1.43},
		{[]segments.AppliedTweak{dose("roomy", 2)}, 1.59},
		{[]segments.AppliedTweak{dose("longer", 2)}, 1.29},
		{[]segments.AppliedTweak{dose("sporty", 2), dose("longer", 1)}, 1.55},
	} {
		got := distance(measured{dosed(t, suv, c.doses...).Values(), suv.Form}, suv)
		if got < c.want-.02 || got > c.want+.02 {
			t.Errorf("%v: %.3f from suv; want %.2f", c.doses, got, c.want)
		}
	}
}
