package request

import "slices"

// Kind is a kind of sheet.
type Kind string

// The kinds of sheet. The last three show several plans on one page.
const (
	Full          Kind = "full"          // every guide, everything labelled
	Trace         Kind = "trace"         // pale and without words, to draw over
	Practice      Kind = "practice"      // part of the guides, and blanks to fill
	Answer        Kind = "answer"        // the practice sheet solved
	Steps         Kind = "steps"         // the construction in eight panels
	Demonstration Kind = "demonstration" // the same, a step on each of eight pages, to be projected
	Overlay       Kind = "overlay"       // two to four plans on one front axle, and what changed
	Spread        Kind = "spread"        // every declared figure as a range and where the plans lie in it
	Thumbnails    Kind = "thumbnails"    // many small underlays
)

// Kinds lists the kinds that draw one plan a page, in the order in which people read of them.
func Kinds() []Kind { return []Kind{Full, Trace, Steps, Demonstration, Practice, Answer} }

// AllKinds lists every kind of sheet: those of one plan a page, then those that show all plans together.
func AllKinds() []Kind { return append(Kinds(), Overlay, Spread, Thumbnails) }

// StepCount is in how many steps the construction is shown.
const StepCount = 8

// Pages is how many pages of one plan a kind of sheet has.
func (k Kind) Pages() int {
	if k == Demonstration {
		return StepCount
	}
	return 1
}

// onlyProjected reports whether all of some kinds are looked at on a wall and not measured on paper.
func onlyProjected(kinds []Kind) bool {
	return len(kinds) > 0 && !slices.ContainsFunc(kinds, func(k Kind) bool { return k != Demonstration })
}

// ShowsAllPlans reports whether a page of the kind shows all plans.
func (k Kind) ShowsAllPlans() bool { return k == Overlay || k == Spread || k == Thumbnails }

// HasBlanks reports whether a kind of sheet carries the student's blanks.
func (k Kind) HasBlanks() bool { return k == Practice || k == Answer }

// Ink returns the ink that a kind of sheet has where none is chosen.
func (k Kind) Ink() Ink {
	if k == Trace || k == Thumbnails {
		return Pale
	}
	return Dark
}

// Outline returns the mode of a kind of sheet where none is chosen; OutlineByKind for kinds without that choice.
func (k Kind) Outline() OutlineMode {
	switch k {
	case Full, Overlay, Thumbnails:
		return OutlineOn
	case Trace:
		return OutlineOff
	}
	return OutlineByKind
}

// Guides returns the guides of a kind of sheet where none is chosen; nil: all that it has.
func (k Kind) Guides() []Guide {
	switch k {
	case Overlay:
		return []Guide{"outline", "pillar", "roof", "belt", "sill", "overhangs", "wheels", "ground"}
	case Thumbnails:
		return []Guide{"outline", "pillar", "roof", "belt", "sill", "overhangs", "arches", "wheels", "ground"}
	}
	return nil
}

// The levels of a practice sheet: how much is drawn already.
const (
	GivenWheels  = 1 // ground line and tyres
	GivenLevels  = 2 // and the levels of roof, belt, sill and clearance
	GivenCounted = 3 // and the counted wheels
	GivenMost    = 4 // all guides but one
)
