package view

import (
	"math"

	"hubrule/internal/geom"
)

// lens is a lamp's strip: where it ends on the side, where across the face, and its heights at both ends.
type lens struct {
	front  bool
	x, z   float64
	middle span // heights across the face
	end    span // heights on the side
}

// lamps are the front and the rear lamp of one side: strips round the corner between two heights, from the width left free
// between them across the face to the inner end of the side view's lens.
func (s *Solid) lamps(side geom.Wheels) []Line {
	half := s.width / 2
	front, rear := s.anatomy.FrontLamp, s.anatomy.RearLamp
	fy, fh := float64(front.Min.Y), float64(front.Height())
	ry, rh := float64(rear.Min.Y), float64(rear.Height())
	return []Line{
		s.lamp(sided("lamp-front", side), side, lens{true, float64(front.Max.X), half * s.shape.LampReach,
			span{fy, fy + .66*fh}, span{fy + .26*fh, fy + fh}}),
		s.lamp(sided("lamp-rear", side), side, lens{false, float64(rear.Min.X), half * s.shape.RearLampReach,
			span{ry, ry + .94*rh}, span{ry + .10*rh, ry + rh}}),
	}
}

func (s *Solid) lamp(name string, side geom.Wheels, of lens) Line {
	l := Line{Name: name, Kind: LampLine, surface: true, arched: true, Closed: true}
	low := s.strip(of, of.middle.lo, of.end.lo)
	high := s.strip(of, of.middle.hi, of.end.hi)
	loop := append([]place(nil), low...)
	loop = append(loop, s.rung(of, low[len(low)-1], high[len(high)-1])...)
	for i := len(high) - 1; i >= 0; i-- {
		loop = append(loop, high[i])
	}
	loop = append(loop, s.innerEnd(of, high[0].y, low[0].y)...)
	for _, q := range append(loop, low[0]) {
		l.on(s, q, side)
	}
	return l
}

// innerEnd returns places down a lens's end across the face, all equally far from the centre line.
func (s *Solid) innerEnd(of lens, from, to float64) []place {
	const steps = 8
	var out []place
	for i := 1; i < steps; i++ {
		y := mix(from, to, float64(i)/steps)
		out = append(out, place{s.endAt(y, of.z, of.front), y})
	}
	return out
}

// rung returns places up a lens's end on the side: at even heights, at even depths behind the outline.
func (s *Solid) rung(of lens, a, b place) []place {
	const steps = 8
	depth := func(q place) float64 { x, _, _ := s.endLine(q.y, of.front); return q.x - x }
	var out []place
	for i := 1; i < steps; i++ {
		t := float64(i) / steps
		y := mix(a.y, b.y, t)
		x, _, _ := s.endLine(y, of.front)
		out = append(out, place{x + mix(depth(a), depth(b), t), y})
	}
	return out
}

// strip returns a line across the face and round the corner, from of.z to of.x, its height running evenly from a to b on the
// way. It walks in even steps of the half-width through the length of nose or tail, then straight on.
func (s *Solid) strip(of lens, a, b float64) []place {
	const steps = 48
	const under = .3 // of a crown's depth below the upper surface: nearer to it the side runs in
	n, square, sign := float64(s.shape.NoseLength), s.shape.NoseSquare, 1.
	if !of.front {
		n, square, sign = float64(s.shape.TailLength), s.shape.TailSquare, -1
	}
	// u tells how far round the corner a place is: up to 1 in even turns, beyond it wheels past the full width.
	round := func(depth float64) float64 {
		if depth >= n {
			return 1 + depth - n
		}
		share, _ := quarter(depth, n, square)
		return turnOf(share, square)
	}
	at := func(u, y float64) place {
		depth := n + u - 1
		if u < 1 {
			depth = evenly(u, n, square)
		}
		x, _, _ := s.endLine(y, of.front)
		return place{x + float64(sign*depth), y}
	}
	end, _, _ := s.endLine(b, of.front)
	middle, _, _ := s.endLine(a, of.front)
	from, to := round(sign*(s.endAt(a, of.z, of.front)-middle)), round(sign*(of.x-end))
	var out []place
	total, run := 0., make([]float64, steps+1)
	for i := range steps + 1 {
		q := at(mix(from, to, float64(i)/steps), (a+b)/2)
		half := s.halfOf(q.x, q.y, false)
		if i > 0 {
			last := s.halfOf(out[i-1].x, out[i-1].y, false)
			total += math.Hypot(q.x-out[i-1].x, half-last)
		}
		out, run[i] = append(out, q), total
	}
	for i := range out {
		y := mix(a, b, run[i]/math.Max(total, 1e-9))
		u := mix(from, to, float64(i)/steps)
		q := at(u, y)
		if top, _, depth := s.crown(q.x, false); depth > 0 && y > top-float64(under*depth) {
			q = at(u, top-float64(under*depth))
		}
		out[i] = q
	}
	return out
}
