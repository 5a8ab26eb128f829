package render

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
)

// Ellipse is an ellipse, or a part of one, drawn with Pen; Fill is nil for an empty one.
//
// Its centre and half axes are in page millimetres; Angle, in radians, turns the long axis from x towards y, which runs down. From and
// To are parameters of geom.Ellipse.At, From < To ≤ From + 2π; both 0 is the whole ellipse.
type Ellipse struct {
	Tagged
	Shape    geom.Ellipse[geom.MM]
	From, To float64
	Pen      Pen
	Fill     *Colour
}

// IsWhole reports whether all of the ellipse is drawn.
func (e *Ellipse) IsWhole() bool { return e.From == e.To || e.To-e.From >= 2*math.Pi-1e-9 }

// Path returns the ellipse as cubics, an eighth of a turn each: they stray from it by less than five millionths of its half axis.
func (e *Ellipse) Path() Path {
	from, to := e.From, e.To
	if e.IsWhole() {
		from, to = 0, 2*math.Pi
	}
	n := int(math.Ceil((to - from) / (math.Pi / 4) * (1 - 1e-12)))
	step := (to - from) / float64(n)
	reach := 4. / 3 * math.Tan(step/4)
	path := Path{}.Move(e.Shape.At(from))
	for i := range n {
		a := from + float64(step*float64(i))
		b := from + float64(step*float64(i+1))
		path = path.Curve(e.along(a, reach), e.along(b, -reach), e.Shape.At(b))
	}
	if e.IsWhole() {
		path = path.Close()
	}
	return path
}

// along returns the place beside parameter t, a share of the tangent further.
func (e *Ellipse) along(t, share float64) Point {
	on, ahead := e.Shape.At(t), e.Shape.At(t+math.Pi/2).Sub(e.Shape.Centre) // the tangent is the conjugate half diameter
	return on.Add(ahead.Times(share))
}

// IsEdgeOn reports whether the ellipse is seen edge-on, so that readers of files would find no arc in it.
func (e *Ellipse) IsEdgeOn() bool { return Round(e.Shape.Short) == 0 }

// segment returns the long axis, which is what is seen of an ellipse edge-on.
func (e *Ellipse) segment() Path {
	return Path{}.Move(e.Shape.At(0)).Line(e.Shape.At(math.Pi))
}

// Outline returns what a writer without arcs draws.
func (e *Ellipse) Outline() Path {
	if e.IsEdgeOn() {
		return e.segment()
	}
	return e.Path()
}

func checkEllipse(e *Ellipse) error {
	s := e.Shape
	if !inRange(s.Centre.X, s.Centre.Y, s.Long, s.Short, geom.MM(s.Angle), geom.MM(e.From), geom.MM(e.To)) || s.Long <= 0 || s.Short < 0 || s.Short > s.Long {
		return fmt.Errorf("ellipse round %v, %v with half axes %v and %v", s.Centre.X, s.Centre.Y, s.Long, s.Short)
	}
	if e.To < e.From || e.To-e.From > 2*math.Pi+1e-9 {
		return fmt.Errorf("part of an ellipse from %v to %v", e.From, e.To)
	}
	return checkPen(e.Pen)
}
