package view

import (
	"math"
	"slices"
)

// strip runs round a corner of the body: where it ends on the side, where across the face, and its heights at both ends.
type strip struct {
	front  bool
	z      float64 // where it begins on the face
	x      span    // where its lower and its upper edge end on the side
	middle span    // heights across the face
	end    span    // heights on the side
}

// lampStrip is a lamp of the left side: the side view's lens carried round the corner. Its heights at the silhouette are those across the
// face, out to the width left free between the lamps; the inner end of the side view is its end on the side.
func (s *Solid) lampStrip(front bool) strip {
	const least = .13 // width across the face, which a lamp in the corner keeps
	l := s.outline.RearLamp
	between, reach := s.plan.Profile.Shape.LampReaches()
	if front {
		l, reach = s.outline.FrontLamp, between
	}
	low, high := at(l.LowInner), at(l.HighInner)
	room := math.Min(s.halfOf(low.x, low.y, false), s.halfOf(high.x, high.y, false)) - least
	return strip{front, math.Min(s.width/2*reach, room), span{low.x, high.x},
		span{float64(l.LowOuter.Y), float64(l.HighOuter.Y)}, span{low.y, high.y}}
}

// lamps are the front and the rear lamp of the left side.
func (s *Solid) lamps() []Line {
	return []Line{s.lamp("lamp-front", s.lampStrip(true)), s.lamp("lamp-rear", s.lampStrip(false))}
}

func (s *Solid) lamp(name string, of strip) Line {
	l := Line{Name: name, Kind: LampLine, onSurface: true, arched: true, Closed: true}
	low := s.across(of, of.x.lo, of.middle.lo, of.end.lo)
	high := s.across(of, of.x.hi, of.middle.hi, of.end.hi)
	outerEnd := s.outerEnd(of, low[len(low)-1], high[len(high)-1])
	var innerEnd []place // all equally far from the centre line
	for i := 1; i < endSteps; i++ {
		y := mix(high[0].y, low[0].y, float64(i)/endSteps)
		innerEnd = append(innerEnd, place{s.endAt(y, of.z, of.front), y})
	}
	places := slices.Concat(low, outerEnd, reversed(high), innerEnd, low[:1])
	l.reserve(len(places))
	for _, q := range places {
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

// across returns a line across the face and round the corner, from of.z to the place x on the side, its height running evenly from a to
// b on the way. It walks in even steps of the half-width through the length of nose or tail, then straight on.
func (s *Solid) across(of strip, x, a, b float64) []place {
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
	from, to := round(s.endAt(a, of.z, of.front), a), round(x, b)
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
		if c := s.crown(out[i].x, false); c.depth > 0 && y > c.top-float64(under*c.depth) {
			out[i] = at(u, c.top-float64(under*c.depth))
		}
	}
	return out
}
