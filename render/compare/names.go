package compare

import (
	"fmt"
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/draft"
	"slices"
)

// shortNames returns a short name for each plan, no two alike and none wider than room: what bends it where all are of one segment, else its segment and what bends it.
func shortNames(plans []layout.Plan, room geom.MM) []string {
	alike := !slices.ContainsFunc(plans, func(p layout.Plan) bool { return p.Profile.Title != plans[0].Profile.Title })
	var out []string
	for i, p := range plans {
		s := p.Brief.Summary()
		switch {
		case alike && s == "":
			s = "typical"
		case !alike && s == "":
			s = p.Profile.Title
		case !alike:
			s = p.Profile.Title + ", " + s
		}
		if s = draft.Truncated(draft.Name(s), room).Text; slices.Contains(out, s) {
			s = draft.Truncated(draft.Name(fmt.Sprintf("%d %s", i+1, s)), room).Text
		}
		out = append(out, s)
	}
	return out
}

// figureName is a figure's name as sheets write it.
func figureName(f string) string {
	out := []rune(f)
	for i, r := range out {
		if r == '-' {
			out[i] = ' '
		}
	}
	return string(out)
}
