package view

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/layout/outline"
	"hubrule/segments"
)

// Inner measures of the body, in wheels; judged by eye. Nobody reads a figure from them: they only stand in the way of the eye.
const (
	houseDepth = .52 // of a wheel house, from the body's widest
	rail       = .09 // width of a bed's or a cockpit's edge
	bedFloor   = .50 // under the rail
	cabinFloor = .75 // under the belt
)

// inside returns what hides but is no part of the outer surface: floor, wheel houses, shelf at a rear screen's foot, bed or cockpit.
func (s *Solid) inside(surface []panel) []mesh {
	out := []mesh{s.floor(surface)}
	for _, a := range [2]outline.Arch{s.outline.FrontArch, s.outline.RearArch} {
		out = append(out, s.house(a))
	}
	if s.places.hasFoot {
		out = append(out, s.shelf())
	}
	if s.places.opening != (span{}) {
		out = append(out, s.hollow()...)
	}
	if s.form == segments.Open {
		out = append(out, s.pads()...)
		out = append(out, s.seam(s.places.opening.hi))
	}
	if s.form == segments.ThreeBox {
		out = append(out, s.seam(s.places.foot.x))
	}
	return out
}

// floor closes the body along its lower edge.
func (s *Solid) floor(surface []panel) mesh {
	m := mesh{arched: true}
	for _, p := range surface {
		if !p.arched || p.nodes[0][0].p.Y > s.plan.Belt() {
			continue
		}
		for _, column := range p.nodes {
			left := column[0].p
			m.rows = append(m.rows, []Point3{left, {X: left.X, Y: left.Y}, left.Mirror()})
		}
	}
	return m
}

// seam closes the deck where its crown begins with no depth: between the first two sections it would lie open.
func (s *Solid) seam(x float64) mesh {
	const long, narrower = .06, .97
	half := narrower * float64(s.onDeck(x).Z)
	return across(x, x+long, 1, func(x float64) []Point3 {
		y := s.top.value(x)
		return []Point3{point3(x, y, half), point3(x, y, -half)}
	})
}

// pads closes the sides of an open car's seats.
func (s *Solid) pads() []mesh {
	var out []mesh
	for _, p := range s.seatPanels() {
		for _, row := range [2]int{0, len(p.nodes[0]) - 1} {
			pad := mesh{mirrors: true}
			middle := p.nodes[len(p.nodes)/2][row].p.Lerp(p.nodes[0][row].p, .5)
			for _, column := range p.nodes {
				pad.rows = append(pad.rows, []Point3{column[row].p, middle})
			}
			out = append(out, pad)
		}
	}
	return out
}

// house is the left wheel house of an axle: its wall from the arch inwards and its inner face.
func (s *Solid) house(a outline.Arch) mesh {
	inner := s.width/2 - houseDepth
	if s.places.opening != (span{}) {
		inner = math.Max(inner, s.wellHalf()) // nothing stands into a bed
	}
	m := mesh{mirrors: true}
	for _, p := range s.archLine(a) {
		m.rows = append(m.rows, []Point3{p, {X: p.X, Y: p.Y, Z: geom.Wheels(inner)}, {X: a.Centre.X, Y: a.Centre.Y, Z: geom.Wheels(inner)}})
	}
	return m
}

// across is a mesh of rows across the vehicle from one x to another, closer together towards the end.
func across(from, to float64, steps int, row func(x float64) []Point3) mesh {
	var m mesh
	for i := range steps + 1 {
		m.rows = append(m.rows, row(mix(from, to, slowing(i, steps))))
	}
	return m
}

// shelf is the level face at the foot of a rear screen.
func (s *Solid) shelf() mesh {
	y := s.places.foot.y
	return across(s.places.head.x, s.places.foot.x, 60, func(x float64) []Point3 {
		left, in := point3(x, y, s.halfOf(x, y, false)), point3(x, y, s.halfOf(x, y, true))
		return []Point3{left, in, in.Mirror(), left.Mirror()}
	})
}

// onDeck returns the place on the left where the upper surface at x meets the side.
func (s *Solid) onDeck(x float64) Point3 {
	y := s.top.value(x)
	return point3(x, y, s.halfOf(x, y, false))
}

// wellHalf is the half-width of the bed or cockpit: as wide as the body allows at its narrower end.
func (s *Solid) wellHalf() float64 {
	o := s.places.opening
	half := 1e9
	for i := range 9 {
		x := mix(o.lo, o.hi-.15, float64(i)/8)
		half = min(half, float64(s.onDeck(x).Z)-rail)
	}
	return half
}

// hollow is a bed or a cockpit: edge, walls and floor, and the flat parts before and behind it.
func (s *Solid) hollow() []mesh {
	const steps = 40
	o, half := s.places.opening, s.wellHalf()
	floor := s.wellFloor()
	start, end := s.places.foot.x, s.places.deckEnd.x
	if s.form == segments.Open {
		start, end = s.places.cowl.x, o.hi
	}
	level := func(x float64) []Point3 {
		left := s.onDeck(x)
		return []Point3{left, left.Mirror()}
	}
	wall := across(o.lo, o.hi, steps, func(x float64) []Point3 {
		left := s.onDeck(x)
		return []Point3{left, {X: left.X, Y: left.Y, Z: geom.Wheels(half)}, point3(x, floor, half), point3(x, floor, 0)}
	})
	wall.mirrors = true
	upright := func(x float64) mesh {
		y := s.top.value(x)
		return mesh{rows: [][]Point3{{point3(x, y, half), point3(x, y, -half)}, {point3(x, floor, half), point3(x, floor, -half)}}}
	}
	out := []mesh{across(start, o.lo, steps, level), wall, upright(o.lo), upright(o.hi)}
	if end > o.hi {
		out = append(out, across(o.hi, end, steps, level))
	}
	return out
}

// archLine is a wheel arch on the left side of the body: a circle of the side view, not a plane curve.
func (s *Solid) archLine(a outline.Arch) []Point3 {
	const steps, degree = 96, 180 / math.Pi
	var out []Point3
	for i := range steps + 1 {
		sin, cos := sincos(geom.Degrees((a.From + float64((a.To-a.From)*float64(i)/steps)) * degree))
		q := a.Centre.Add(point{X: geom.Wheels(float64(a.Radius) * cos), Y: geom.Wheels(float64(a.Radius) * sin)})
		out = append(out, Point3{X: q.X, Y: q.Y, Z: s.HalfWidth(q)})
	}
	return out
}
