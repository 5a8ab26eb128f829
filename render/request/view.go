package request

import (
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout/view"
)

// View is a side from which a vehicle is drawn.
type View string

// The views. Front and rear asked for together share a sheet; an arrangement shows side, front, rear and top with lines carried from one
// to the other.
const (
	SideView        View = "side"
	FrontView       View = "front"
	RearView        View = "rear"
	TopView         View = "top"
	ArrangementView View = "arrangement"
	PerspectiveView View = "perspective"
	EllipsesView    View = "ellipses" // a wheel at many turns and eye heights
)

// Views lists all views.
func Views() []View {
	return []View{SideView, FrontView, RearView, TopView, ArrangementView, PerspectiveView, EllipsesView}
}

// Projection says how the views of an arrangement lie round the side view.
type Projection string

// The two projections of ISO 5456-2: in the first the view from the left lies at the right, in the third at the left.
const (
	FirstAngle Projection = "first"
	ThirdAngle Projection = "third"
)

// Camera is how a perspective is taken and how large it is drawn.
type Camera struct {
	Spec      view.CameraSpec
	NearWheel geom.MM // the tallest wheel on paper; 0: as large as fits
}

// ViewSet are the views that one sheet shows.
type ViewSet []View

// String names the views: "front, rear".
func (v ViewSet) String() string { return strings.Join(Names(v), ", ") }

// Names returns words of a type of their own as plain strings.
func Names[T ~string](words []T) []string {
	return slice.Map(words, func(w T) string { return string(w) })
}

// Has reports whether the sheet shows a view.
func (v ViewSet) Has(one View) bool { return slices.Contains(v, one) }

// Sheets lists what each sheet of the setting shows: front and rear go together.
func (s Setting) Sheets() []ViewSet {
	var out []ViewSet
	both := s.Shows(FrontView) && s.Shows(RearView)
	for _, v := range s.Seen() {
		switch {
		case !both || v != FrontView && v != RearView:
			out = append(out, ViewSet{v})
		case !slices.ContainsFunc(out, func(set ViewSet) bool { return len(set) == 2 }):
			out = append(out, ViewSet{FrontView, RearView})
		}
	}
	return out
}
