package job

import (
	"fmt"
	"slices"
	"strings"

	"hubrule/render/request"
	"hubrule/segments/strict"
)

// settingError says why a setting makes no sense in its request.
type settingError struct {
	Setting string // by its flag
	Reason  string // what follows the setting in a sentence, with the space or the colon before it
}

// Error names the setting as a flag.
func (e settingError) Error() string { return "--" + e.Setting + e.Reason }

// Check reports which kind of sheet cannot show what a request asks for, or returns nil.
func Check(r request.Request) error {
	for _, err := range []*settingError{checkViews(r), checkTile(r)} {
		if err != nil {
			return err
		}
	}
	return checkVehicles(r)
}

// kindsOf lists the kinds of sheet that a view is drawn on.
func kindsOf(v request.View) kinds {
	return sheets(anyKind(), kinds{request.Full, request.Trace}, request.Kinds(), kinds{request.Full})(v)
}

// checkViews refuses a view that is not drawn on one of the kinds of sheet.
func checkViews(r request.Request) *settingError {
	for _, v := range r.Setting.Seen() {
		for _, k := range r.Kinds {
			if !slices.Contains(kindsOf(v), k) {
				return &settingError{"view", fmt.Sprintf(" %s has no %s sheet: %s; want %s", v, k, whyNot(v, k),
					strict.JoinOr(request.Names(kindsOf(v))))}
			}
		}
	}
	return nil
}

// whyNot says why a kind of sheet makes no sense of a view.
func whyNot(v request.View, k request.Kind) string {
	switch {
	case k.ShowsAllPlans():
		return fmt.Sprintf("the %s sheet compares side views", k)
	case v == request.EllipsesView:
		return "the ellipses fill a sheet of their own"
	case k == request.Steps || k == request.Demonstration:
		return "steps are shown in the side view or in perspective only"
	case k.HasBlanks():
		return "students count in the side view and in perspective only"
	}
	return fmt.Sprintf("%s is not a kind of sheet", k)
}

// strayGuides returns the chosen guides that no view of a request draws, and which views draw the first of them.
func strayGuides(r request.Request) (stray []request.Guide, why string) {
	draws := func(v request.View, g request.Guide) bool { return slices.Contains(v.Guides(), g) }
	for _, g := range r.Setting.Guides {
		if !slices.ContainsFunc(r.Setting.Seen(), func(v request.View) bool { return draws(v, g) }) {
			stray = append(stray, g)
		}
	}
	if stray == nil {
		return nil, ""
	}
	guides, _ := Find("guides")
	var views []string
	for _, v := range request.Views() {
		if draws(v, stray[0]) && len(pairs(kindsOf(v), []request.View{v}, guides.used)) > 0 {
			views = append(views, string(v))
		}
	}
	return stray, fmt.Sprintf("%s goes with --view %s", stray[0], strict.JoinOr(views))
}

// checkTile refuses tiles of what cannot be cut.
func checkTile(r request.Request) *settingError {
	if !r.Setting.Tile {
		return nil
	}
	for _, k := range r.Kinds {
		if !slices.Contains(cut(), k) {
			return &settingError{"tile", fmt.Sprintf(": a sheet of the kind %s fills its own page; want %s", k,
				strict.JoinOr(request.Names(cut())))}
		}
	}
	switch {
	case !r.Setting.SideOnly():
		return &settingError{"tile", " cuts the side view; the other views are drawn on one page"}
	case r.Setting.Scale.Fits():
		return &settingError{"tile", " wants a scale, or one page would do: --scale 1:4 or --scale wheel=200mm"}
	case r.Setting.Frame:
		return &settingError{"tile", ": a frame stands round one page; tiles have cut and glue marks instead"}
	}
	return nil
}

// The most vehicles that a page holds.
const (
	maxOverlaid = 4
	maxSpread   = 6
)

// crowdError says why so many vehicles cannot be drawn, and which setting has to change.
type crowdError struct{ setting, text string }

// Error returns the text.
func (e crowdError) Error() string { return e.text }

// checkVehicles refuses what cannot be drawn of so many vehicles. Its error is a crowdError.
func checkVehicles(r request.Request) error {
	refuse := func(setting, format string, args ...any) error {
		return crowdError{setting, fmt.Sprintf(format, args...)}
	}
	n := len(r.Comparisons()[0])
	switch {
	case len(r.Against) > 0 && !r.Has(request.Overlay):
		return refuse("against", "--against goes with --sheet overlay")
	case r.Count != 0 && !r.Has(request.Thumbnails):
		return refuse("count", "--count goes with --sheet thumbnails")
	case r.Count != 0 && !thumbnails().Contain(float64(r.Count)):
		return refuse("count", "--count: %d; want %s", r.Count, thumbnails())
	case r.Has(request.Overlay) && n < 2:
		return refuse("sheet", "an overlay wants something to compare with: a second segment, --against, or a tweak or pin")
	case r.Has(request.Overlay) && n > maxOverlaid && len(r.Against) > 0:
		return refuse("against", "an overlay holds at most %d vehicles; found %d", maxOverlaid, n)
	case r.Has(request.Overlay) && n > maxOverlaid:
		return refuse("sheet", "an overlay holds at most %d vehicles; found %d", maxOverlaid, n)
	case r.Has(request.Spread) && len(r.Plans) > maxSpread:
		return refuse("sheet", "a spread holds at most %d vehicles; found %d", maxSpread, len(r.Plans))
	case !r.Has(request.Thumbnails):
	case r.Thumbnails() < len(r.Plans):
		return refuse("count", "--count: %d; want at least one for each of the %d segments", r.Count, len(r.Plans))
	case len(r.Plans) > request.MostThumbnails:
		return refuse("sheet", "thumbnails hold at most %d segments; found %d", request.MostThumbnails, len(r.Plans))
	}
	return nil
}

// UsedBy reports whether a sheet of a request changes with the setting.
func (s Setting) UsedBy(r request.Request) bool {
	return len(pairs(r.Kinds, r.Setting.Seen(), s.used)) > 0
}

// sheets returns the kinds of sheet that are given for a view: for the side, for the other flat views, for perspectives and for ellipses.
func sheets(side, flat, perspective, ellipses kinds) func(request.View) kinds {
	return func(v request.View) kinds {
		switch v {
		case request.SideView:
			return side
		case request.PerspectiveView:
			return perspective
		case request.EllipsesView:
			return ellipses
		}
		return flat
	}
}

// pair is a kind of sheet of a view.
type pair struct {
	kind request.Kind
	view request.View
}

// pairs lists the sheets of some kinds and views that exist and use something.
func pairs(among []request.Kind, views []request.View, used func(request.View) kinds) []pair {
	var out []pair
	for _, k := range among {
		for _, v := range views {
			if slices.Contains(kindsOf(v), k) && slices.Contains(used(v), k) {
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
