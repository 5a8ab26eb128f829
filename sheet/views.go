package sheet

import (
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render"
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

// views returns the views of the job, the side where none is named.
func (s Setting) views() []View {
	if len(s.Views) == 0 {
		return []View{SideView}
	}
	return s.Views
}

// sheetViews are the views that one sheet shows.
type sheetViews []View

// String names the views: "front, rear".
func (v sheetViews) String() string { return listed(v, ", ") }

// listed joins words with commas, the last with what is given.
func listed[T ~string](list []T, last string) string {
	var s strings.Builder
	for i, word := range list {
		switch {
		case i == 0:
		case i == len(list)-1:
			s.WriteString(last)
		default:
			s.WriteString(", ")
		}
		s.WriteString(string(word))
	}
	return s.String()
}

// is reports whether the sheet shows a view.
func (v sheetViews) is(one View) bool { return slices.Contains(v, one) }

// isPicture reports whether the sheet has a scale of its own: perspectives are as large as fits.
func (v sheetViews) isPicture() bool { return v.is(PerspectiveView) || v.is(EllipsesView) }

// viewSheets lists what each sheet of the job shows: front and rear go together.
func (job Job) viewSheets() []sheetViews {
	var out []sheetViews
	both := slices.Contains(job.Setting.views(), FrontView) && slices.Contains(job.Setting.views(), RearView)
	paired := false
	for _, v := range job.Setting.views() {
		switch {
		case both && (v == FrontView || v == RearView):
			if !paired {
				out = append(out, sheetViews{FrontView, RearView})
			}
			paired = true
		default:
			out = append(out, sheetViews{v})
		}
	}
	return out
}

// kindsOf lists the kinds of sheet that a view is drawn on.
func kindsOf(v View) []Kind {
	switch v {
	case SideView:
		return AllKinds()
	case FrontView, RearView, TopView, ArrangementView:
		return []Kind{Full, Trace}
	case PerspectiveView:
		return []Kind{Full, Trace, Steps, Practice, Answer}
	case EllipsesView:
		return []Kind{Full}
	}
	panic("sheet: no view " + string(v))
}

// whyNot says why a kind of sheet makes no sense of a view.
func whyNot(v View, k Kind) string {
	switch {
	case k.together():
		return fmt.Sprintf("the %s sheet compares side views", k)
	case v == EllipsesView:
		return "the ellipses fill a sheet of their own"
	case k == Steps:
		return "the steps are told of the side view and of the perspective"
	}
	return "what a student counts is asked of the side view and of the perspective"
}

// checkViews tells which kind of sheet makes no sense of which view, or returns nil.
func (job Job) checkViews() error {
	for _, v := range job.Setting.views() {
		for _, k := range job.Kinds {
			if !slices.Contains(kindsOf(v), k) {
				return fmt.Errorf("--view %s has no %s sheet: %s; want %s", v, k, whyNot(v, k), listed(kindsOf(v), " or "))
			}
		}
	}
	return nil
}

// largestOf returns the largest wheel, in real millimetres on paper, at which a flat sheet other than the side view's has room.
func (job Job) largestOf(v sheetViews, c canvas, p layout.Plan) geom.MM {
	switch {
	case v.is(ArrangementView):
		return job.arrangementRoom(c, p)
	case v.is(TopView):
		return job.topRoom(c, p)
	}
	return job.endsRoom(c, p, v)
}

// flat draws one sheet of a view other than the side at a wheel of real millimetres.
func (job Job) flat(v sheetViews, o onePage) (render.Page, error) {
	switch {
	case v.is(ArrangementView):
		return job.arrangement(o)
	case v.is(TopView):
		return job.top(o)
	}
	return job.ends(o, v)
}

// picture draws one sheet of a perspective.
func (job Job) picture(v sheetViews, o onePage) (render.Page, error) {
	if v.is(EllipsesView) {
		return job.ellipses(o)
	}
	return job.perspective(o)
}

// viewGuides lists the layers that only other views than the side have, in paint order: those behind the side's, and those over them.
func viewGuides() (behind, over []string) {
	return []string{"grid", "horizon", "vanishing", "carried"}, []string{"sections", "box", "axis", "axles", "widths", "heights"}
}
