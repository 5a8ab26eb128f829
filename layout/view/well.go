package view

import (
	"math"

	"hubrule/geom"
	"hubrule/segments"
)

// wellLines are the edges of a bed or cockpit, and an open car's screen frame.
func (s *Solid) wellLines() []Line {
	const steps = 60
	var out []Line
	o, half := s.places.opening, s.wellHalf()
	edge := Line{Name: "well", Closed: true}
	loop := softened([]place{{o.lo, 0}, {o.lo, half}, {o.hi, half}, {o.hi, 0}}, .03, 8)
	for i := range 2*len(loop) - 1 {
		q := loop[min(i, 2*len(loop)-2-i)]
		if i >= len(loop) {
			q.y = -q.y
		}
		edge.Points = append(edge.Points, point3(q.x, s.top.value(q.x), q.y))
		edge.outs = append(edge.outs, Point3{Y: 1})
	}
	out = append(out, edge)
	from, to := s.places.foot.x, float64(s.Plan.Tail)-1e-4
	if s.form == segments.Open {
		from, to = s.places.frameFoot.x, o.hi
	}
	for _, side := range []geom.Wheels{1, -1} {
		l := Line{Name: sided("rail", side)}
		for i := range steps + 1 {
			x := mix(from, to, 1-float64(steps-i)*float64(steps-i)/(steps*steps))
			l.on(s, place{x, s.top.value(x) - 1e-9}, side)
			k := len(l.outs) - 1
			l.outs[k] = l.outs[k].Add(Point3{Y: 1}).Unit()
		}
		out = append(out, l)
		if s.form == segments.Open {
			out = append(out, s.frameEdge(side))
			out = append(out, s.seatLines(side)...)
		}
	}
	return out
}

// frameEdge is the rear edge of an open car's screen frame, from the belt up and in along the rail to the centre.
func (s *Solid) frameEdge(side geom.Wheels) Line {
	const steps = 60
	l := Line{Name: sided("frame", side)}
	p := &s.places
	depth := math.Min(float64(s.shape.RoofCrown), .8*(p.framePeak.y-p.frameFoot.y))
	for i := range 2*steps + 1 {
		y := mix(p.frameFoot.y+.01, p.framePeak.y-depth, float64(i)/steps)
		if i > steps {
			y = p.framePeak.y - inverse(2-float64(i)/steps, depth, crownSquare)
		}
		q := place{s.rear.value(y), y}
		point, normal := s.onSkin(q, true)
		if side < 0 {
			point, normal = point.Mirror(), normal.Mirror()
		}
		l.Points, l.outs = append(l.Points, point), append(l.outs, normal.Add(Point3{X: 1}).Unit())
	}
	return l
}
