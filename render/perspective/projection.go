package perspective

import (
	"sync"

	"hubrule/internal/geom"
	"hubrule/internal/parallel"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/layout/view"
)

// projection is what a camera sees of a plan, on an image plane at unit distance. All kinds of sheet share it. What hides what is most of
// the work: it is found where the first sheet asks for it, and most practice sheets do not.
type projection struct {
	plan       layout.Plan
	solid      *view.Solid
	camera     view.Camera
	wheels     [4]view.WheelImage // left before right, front before rear
	scene      func() *view.Scene
	wheelLines func() [4][]lineRuns // the lines of each wheel
	lines      func() []lineRuns    // the body's own lines, the centre line included; the contour last
	sections   func() []lineRuns
	silhouette func() [][]view.ImagePoint // of what the vehicle covers
	panes      func() [][]view.ImagePoint // parts of windows that are seen, closed
}

// lineRuns is the visible and the hidden runs of all lines of one name, in order.
type lineRuns struct {
	name         string
	kind         view.LineKind
	whole        [][]view.ImagePoint // each line from end to end: of sections, centre line and A-pillars
	seen, hidden [][]view.ImagePoint
}

// newProjection projects p. The error is a view.CameraError.
func newProjection(p layout.Plan, spec view.CameraSpec) (*projection, error) {
	c, err := spec.Camera(p)
	if err != nil {
		return nil, err
	}
	return project(p, c)
}

// project is newProjection for a camera.
func project(p layout.Plan, c view.Camera) (*projection, error) {
	s := &projection{plan: p, solid: view.NewSolid(p), camera: c}
	for i, w := range s.solid.Wheels() {
		var err error
		if s.wheels[i], err = c.WheelImage(w); err != nil {
			return nil, err
		}
	}
	s.scene = sync.OnceValue(func() (out *view.Scene) { // whoever asks what is hidden asks for lines next
		parallel.Together(func() { out = view.NewScene(s.solid, c) }, func() { s.solid.Lines() })
		return out
	})
	s.wheelLines = sync.OnceValue(func() (out [4][]lineRuns) {
		for i, w := range s.solid.Wheels() {
			out[i] = s.runsOf(s.scene().WheelLines(w))
		}
		return out
	})
	s.lines = sync.OnceValue(func() []lineRuns {
		var own, contour []lineRuns
		parallel.Together(func() { contour = s.runsOf(s.scene().Contour()) }, func() { own = s.runsOf(s.solid.Lines()) })
		return append(own, contour...)
	})
	s.sections = sync.OnceValue(func() []lineRuns { return s.runsOf(s.solid.Sections()) })
	s.silhouette = sync.OnceValue(func() [][]view.ImagePoint { return s.scene().Silhouette() })
	s.panes = sync.OnceValue(func() [][]view.ImagePoint { return s.scene().Panes() })
	return s, nil
}

// look finds what is seen of the body and the wheels at once on all processors, with the areas to be filled and the sections if they are
// wanted.
func (s *projection) look(areas, sections bool) {
	calls := []func(){func() { s.lines() }, func() { s.wheelLines() }}
	if areas {
		calls = append(calls, func() { s.silhouette() }, func() { s.panes() })
	}
	if sections {
		calls = append(calls, func() { s.sections() })
	}
	parallel.Together(calls...)
}

// runsOf gathers lines by their names, in the order in which these first appear.
func (s *projection) runsOf(lines []view.Line) []lineRuns {
	var out []lineRuns
	at := map[string]int{}
	strokes := parallel.Map(lines, s.scene().Strokes)
	for k, l := range lines {
		i, known := at[l.Name]
		if !known {
			i = len(out)
			at[l.Name] = i
			out = append(out, lineRuns{name: l.Name, kind: l.Kind})
		}
		if l.Kind == view.SectionLine || l.Kind == view.CentreLine || l.Kind == view.PillarLine {
			out[i].whole = append(out[i].whole, slice.Map(l.Points, s.camera.Project))
		}
		for _, run := range strokes[k] {
			if run.Hidden {
				out[i].hidden = append(out[i].hidden, run.Points)
			} else {
				out[i].seen = append(out[i].seen, run.Points)
			}
		}
	}
	return out
}

// nearHeight returns the height of the nearest wheel in the image.
func (s *projection) nearHeight() view.ImageLength {
	var most view.ImageLength
	for _, w := range s.wheels {
		most = max(most, w.Outer.Half.Y)
	}
	return 2 * most
}

// bounds returns the bounds of the enclosing box and the mirrors in the image.
func (s *projection) bounds() geom.Box[view.ImageLength] {
	var corners []view.ImagePoint
	box := s.solid.Corners()
	for _, q := range append(box[:], s.solid.MirrorEnds()...) {
		corners = append(corners, s.camera.Project(q))
	}
	return geom.BoxOf(corners[0], corners[1:]...)
}

// levelEdge returns the outermost upright of the enclosing box on the visible end, nose or tail: levels are read beside it. side is −1
// where that end lies left in the image.
func (s *projection) levelEdge() (foot, head view.Point3, side geom.MM) {
	side = -1
	if s.camera.Spec.Turn < 0 {
		side = 1
	}
	corners, best := s.solid.Corners(), 0
	for _, i := range []int{1, 4, 5} { // the other corners on the ground
		if geom.MM(s.camera.Project(corners[i]).X-s.camera.Project(corners[best]).X)*side > 0 {
			best = i
		}
	}
	return corners[best], corners[best|2], side
}
