package sheet

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/view"
)

// shot is what a camera sees of a plan. It is found once, for every kind of sheet, and knows no paper.
type shot struct {
	plan   layout.Plan
	solid  *view.Solid
	camera view.Camera
	scene  *view.Scene
	wheels [4]view.WheelImage  // left before right, front before rear
	rounds [4][]runs           // the lines of each wheel
	lines  []runs              // the body's own lines, sections and centre line included; the contour last
	edge   [][]view.ImagePoint // of what the vehicle covers
}

// runs is what is seen and what is hidden of all lines of one name, in order.
type runs struct {
	name         string
	kind         view.LineKind
	whole        [][]view.ImagePoint // each line from end to end
	seen, hidden [][]view.ImagePoint
	closed       bool
}

// newShot takes a picture of p. The error is a view.Refusal.
func newShot(p layout.Plan, spec view.CameraSpec) (*shot, error) {
	c, err := spec.Camera(p)
	if err != nil {
		return nil, err
	}
	s := &shot{plan: p, solid: view.NewSolid(p), camera: c}
	s.scene = view.NewScene(s.solid, c)
	for i, w := range s.solid.Wheels() {
		if s.wheels[i], err = c.WheelImage(w); err != nil {
			return nil, err
		}
		s.rounds[i] = s.runsOf(s.scene.WheelLines(w))
	}
	s.lines = append(s.runsOf(s.solid.Lines()), s.runsOf(s.scene.Contour())...)
	s.edge = s.scene.Silhouette()
	return s, nil
}

// runsOf gathers lines by their names, in the order in which these first appear.
func (s *shot) runsOf(lines []view.Line) []runs {
	var out []runs
	at := map[string]int{}
	for _, l := range lines {
		i, known := at[l.Name]
		if !known {
			i = len(out)
			at[l.Name] = i
			out = append(out, runs{name: l.Name, kind: l.Kind, closed: l.Closed})
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
func (s *shot) nearest() view.WheelImage {
	best := s.wheels[0]
	for _, w := range s.wheels[1:] {
		if w.Outer.Half.Y > best.Outer.Half.Y {
			best = w
		}
	}
	return best
}

// tall returns how tall the nearest wheel stands on the picture.
func (s *shot) tall() view.ImageLength { return 2 * s.nearest().Outer.Half.Y }

// bounds returns how far the enclosing box reaches on the picture.
func (s *shot) bounds() geom.Box[view.ImageLength] {
	corners := s.solid.Corners()
	b := geom.BoxOf(s.camera.Project(corners[0]))
	for _, q := range corners[1:] {
		b = geom.BoxOf(b.Min, b.Max, s.camera.Project(q))
	}
	return b
}

// outer returns the upright of the enclosing box that lies outermost on the side of nose or tail that is seen: levels are read beside it.
// side is −1 where that is the picture's left.
func (s *shot) outer() (foot, head view.Point3, side geom.MM) {
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
