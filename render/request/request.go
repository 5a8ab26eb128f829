// Package request holds the typed values of a request for sheets: kinds, views, guides, paper, scale, labels, units, ink, camera, and the
// messages that come back. It draws nothing and reads nothing.
package request

import (
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/segments"
)

// Request is what one command draws: each plan on each kind of sheet, in that order, at one wheel size.
type Request struct {
	Plans    []layout.Plan
	Against  []layout.Plan // what an overlay compares each plan with; none: the first plan with the others
	Count    int           // thumbnails on a page; 0: one a plan, and twelve of a plan alone
	Kinds    []Kind
	Setting  Setting
	Handout  bool // part of a class: a line over its sheets numbers them
	OnScreen bool // words that may be pressed stand further apart
	// Printed is how wide the wheel is on the paper that a screen stands for, in mm; 0 on paper itself.
	Printed geom.MM
}

// Has reports whether a kind of sheet is asked for.
func (r Request) Has(kind Kind) bool { return slices.Contains(r.Kinds, kind) }

// HasBlanks reports whether a sheet with blanks is asked for, for which all sheets of a plan leave room.
func (r Request) HasBlanks() bool { return slices.ContainsFunc(r.Kinds, Kind.HasBlanks) }

// Each lists the kinds of the pages that every plan has, in their order.
func (r Request) Each() []Kind {
	var out []Kind
	for _, k := range r.Kinds {
		if !k.ShowsAllPlans() {
			out = append(out, slices.Repeat([]Kind{k}, k.Pages())...)
		}
	}
	return out
}

// Ink returns the ink of one kind of sheet.
func (r Request) Ink(kind Kind) Ink {
	if r.Setting.Ink != "" {
		return r.Setting.Ink
	}
	return kind.Ink()
}

// Comparisons lists the plans of every overlay, the base first. A single bent plan without anything to compare with lies over its segment's
// typical one.
func (r Request) Comparisons() [][]layout.Plan {
	switch {
	case len(r.Against) > 0:
	case len(r.Plans) == 1 && r.Plans[0].Summary() != "":
		base := layout.Typical(r.Plans[0].Brief.Profile)
		base.Brief = segments.Brief{Profile: base.Profile}
		return [][]layout.Plan{{base, r.Plans[0]}}
	default:
		return [][]layout.Plan{r.Plans}
	}
	return slice.Map(r.Plans, func(p layout.Plan) []layout.Plan { return append([]layout.Plan{p}, r.Against...) })
}

// Subject is the place in each of Comparisons of the plan that the request is about: the first, or the second where the first is its own
// typical self.
func (r Request) Subject() int {
	if len(r.Against) == 0 && len(r.Plans) == 1 && r.Plans[0].Summary() != "" {
		return 1
	}
	return 0
}

// The bounds of thumbnails on a page.
const (
	LeastThumbnails = 2
	MostThumbnails  = 24
	ofOneSegment    = 12
)

// Thumbnails is how many thumbnails are on a page.
func (r Request) Thumbnails() int {
	switch {
	case r.Count > 0:
		return r.Count
	case len(r.Plans) == 1:
		return ofOneSegment
	}
	return len(r.Plans)
}

// Title names the document: the user's title, else the segments.
func (r Request) Title() string {
	if r.Setting.Title != "" {
		return r.Setting.Title
	}
	titles := slice.Map(r.Plans, func(p layout.Plan) string { return p.Profile.Title })
	return strings.Join(titles, ", ")
}

// Messages are what the user should know of the sheets of a request besides what stands on them, in sentences without a full stop.
type Messages struct{ Warnings, Notes []string }
