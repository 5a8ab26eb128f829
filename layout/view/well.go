package view

import (
	"math"

	"hubrule/internal/geom"
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
	out = append(out, s.wellInside(o, half)...)
	from, to := s.places.foot.x, s.places.deckEnd.x-1e-3
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
		if last := l.Points[steps]; s.form == segments.Bed { // across the tailgate
			l.Points, l.outs = append(l.Points, Point3{X: last.X, Y: last.Y}), append(l.outs, l.outs[steps])
		}
		out = append(out, l)
		if s.form == segments.Open {
			out = append(out, s.frameEdge(side))
			out = append(out, s.seatLines(side)...)
		}
	}
	return out
}

// wellInside is the floor of a bed or cockpit and the corners of its walls.
func (s *Solid) wellInside(o span, half float64) []Line {
	floor := s.wellFloor()
	ends := [4]Point3{point3(o.lo, floor, half), point3(o.hi, floor, half), point3(o.hi, floor, -half), point3(o.lo, floor, -half)}
	middle := point3(mix(o.lo, o.hi, .5), floor+1, 0)
	loop := Line{Name: "well-floor", Closed: true}
	var out []Line
	for i := range 5 {
		p := ends[i%4]
		in := middle.Sub(p).Unit()
		loop.Points, loop.outs = append(loop.Points, p), append(loop.outs, in)
		if i < 4 {
			up := Point3{X: p.X, Y: geom.Wheels(s.top.value(float64(p.X))), Z: p.Z}
			out = append(out, Line{Name: "well-corner", Points: []Point3{p, up}, outs: []Point3{in, in}})
		}
	}
	return append(out, loop)
}

// wellFloor is the height of the floor of a bed, over the rear arches, or of a cockpit.
func (s *Solid) wellFloor() float64 {
	if s.form == segments.Open {
		return float64(s.plan.Belt()) - cabinFloor
	}
	const overArch = .03
	arch := s.anatomy.RearArch
	return math.Max(s.top.value(s.places.opening.lo)-bedFloor, float64(arch.Centre.Y+arch.Radius)+overArch)
}

// frameEdge is the rear edge of an open car's screen frame, from the belt up and in along the rail to the centre.
func (s *Solid) frameEdge(side geom.Wheels) Line {
	const steps = 60
	l := Line{Name: sided("frame", side), Kind: GlassLine}
	p := &s.places
	depth := math.Min(float64(s.shape.RoofCrown), .8*(p.framePeak.y-p.frameFoot.y))
	for i := range 2*steps + 1 {
		y := mix(p.frameFoot.y+.01, p.framePeak.y-depth, float64(i)/steps)
		if i > steps {
			y = p.framePeak.y - evenly(2-float64(i)/steps, depth, crownSquare)
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
