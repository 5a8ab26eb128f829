package job

import (
	"slices"

	"hubrule/render/request"
)

// Which sheets use a setting. TestEverySettingChangesASheet draws them all and holds these functions to what it sees.

func onKinds(kinds ...request.Kind) func(request.Kind, request.View) bool {
	return func(k request.Kind, _ request.View) bool { return slices.Contains(kinds, k) }
}

func inViews(views ...request.View) func(request.Kind, request.View) bool {
	return func(_ request.Kind, v request.View) bool { return slices.Contains(views, v) }
}

// isFlat reports whether a view is drawn at the scale of the side view: all but the pictures.
func isFlat(v request.View) bool { return v != request.PerspectiveView && v != request.EllipsesView }

func hasCamera(_ request.Kind, v request.View) bool { return !isFlat(v) }

// The ellipses go through all turns by themselves.
func hasTurn(_ request.Kind, v request.View) bool { return v == request.PerspectiveView }

func hasNearWheel(k request.Kind, v request.View) bool {
	return v == request.PerspectiveView && k != request.Steps
}

// Steps and spreads fill their page.
func hasScale(k request.Kind, v request.View) bool {
	return isFlat(v) && k != request.Steps && k != request.Spread
}

func canBeTiled(k request.Kind, v request.View) bool {
	return v == request.SideView && slices.Contains(tiled(), k)
}

func hasFacing(k request.Kind, _ request.View) bool { return k != request.Spread }

func hasGuides(k request.Kind, v request.View) bool {
	return isFlat(v) && k != request.Steps && k != request.Spread
}

func hasLabels(k request.Kind, v request.View) bool {
	switch {
	case k == request.Trace || k == request.Steps || k == request.Spread || v == request.EllipsesView:
		return false
	}
	return v != request.PerspectiveView || k != request.Practice
}

func hasUnits(k request.Kind, v request.View) bool {
	switch v {
	case request.PerspectiveView:
		return true
	case request.EllipsesView:
		return false
	}
	return k != request.Trace && k != request.Thumbnails
}

func hasOutline(k request.Kind, v request.View) bool {
	switch {
	case k == request.Steps || k == request.Practice || k == request.Spread || v == request.EllipsesView:
		return false
	}
	return v != request.PerspectiveView || k != request.Trace
}

func hasChecks(k request.Kind, v request.View) bool {
	return v == request.SideView && k != request.Steps && k != request.Overlay && k != request.Spread
}

func hasGiven(k request.Kind, v request.View) bool {
	return v == request.SideView && k == request.Practice
}
