package view

import (
	"math"
	"slices"
)

// strip runs round a corner of the body: where it ends on the side, where across the face, and its heights at both ends.
type strip struct {
	front  bool
	x, z   float64
	middle span // heights across the face
	end    span // heights on the side
}

// lamps are the front and the rear lamp of the left side: strips round the corner between two heights, from the width left free
// between them across the face to the inner end of the side view's lamp.
func (s *Solid) lamps() []Line {
	half := s.width / 2
	front, rear := s.outline.FrontLamp, s.outline.RearLamp
	fy, fh := float64(front.Min.Y), float64(front.Height())
	ry, rh := float64(rear.Min.Y), float64(rear.Height())
	return []Line{
		s.lamp("lamp-front", strip{true, float64(front.Max.X), half * s.shape.LampReach,
			span{fy, fy + .66*fh}, span{fy + .26*fh, fy + fh}}),
		s.lamp("lamp-rear", strip{false, float64(rear.Min.X), half * s.shape.RearLampReach,
			span{ry, ry + .94*rh}, span{ry + .10*rh, ry + rh}}),
	}
}

func (s *Solid) lamp(name string, of strip) Line {
	l := Line{Name: name, Kind: LampLine, onSurface: true, arched: true, Closed: true}
	low := s.across(of, of.middle.lo, of.end.lo)
	high := s.across(of, of.middle.hi, of.end.hi)
	outerEnd := s.outerEnd(of, low[len(low)-1], high[len(high)-1])
	var innerEnd []place // all equally far from the centre line
	for i := 1; i < endSteps; i++ {
		y := mix(high[0].y, low[0].y, float64(i)/endSteps)
		innerEnd = append(innerEnd, place{s.endAt(y, of.z, of.front), y})
	}
	for _, q := range slices.Concat(low, outerEnd, reversed(high), innerEnd, low[:1]) {
		l.add(s.outer(q))
	}
	return l
}

const endSteps = 8 // between the places along a strip's ends

// outerEnd returns places up a strip's end on the side: at even heights, at even depths behind the outline.
func (s *Solid) outerEnd(of strip, a, b place) []place {
	from, _, _ := s.endLine(a.y, of.front)
	to, _, _ := s.endLine(b.y, of.front)
	var out []place
	for i := 1; i < endSteps; i++ {
		t := float64(i) / endSteps
		y := mix(a.y, b.y, t)
		x, _, _ := s.endLine(y, of.front)
		out = append(out, place{x + mix(a.x-from, b.x-to, t), y})
	}
	return out
}

// across returns a line across the face and round the corner, from of.z to of.x, its height running evenly from a to b on the
// way. It walks in even steps of the half-width through the length of nose or tail, then straight on.
func (s *Solid) across(of strip, a, b float64) []place {
	const steps = 48
	const under = .3 // of a crown's depth below the upper surface: nearer to it the side runs in
	end, sign := s.nose, 1.
	if !of.front {
		end, sign = s.tail, -1
	}
	// u is how far round the corner a place is: up to 1 in even turns, beyond it wheels past the full width.
	round := func(x, y float64) float64 {
		line, _, _ := s.endLine(y, of.front)
		depth := sign * (x - line)
		if depth >= end.depth {
			return 1 + depth - end.depth
		}
		share, _ := end.at(depth)
		return end.turnOf(share)
	}
	at := func(u, y float64) place {
		depth := end.depth + u - 1
		if u < 1 {
			depth = end.evenly(u)
		}
		x, _, _ := s.endLine(y, of.front)
		return place{x + float64(sign*depth), y}
	}
	from, to := round(s.endAt(a, of.z, of.front), a), round(of.x, b)
	var out []place
	total, run, last := 0., make([]float64, steps+1), 0.
	for i := range steps + 1 {
		q := at(mix(from, to, float64(i)/steps), (a+b)/2)
		half := s.halfOf(q.x, q.y, false)
		if i > 0 {
			total += math.Hypot(q.x-out[i-1].x, half-last)
		}
		out, run[i], last = append(out, q), total, half
	}
	for i := range out {
		y := mix(a, b, run[i]/math.Max(total, 1e-9))
		u := mix(from, to, float64(i)/steps)
		out[i] = at(u, y)
		if top, _, depth := s.crown(out[i].x, false); depth > 0 && y > top-float64(under*depth) {
			out[i] = at(u, top-float64(under*depth))
		}
	}
	return out
}
