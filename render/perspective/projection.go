package perspective

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/view"
)

// projection is what a camera sees of a plan. It is found once, for every kind of sheet, and knows no paper.
type projection struct {
	plan       layout.Plan
	solid      *view.Solid
	camera     view.Camera
	scene      *view.Scene
	wheels     [4]view.WheelImage  // left before right, front before rear
	wheelLines [4][]lineRuns       // the lines of each wheel
	lines      []lineRuns          // the body's own lines, sections and centre line included; the contour last
	silhouette [][]view.ImagePoint // of what the vehicle covers
}

// lineRuns is what is seen and what is hidden of all lines of one name, in order.
type lineRuns struct {
	name         string
	kind         view.LineKind
	whole        [][]view.ImagePoint // each line from end to end
	seen, hidden [][]view.ImagePoint
	closed       bool
}

// newProjection takes a picture of p. The error is a view.Refusal.
func newProjection(p layout.Plan, spec view.CameraSpec) (*projection, error) {
	c, err := spec.Camera(p)
	if err != nil {
		return nil, err
	}
	s := &projection{plan: p, solid: view.NewSolid(p), camera: c}
	s.scene = view.NewScene(s.solid, c)
	for i, w := range s.solid.Wheels() {
		if s.wheels[i], err = c.WheelImage(w); err != nil {
			return nil, err
		}
		s.wheelLines[i] = s.runsOf(s.scene.WheelLines(w))
	}
	s.lines = append(s.runsOf(s.solid.Lines()), s.runsOf(s.scene.Contour())...)
	s.silhouette = s.scene.Silhouette()
	return s, nil
}

// runsOf gathers lines by their names, in the order in which these first appear.
func (s *projection) runsOf(lines []view.Line) []lineRuns {
	var out []lineRuns
	at := map[string]int{}
	for _, l := range lines {
		i, known := at[l.Name]
		if !known {
			i = len(out)
			at[l.Name] = i
			out = append(out, lineRuns{name: l.Name, kind: l.Kind, closed: l.Closed})
		}
		var whole []view.ImagePoint
		for _, p := range l.Points {
			whole = append(whole, s.camera.Project(p))
		}
		out[i].whole = append(out[i].whole, whole)
		for _, run := range s.scene.Strokes(l) {
			if run.Hidden {
				out[i].hidden = append(out[i].hidden, run.Points)
			} else {
				out[i].seen = append(out[i].seen, run.Points)
			}
		}
	}
	return out
}

// nearest returns the wheel that stands tallest on the picture.
func (s *projection) nearest() view.WheelImage {
	best := s.wheels[0]
	for _, w := range s.wheels[1:] {
		if w.Outer.Half.Y > best.Outer.Half.Y {
			best = w
		}
	}
	return best
}

// nearHeight returns how tall the nearest wheel stands on the picture.
func (s *projection) nearHeight() view.ImageLength { return 2 * s.nearest().Outer.Half.Y }

// bounds returns how far the enclosing box reaches on the picture.
func (s *projection) bounds() geom.Box[view.ImageLength] {
	var b geom.Box[view.ImageLength]
	for i, q := range s.solid.Corners() {
		at := s.camera.Project(q)
		if i == 0 {
			b = geom.Box[view.ImageLength]{Min: at, Max: at}
		}
		b.Min = view.ImagePoint{X: min(b.Min.X, at.X), Y: min(b.Min.Y, at.Y)}
		b.Max = view.ImagePoint{X: max(b.Max.X, at.X), Y: max(b.Max.Y, at.Y)}
	}
	return b
}

// levelEdge returns the upright of the enclosing box that lies outermost on the side of nose or tail that is seen: levels are read beside it.
// side is −1 where that is the picture's left.
func (s *projection) levelEdge() (foot, head view.Point3, side geom.MM) {
	side = -1
	if s.camera.Spec.Turn < 0 {
		side = 1
	}
	corners := s.solid.Corners()
	best := -1
	for i := range corners {
		if i&2 != 0 {
			continue
		}
		if best < 0 || geom.MM(s.camera.Project(corners[i]).X-s.camera.Project(corners[best]).X)*side > 0 {
			best = i
		}
	}
	return corners[best], corners[best|2], side
}
