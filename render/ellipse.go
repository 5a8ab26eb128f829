package render

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
)

// Ellipse is an ellipse, or a part of one, drawn with Pen.
//
// Its centre and semi-axes are in page millimetres; Angle, in radians, turns the major axis from x towards y, which runs down. From and
// To are parameters of geom.Ellipse.At, From < To ≤ From + 2π; both 0 is the whole ellipse.
type Ellipse struct {
	Tagged
	Shape    geom.Ellipse[geom.MM]
	From, To float64
	Pen      Pen
}

// IsWhole reports whether all of the ellipse is drawn.
func (e *Ellipse) IsWhole() bool { return e.From == e.To || e.To-e.From >= 2*math.Pi-1e-9 }

// Range returns the parameters between which the ellipse is drawn, from < to.
func (e *Ellipse) Range() (from, to float64) {
	if e.IsWhole() {
		return 0, 2 * math.Pi
	}
	return e.From, e.To
}

// Path returns the ellipse as cubics, an eighth of a turn each: they stray from it by less than five millionths of its semi-axis.
func (e *Ellipse) Path() Path {
	from, to := e.Range()
	n := int(math.Ceil((to - from) / (math.Pi / 4) * (1 - 1e-12)))
	step := (to - from) / float64(n)
	reach := 4. / 3 * math.Tan(step/4)
	along := func(t, share float64) Point { // beside parameter t: the tangent is the conjugate semi-diameter
		return e.Shape.At(t).Add(e.Shape.At(t + math.Pi/2).Sub(e.Shape.Centre).Times(share))
	}
	path := Path{}.Move(e.Shape.At(from))
	for i := range n {
		a := from + float64(step*float64(i))
		b := from + float64(step*float64(i+1))
		path = path.Curve(along(a, reach), along(b, -reach), e.Shape.At(b))
	}
	if e.IsWhole() {
		path = path.Close()
	}
	return path
}

// IsEdgeOn reports whether the ellipse is seen edge-on, so that readers of files would find no arc in it.
func (e *Ellipse) IsEdgeOn() bool { return Round(e.Shape.Short) == 0 }

// Outline returns what a writer without arcs draws: the path, or the major axis of an ellipse edge-on.
func (e *Ellipse) Outline() Path {
	if e.IsEdgeOn() {
		return Path{}.Move(e.Shape.At(0)).Line(e.Shape.At(math.Pi))
	}
	return e.Path()
}

func checkEllipse(e *Ellipse) error {
	s := e.Shape
	if !inRange(s.Centre.X, s.Centre.Y, s.Long, s.Short, geom.MM(s.Angle), geom.MM(e.From), geom.MM(e.To)) ||
		s.Long <= 0 || s.Short < 0 || s.Short > s.Long {
		return fmt.Errorf("ellipse round %v, %v with half axes %v and %v", s.Centre.X, s.Centre.Y, s.Long, s.Short)
	}
	if e.To < e.From || e.To-e.From > 2*math.Pi+1e-9 {
		return fmt.Errorf("part of an ellipse from %v to %v", e.From, e.To)
	}
	return checkPen(e.Pen)
}
