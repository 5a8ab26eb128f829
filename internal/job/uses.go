package job

import (
	"slices"
	"strings"

	"hubrule/render/request"
	"hubrule/segments/strict"
)

// UsedBy reports whether a sheet of a request changes with the setting.
func (s Setting) UsedBy(r request.Request) bool {
	return len(pairs(r.Kinds, r.Setting.Seen(), s.used)) > 0
}

// sheets returns the test whether a sheet is one of those given: kinds of the side view, of the other flat views, of perspectives and of
// ellipses.
func sheets(side, flat, perspective, ellipses kinds) func(request.Kind, request.View) bool {
	return func(k request.Kind, v request.View) bool {
		using := flat
		switch v {
		case request.SideView:
			using = side
		case request.PerspectiveView:
			using = perspective
		case request.EllipsesView:
			using = ellipses
		}
		return slices.Contains(using, k)
	}
}

// pair is a kind of sheet of a view.
type pair struct {
	kind request.Kind
	view request.View
}

// pairs lists the sheets among kinds and views that exist and use something.
func pairs(kinds []request.Kind, views []request.View, used func(request.Kind, request.View) bool) []pair {
	var out []pair
	for _, k := range kinds {
		for _, v := range views {
			if slices.Contains(kindsOf(v), k) && used(k, v) {
				out = append(out, pair{k, v})
			}
		}
	}
	return out
}

// goesWith says which kinds of sheet or which views use a setting that a request does not use.
func (s Setting) goesWith(r request.Request) string {
	var kinds, views []string
	add := func(list *[]string, name string) {
		if !slices.Contains(*list, name) {
			*list = append(*list, name)
		}
	}
	for _, p := range pairs(request.AllKinds(), r.Setting.Seen(), s.used) {
		add(&kinds, string(p.kind))
	}
	for _, p := range pairs(r.Kinds, request.Views(), s.used) {
		add(&views, string(p.view))
	}
	joint := " or "
	if kinds == nil && views == nil {
		joint = " and "
		for _, p := range pairs(request.AllKinds(), request.Views(), s.used) {
			add(&kinds, string(p.kind))
			add(&views, string(p.view))
		}
	}
	var out []string
	if kinds != nil {
		out = append(out, "--sheet "+strict.JoinOr(kinds))
	}
	if views != nil {
		out = append(out, "--view "+strict.JoinOr(views))
	}
	return "goes with " + strings.Join(out, joint)
}
