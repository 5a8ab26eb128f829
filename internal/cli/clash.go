package cli

import (
	"encoding/json"
	"io"
	"math"
	"strconv"

	"hubrule/layout"
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
