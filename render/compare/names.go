package compare

import (
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/draft"
	"hubrule/segments"
)

// sameSegment reports whether all plans are of one segment.
func sameSegment(plans []layout.Plan) bool {
	return !slices.ContainsFunc(plans, func(p layout.Plan) bool { return p.Profile.Title != plans[0].Profile.Title })
}

// shortNames returns a distinct name for each plan, at most width wide: the summary of its brief where all plans are of one segment,
// else its segment and that summary.
func shortNames(plans []layout.Plan, width geom.MM) []string {
	var out []string
	for i, p := range plans {
		s := p.Brief.Summary()
		switch same := sameSegment(plans); {
		case same && s == "":
			s = "typical"
		case !same && s == "":
			s = p.Profile.Title
		case !same:
			s = p.Profile.Title + ", " + s
		}
		if s = draft.Truncated(draft.Name(s), width).Text; slices.Contains(out, s) {
			s = draft.Truncated(draft.Name(fmt.Sprintf("%d %s", i+1, s)), width).Text
		}
		out = append(out, s)
	}
	return out
}

// figureName is a figure's name as sheets write it.
func figureName(f segments.Figure) string { return strings.ReplaceAll(f.String(), "-", " ") }
