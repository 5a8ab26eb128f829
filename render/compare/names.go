package compare

import (
	"cmp"
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/draft"
)

// descriptions says what each plan is: the summary of its brief where all plans are of one segment, else its segment and that summary.
func descriptions(plans []layout.Plan) []string {
	many := slices.ContainsFunc(plans, func(p layout.Plan) bool { return p.Profile.Title != plans[0].Profile.Title })
	var out []string
	for _, p := range plans {
		s := p.Summary()
		switch {
		case many && s == "":
			s = p.Profile.Title
		case many:
			s = p.Profile.Title + ", " + s
		case s == "":
			s = "typical"
		}
		out = append(out, s)
	}
	return out
}

// namesOf returns for each plan its title, or what it is.
func namesOf(plans []layout.Plan) []string {
	out := descriptions(plans)
	for i, p := range plans {
		out[i] = cmp.Or(p.Brief.Title, out[i])
	}
	return out
}

// shortNames returns a distinct name for each plan, at most width wide.
func shortNames(plans []layout.Plan, width geom.MM) []string {
	var out []string
	for i, s := range namesOf(plans) {
		if s = draft.Truncated(draft.Name(s), width).Text; slices.Contains(out, s) {
			s = draft.Truncated(draft.Name(fmt.Sprintf("%d %s", i+1, s)), width).Text
		}
		out = append(out, s)
	}
	return out
}

// fullNames returns for each plan its title and what it is.
func fullNames(plans []layout.Plan) []string {
	out := descriptions(plans)
	for i, p := range plans {
		if p.Brief.Title != "" {
			out[i] = p.Brief.Title + ": " + out[i]
		}
	}
	return out
}

// keys returns a letter for each plan, which stands for its name in labels and tables; nil where the names differ and are no wider than
// width.
func keys(plans []layout.Plan, width geom.MM) []string {
	names := namesOf(plans)
	distinct := len(slices.Compact(slices.Sorted(slices.Values(names)))) == len(names)
	if distinct && !slices.ContainsFunc(names, func(name string) bool { return draft.Name(name).Width() > width }) {
		return nil
	}
	for i := range names {
		names[i] = string(rune('A' + i))
	}
	return names
}
