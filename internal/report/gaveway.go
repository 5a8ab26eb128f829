package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"hubrule/layout"
	"hubrule/segments"
)

// GaveWay says which typical figures of a profile give way to the figures that it pins itself, as far as a brief leaves those alone:
// "mine.yaml:3:20: length 4500mm: these gave way (from): wheels-between 2.937 (3.000)"; nil where the profile pins
// nothing or its pins clash.
func GaveWay(b segments.Brief) []string {
	only := segments.Brief{Profile: b.FittedProfile()}
	var pins []string
	for _, own := range b.Profile.Pins {
		if p, _ := b.Pin(own.Figure); p.Origin == own.Origin {
			only.Pins, pins = append(only.Pins, own), append(pins, own.Figure.String()+" "+own.Text)
		}
	}
	plan, err := layout.Solve(only)
	if pins == nil || err != nil {
		return nil
	}
	var moved []string
	for _, s := range plan.FigureStatuses() {
		unit := s.Figure.Info().Unit
		if now, was := Value(s.Value, unit), Value(s.Typical, unit); s.Figure.Info().Role == segments.Declared && now != was {
			moved = append(moved, fmt.Sprintf("%s %s (%s)", s.Figure, now, was))
		}
	}
	what := "nothing gave way"
	if moved != nil {
		what = "these gave way (from): " + strings.Join(moved, ", ")
	}
	return []string{fmt.Sprintf("%s: %s: %s", only.Pins[0].Origin.Place, strings.Join(pins, ", "), what)}
}

// Extremes warns of a plan that reads as no segment, with two figures that are out of their ranges: those that are pinned, then the
// farthest out; "" for others.
func Extremes(p layout.Plan) string {
	if p.Summary() == "" && !p.Varied && p.Profile.InCatalogue() {
		return "" // a segment reads as itself: the others need not be read
	}
	v := p.ReadsAs(segments.All())
	if !v.None {
		return ""
	}
	out := slices.DeleteFunc(p.FigureStatuses(), func(s layout.FigureStatus) bool { return s.Beyond == 0 })
	isPinned := func(s layout.FigureStatus) int {
		if _, ok := p.Brief.Pin(s.Figure); ok {
			return 1
		}
		return 0
	}
	slices.SortStableFunc(out, func(a, b layout.FigureStatus) int {
		return cmp.Or(cmp.Compare(isPinned(b), isPinned(a)), cmp.Compare(b.Beyond, a.Beyond))
	})
	var words []string
	for _, s := range out[:min(2, len(out))] {
		value := func(v float64) string { return Value(v, s.Figure.Info().Unit) }
		words = append(words, fmt.Sprintf("%s %s, with a range of %s to %s", s.Figure, value(s.Value), value(s.Range.Lo), value(s.Range.Hi)))
	}
	return strings.TrimSuffix(p.Profile.Name+" "+v.Short+": "+strings.Join(words, "; "), ": ")
}
