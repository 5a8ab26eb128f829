package view

import (
	"math"

	"hubrule/segments"
)

// slowing is a share of a way in steps that grow ever smaller: close together towards the end.
func slowing(i, steps int) float64 {
	left := float64(steps - i)
	return 1 - float64(left*left)/float64(steps*steps)
}

// wellLines are the edges of a bed or cockpit, and an open car's screen frame.
func (s *Solid) wellLines() []Line {
	const steps = 60
	o, half := s.places.opening, s.wellHalf()
	edge := Line{Name: "well", Closed: true}
	loop := softened([]place{{o.lo, 0}, {o.lo, half}, {o.hi, half}, {o.hi, 0}}, .03, 8)
	for i := range 2*len(loop) - 1 {
		q := loop[min(i, 2*len(loop)-2-i)]
		if i >= len(loop) {
			q.y = -q.y
		}
		edge.add(vertex{point3(q.x, s.top.value(q.x), q.y), Point3{Y: 1}})
	}
	out := append([]Line{edge}, s.wellInside(o, half)...)
	from, to := s.places.foot.x, s.places.deckEnd.x-1e-3
	if s.form == segments.Open {
		from, to = s.places.frameFoot.x, o.hi
	}
	var rail Line
	for i := range steps + 1 {
		x := mix(from, to, slowing(i, steps))
		rail.add(s.outer(place{x, s.top.value(x) - 1e-9}).leaning(Point3{Y: 1}))
	}
	if last := rail.vertex(steps); s.form == segments.Bed { // across the tailgate
		last.p.Z = 0
		rail.add(last)
	}
	for _, d := range []side{left, right} {
		out = append(out, rail.on("rail", d))
		if s.form == segments.Open {
			out = append(out, s.frameEdge().on("frame", d))
			out = append(out, s.seatLines(d)...)
		}
	}
	return out
}

// wellInside is the floor of a bed or cockpit and the corners of its walls.
func (s *Solid) wellInside(o span, half float64) []Line {
	floor := s.wellFloor()
	middle := point3(mix(o.lo, o.hi, .5), floor+1, 0)
	loop := Line{Name: "well-floor", Closed: true}
	var out []Line
	for _, q := range []place{{o.lo, half}, {o.hi, half}, {o.hi, -half}, {o.lo, -half}} {
		v := vertex{p: point3(q.x, floor, q.y)}
		v.normal = middle.Sub(v.p).Unit()
		loop.add(v)
		corner := Line{Name: "well-corner"}
		corner.add(v, vertex{point3(q.x, s.top.value(q.x), q.y), v.normal})
		out = append(out, corner)
	}
	loop.add(loop.vertex(0))
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

// frameEdge is the rear edge of an open car's screen frame on the left, from the belt up and in along the rail to the centre.
func (s *Solid) frameEdge() Line {
	const steps = 60
	l := Line{Kind: GlassLine}
	p := &s.places
	depth := math.Min(float64(s.shape.RoofCrown), .8*(p.framePeak.y-p.frameFoot.y))
	for i := range 2*steps + 1 {
		y := mix(p.frameFoot.y+.01, p.framePeak.y-depth, float64(i)/steps)
		if i > steps {
			y = p.framePeak.y - evenly(2-float64(i)/steps, depth, crownSquare)
		}
		l.add(s.onSurface(place{s.rear.value(y), y}, true).leaning(Point3{X: 1}))
	}
	return l
}
