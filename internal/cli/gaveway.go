package cli

import (
	"fmt"
	"strings"

	"hubrule/layout"
	"hubrule/segments"
)

// gaveWay says which typical figures of a profile give way to the figures that it pins itself, as far as a brief leaves those alone:
// "mine.yaml:3:20: length 4500mm: these gave way (from): wheels-between 2.937 (3.000)"; nil where the profile pins
// nothing or its pins clash.
func gaveWay(b segments.Brief) []string {
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
		if now, was := shown(s.Value, unit), shown(s.Typical, unit); s.Figure.Info().Role == segments.Declared && now != was {
			moved = append(moved, fmt.Sprintf("%s %s (%s)", s.Figure, now, was))
		}
	}
	what := "nothing gave way"
	if moved != nil {
		what = "these gave way (from): " + strings.Join(moved, ", ")
	}
	return []string{fmt.Sprintf("%s: %s: %s", only.Pins[0].Origin.Place, strings.Join(pins, ", "), what)}
}
