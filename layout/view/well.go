package view

import (
	"math"

	"hubrule/internal/geom"
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
	o, inner := s.places.opening, s.wellHalf()
	edge := Line{Name: "well", Closed: true}
	loop := softened([]place{{o.lo, 0}, {o.lo, inner}, {o.hi, inner}, {o.hi, 0}}, .03, 8)
	for i := range 2*len(loop) - 1 {
		q := loop[min(i, 2*len(loop)-2-i)]
		if i >= len(loop) {
			q.y = -q.y
		}
		edge.add(vertex{point3(q.x, s.top.value(q.x), q.y), Point3{Y: 1}})
	}
	out := append([]Line{edge}, s.wellInside(o, inner)...)
	from, to := s.places.foot.x, s.places.deckEnd.x-1e-3
	if s.form == segments.Open {
		from, to = s.places.frameFoot.x, o.hi
	}
	rail := Line{Name: "rail"}
	for i := range steps + 1 {
		x := mix(from, to, slowing(i, steps))
		rail.add(s.outer(place{x, s.top.value(x) - 1e-9}).leaning(Point3{Y: 1}))
	}
	if last := rail.vertex(steps); s.form == segments.Bed { // across the tailgate
		last.p.Z = 0
		rail.add(last)
	}
	half := []Line{rail}
	if s.form == segments.Open {
		half = append(append(half, s.frameEdge()), s.seatLines()...)
	}
	return append(out, onBothSides(half)...)
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
	arch := s.outline.RearArch
	return math.Max(s.top.value(s.places.opening.lo)-bedFloor, float64(arch.Centre.Y+arch.Radius)+overArch)
}

// frameEdge is the rear edge of an open car's screen frame on the left, from the belt up and in along the rail to the centre.
func (s *Solid) frameEdge() Line {
	const steps = 60
	l := Line{Name: "frame", Kind: GlassLine}
	p := &s.places
	depth := math.Min(float64(s.shape.RoofCrown), .8*(p.framePeak.y-p.frameFoot.y))
	for i := range 2*steps + 1 {
		y := mix(p.frameFoot.y+.01, p.framePeak.y-depth, float64(i)/steps)
		if i > steps {
			y = p.framePeak.y - crowned(depth).evenly(2-float64(i)/steps)
		}
		l.add(s.onSurface(place{s.rear.value(y), y}, true).leaning(Point3{X: 1}))
	}
	return l
}

// Seats of an open car, in wheels; judged by eye. Their backs are the side view's, as thick pads beside the centre line.
const (
	seatMiddle = .40 // of a seat, as a share of half the width
	seatHalf   = .24 // half its width
	seatRound  = .20 // depth over which its top rounds into its sides
)

// seatPanels returns every seat's back as a sheet that runs round it from front to rear.
func (s *Solid) seatPanels() []panel {
	const across = 12
	var out []panel
	for _, outline := range s.outline.Seats.Flatten(10) {
		high := geom.BoxOf(outline[0], outline...).Max.Y
		half := func(y float64) float64 {
			e, _ := crowned(seatRound).at(float64(high) + .002 - y)
			return seatHalf * (.5 + e/2)
		}
		p := panel{mirrors: true, at: func(q place, _ boundary) vertex { return s.onSeat(outline, q, half) }}
		for i := range outline {
			var column []node
			for k := range across + 1 {
				column = append(column, p.node(place{float64(i), float64(2*k)/across - 1}, noBoundary, left))
			}
			p.nodes = append(p.nodes, column)
		}
		out = append(out, p)
	}
	return out
}

// onSeat returns the point a share q.y of its half-width from a seat's middle, at place q.x along its side view, and the normal
// of the side view there, which turns evenly from corner to corner.
func (s *Solid) onSeat(outline []point, q place, half func(y float64) float64) vertex {
	last := len(outline) - 1
	i := max(0, min(last-1, int(q.x)))
	a := outline[i].Lerp(outline[i+1], q.x-float64(i))
	corner := func(i int) point { return outline[min(i+1, last)].Sub(outline[max(i-1, 0)]).Unit() }
	dir := corner(i).Lerp(corner(i+1), q.x-float64(i)).Unit()
	y := float64(a.Y)
	return vertex{point3(float64(a.X), y, seatMiddle*s.width/2+float64(q.y*half(y))), point3(-float64(dir.Y), float64(dir.X), 0)}
}

// seatLines are the edges of the seats' backs on the left.
func (s *Solid) seatLines() []Line {
	var out []Line
	for _, p := range s.seatPanels() {
		for _, row := range [2]int{0, len(p.nodes[0]) - 1} {
			l := Line{Name: "seat"}
			for _, column := range p.nodes {
				n := column[row]
				l.add(n.leaning(Point3{Z: geom.Wheels(n.q.y)}))
			}
			out = append(out, l)
		}
	}
	return out
}
