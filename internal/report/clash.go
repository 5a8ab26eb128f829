package report

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"text/tabwriter"

	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/segments"
)

// ClashPin is one pin of a clash as JSON; nearest is null, and suggestion empty, where no value of it alone helps.
type ClashPin struct {
	Figure     string      `json:"figure"`
	Value      json.Number `json:"value"`
	Written    string      `json:"written"` // "" of a kept figure
	Said       string      `json:"said"`    // where
	Nearest    any         `json:"nearest"`
	Suggestion string      `json:"suggestion"` // nearest in the unit that was written
}

// ClashSet is one set of a clash as JSON.
type ClashSet struct {
	Pins   []ClashPin `json:"pins"`
	Limits []string   `json:"limits"`
}

// ClashSets returns a clash for other programs, each value in its figure's own unit.
func ClashSets(c *layout.Clash) []ClashSet {
	sets := []ClashSet{}
	for _, set := range c.Sets {
		out := ClashSet{Pins: []ClashPin{}, Limits: append([]string{}, set.Limits...)}
		for _, p := range set.Pins {
			pin := ClashPin{p.Figure.String(), Six(p.Value), p.Written, p.Origin.Place, nil, p.Suggestion}
			if !math.IsNaN(p.Nearest) {
				pin.Nearest = json.Number(strconv.FormatFloat(p.Nearest, 'f', -1, 64))
			}
			out.Pins = append(out.Pins, pin)
		}
		sets = append(sets, out)
	}
	return sets
}

// ClashError is a clash in words.
type ClashError struct{ *layout.Clash }

// Error returns every set with its pins, the limits in their way and what would work, and overhangs that were probably meant from the axle.
func (e ClashError) Error() string {
	name := e.Brief.Profile.Name
	if len(e.Sets) == 0 {
		return name + ": " + e.Clash.Error()
	}
	sets := slice.Map(e.Sets, func(set layout.ClashSet) string { return name + ": " + ClashSetWords(set) })
	return strings.Join(append(sets, layout.PinNotes(e.Brief)...), "\n")
}

// Unwrap returns the clash.
func (e ClashError) Unwrap() error { return e.Clash }

// ClashSetWords says which pins cannot hold together, one a line with what would work instead, and against which limits.
func ClashSetWords(set layout.ClashSet) string {
	var b strings.Builder
	if len(set.Pins) == 1 {
		b.WriteString("this cannot be met:")
	} else {
		b.WriteString("these cannot hold together:")
	}
	t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	for _, p := range set.Pins {
		value := cmp.Or(p.Written, Value(p.Value, p.Figure.Info().Unit))
		fmt.Fprintf(t, "\n  %s %s\t%s\t%s", p.Figure, value, p.Origin.Place, nearestValue(p))
	}
	t.Flush()
	if len(set.Limits) == 0 && len(set.Pins) > 1 {
		b.WriteString("\n  against: each follows from the others")
	}
	for _, limit := range set.Limits {
		fmt.Fprintf(&b, "\n  against: %s", limit)
	}
	return b.String()
}

// ClashReason says in a clause what the pins of a set stand against, without naming them.
func ClashReason(set layout.ClashSet) string {
	if len(set.Limits) > 0 {
		return strings.Join(set.Limits, "; ")
	}
	return "each follows from the others"
}

func nearestValue(p layout.ClashPin) string {
	switch {
	case p.AlreadyMet:
		return "met before the A-pillar was looked at"
	case p.Suggestion == "":
		return "no value of " + p.Figure.String() + " alone helps"
	case p.Kept:
		return p.Suggestion + " would work; pin it instead"
	}
	return p.Suggestion + " would work"
}

// Solve is layout.Solve for a drawing: the brief is solved in its canonical form, so that equivalent briefs get the same plan.
// A clash comes back in words.
func Solve(b segments.Brief) (layout.Plan, error) {
	plan, err := layout.Solve(b.Canonical())
	var clash *layout.Clash
	if errors.As(err, &clash) {
		return plan, ClashError{clash}
	}
	return plan, err
}
