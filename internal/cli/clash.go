package cli

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"hubrule/layout"
	"hubrule/segments"
)

// clashPinJSON is one pin of a clash; nearest is null where no value of it alone helps.
type clashPinJSON struct {
	Figure  string       `json:"figure"`
	Value   json.Number  `json:"value"`
	Said    string       `json:"said"`
	Nearest *json.Number `json:"nearest"`
}

type clashSetJSON struct {
	Pins   []clashPinJSON `json:"pins"`
	Limits []string       `json:"limits"`
}

// clashJSON writes a clash for other programs, each value in its figure's own unit.
func clashJSON(w io.Writer, c *layout.Clash) error {
	sets := []clashSetJSON{}
	for _, set := range c.Sets {
		out := clashSetJSON{Pins: []clashPinJSON{}, Limits: append([]string{}, set.Limits...)}
		for _, p := range set.Pins {
			pin := clashPinJSON{Figure: p.Figure.String(), Value: six(p.Value), Said: p.Origin.Place}
			if !math.IsNaN(p.Nearest) {
				n := json.Number(strconv.FormatFloat(p.Nearest, 'f', -1, 64))
				pin.Nearest = &n
			}
			out.Pins = append(out.Pins, pin)
		}
		sets = append(sets, out)
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(map[string]any{"clash": sets})
}

// solve is layout.Solve with a clash in words. The brief is solved in its one form, so that all who mean the same get the same.
func solve(b segments.Brief) (layout.Plan, error) {
	plan, err := layout.Solve(b.Canonical())
	var clash *layout.Clash
	if errors.As(err, &clash) {
		return plan, told(clash)
	}
	return plan, err
}

// told turns a clash into words, every set with its pins, what stands in the way and what would work.
func told(c *layout.Clash) error {
	if len(c.Sets) == 0 {
		return fmt.Errorf("%s: %w", c.Brief.Profile.Name, c)
	}
	var b strings.Builder
	for k, set := range c.Sets {
		if k > 0 {
			b.WriteByte('\n')
		}
		fmt.Fprintf(&b, "%s: %s", c.Brief.Profile.Name, toldSet(set))
	}
	return errors.New(b.String())
}

func toldSet(set layout.ClashSet) string {
	var b strings.Builder
	if len(set.Pins) == 1 {
		b.WriteString("this cannot be met:")
	} else {
		b.WriteString("these cannot hold together:")
	}
	rows := [][3]string{}
	var wide [2]int
	for _, p := range set.Pins {
		row := [3]string{p.Figure.String() + " " + toldValue(p), p.Origin.Place, toldNearest(p)}
		for i := range wide {
			wide[i] = max(wide[i], len([]rune(row[i])))
		}
		rows = append(rows, row)
	}
	for _, r := range rows {
		fmt.Fprintf(&b, "\n  %-*s  %-*s  %s", wide[0], r[0], wide[1], r[1], r[2])
	}
	if len(set.Limits) == 0 && len(set.Pins) > 1 {
		b.WriteString("\n  against: each follows from the others")
	}
	for _, limit := range set.Limits {
		fmt.Fprintf(&b, "\n  against: %s", limit)
	}
	return b.String()
}

func toldValue(p layout.ClashPin) string {
	if p.Written == "" {
		return shown(p.Value, p.Figure.Info().Unit)
	}
	return p.Written
}

func toldNearest(p layout.ClashPin) string {
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
