package layout

import (
	"fmt"
	"strings"
	"testing"

	"hubrule/segments"
)

// A user's file may be named as a segment of the catalogue: then it is the one meant, in the line and among the nearest.
func TestOwnProfileTakesItsNamesakesPlace(t *testing.T) {
	own := madeUp("van", segments.OneBox, 0)
	v := readsAs(at(segments.OneBox, all7(0)...), own, segments.All())
	if v.Line != "reads as van" || v.Nearest[0] != (SegmentDistance{"van", 0}) || len(v.Nearest) != len(segments.Names()) {
		t.Errorf("%s; nearest of %d: %v", v.Line, len(v.Nearest), v.Nearest[0])
	}
}

// A profile that extends a segment stands for it too: two of one kind would crowd out the next.
func TestOwnProfileTakesItsParentsPlace(t *testing.T) {
	own := *segment(t, "suv")
	own.Name, own.Extends = "mine", "suv"
	v := Typical(&own).ReadsAs(segments.All())
	if v.Nearest[0].Segment != "mine" || len(v.Nearest) != len(segments.Names()) {
		t.Errorf("nearest of %d: %v", len(v.Nearest), v.Nearest[0])
	}
	for _, n := range v.Nearest {
		if n.Segment == "suv" {
			t.Error("the parent is named too")
		}
	}
}

func TestArticle(t *testing.T) {
	for name, want := range map[string]string{
		"suv": "an suv", "suv-large": "an suv-large", "off-roader": "an off-roader", "estate": "an estate", "Estate": "an Estate",
		"sedan": "a sedan", "pickup": "a pickup", "Wanderer": "a Wanderer", "": "a ", // a file called ".yaml"
	} {
		if got := article(name); got != want {
			t.Errorf("article(%q) = %q, want %q", name, got, want)
		}
	}
}

// The tail belongs to the plan, not to the segment that the line ends in; it is said from .30 w on, and only where it is not typical.
func TestFastbackTail(t *testing.T) {
	sedan, large := segment(t, "sedan"), segment(t, "sedan-large")
	out := func(k marker, halves float64) map[segments.Figure]float64 { // one figure so far from the middle of sedan's
		r := sedan.Figures[k.figure].Range
		return map[segments.Figure]float64{k.figure: (r.Lo+r.Hi)/2 + halves*k.sigma}
	}
	like := map[segments.Figure]float64{}
	for _, k := range markers() {
		like[k.figure] = large.Figures[k.figure].Value
	}
	with := func(behind float64, changes map[segments.Figure]float64) measured {
		m := measured{typicalValues(sedan), sedan.Form}
		for f, v := range changes {
			m.values[f] = v
		}
		m.values[segments.TailFoot] = m.values[segments.RearWheel]/m.values[segments.Wheel]/2 + m.values[segments.RearOverhang] - behind
		return m
	}
	const tail, hair = ", with a fastback tail", 1e-9
	none := fmt.Sprintf("reads as none of the %d", len(segments.Names()))
	for _, c := range []struct {
		m           measured
		short, line string
	}{
		{with(.30+hair, nil), "reads as sedan", "reads as sedan"},
		{with(.30-hair, nil), "reads as sedan" + tail, "reads as sedan" + tail},
		{with(.2, out(markers()[3], 2)),
			"reads as sedan, with more glass" + tail, "reads as sedan, with more glass" + tail + " (greenhouse-to-body "},
		{with(.2, out(markers()[6], 3.5)),
			"a sedan stretched past its range" + tail, "a sedan stretched past its range" + tail + ": width +"},
		{with(.2, like),
			"reads as sedan-large rather than sedan" + tail, "reads as sedan-large rather than sedan" + tail + ": "},
		{with(.2, out(markers()[1], 9)),
			none + tail, none + tail + "; nearest "},
	} {
		if v := readsAs(c.m, sedan, segments.All()); v.Short != c.short || !strings.HasPrefix(v.Line, c.line) {
			t.Errorf("got  %s\n     %s\nwant %s\n     %s…", v.Short, v.Line, c.short, c.line)
		}
	}
	same := *sedan // where the typical rear screen runs to the tail, it is no news
	same.Figures[segments.TailFoot].Value = with(.1, nil).values[segments.TailFoot]
	if v := readsAs(with(.1, nil), &same, segments.All()); v.Line != "reads as sedan" {
		t.Errorf("typically so: %s", v.Line)
	}
}

// A plan at typical values is judged beside its own segment too, though nobody gave a brief.
func TestTypicalPlanIsJudgedByItsOwn(t *testing.T) {
	for _, p := range segments.All() {
		if v := Typical(p).ReadsAs(segments.All()); !strings.HasPrefix(v.Line, "reads as "+p.Name) || strings.Contains(v.Line, " or ") {
			t.Errorf("%s: %s", p.Name, v.Line)
		}
	}
}
