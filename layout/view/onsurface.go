package view

import (
	"math"
	"slices"

	"hubrule/internal/geom"
)

// endAt returns the x of the face or of the tail at height y and |z|: where the half-width has grown to |z|. On a vehicle with a
// rear screen, heights over its foot give the screen.
func (s *Solid) endAt(y, z float64, front bool) float64 {
	from, into, cab := s.endLine(y, front)
	ends := s.endsAt(y, cab)
	return root(from+into, from, func(x float64) float64 { return s.halfBetween(ends, x, y, cab) - math.Abs(z) })
}

// endLine returns the x of the outline at nose, tail or rear screen at height y, how far from there the half-width is sure to have its
// full size, and whether the place belongs to a cab.
func (s *Solid) endLine(y float64, front bool) (x, into float64, cab bool) {
	switch {
	case front:
		return s.face.value(y), s.nose.depth, false
	case s.places.hasFoot && y > s.places.foot.y:
		return s.rear.value(y), -.6, true
	}
	return s.back.value(y), -s.tail.depth, false
}

// endHalf returns the half-width that the face, tail or rear screen has at height y, behind its rounding.
func (s *Solid) endHalf(y float64, front bool) float64 {
	x, into, cab := s.endLine(y, front)
	return s.halfOf(x+into, y, cab)
}

// outer returns the left surface over a place of the side view: over a deck or tub, that of the cab.
func (s *Solid) outer(q place) vertex { return s.onSurface(q, s.isCab(q.x, q.y)) }

// outerAt returns the surface over a place of the side view on the side of z, at exactly that z.
func (s *Solid) outerAt(q place, z float64) vertex {
	v := s.outer(q)
	if math.Signbit(z) {
		v = v.on(right)
	}
	v.p.Z = geom.Wheels(z)
	return v
}

// onEnd returns the face, tail or rear screen at height y and z.
func (s *Solid) onEnd(y, z float64, front bool) vertex {
	return s.outerAt(place{s.endAt(y, z, front), y}, z)
}

// onTop returns the upper surface at (x, z), outside a cab.
func (s *Solid) onTop(x, z float64) vertex {
	hi, rim := s.top.value(x), s.crown(x, false)
	lo := math.Max(s.lowerEdgeAt(x), hi-.6)
	return s.outerAt(place{x, root(lo, hi, func(y float64) float64 {
		return s.halfUnder(rim, s.endsNear(x, y, false), x, y, false) - math.Abs(z)
	})}, z)
}

// onSlice returns the surface that lies at z in the direction of an angle, counted from rearwards to up, from a place inside.
func (s *Solid) onSlice(inside place, angle geom.Degrees, z float64) vertex {
	sin, cos := sincos(angle)
	along := func(r float64) place { return place{inside.x + float64(r*cos), inside.y + float64(r*sin)} }
	return s.outerAt(along(root(0, 1.5, func(r float64) float64 {
		q := along(r)
		return s.halfOf(q.x, q.y, false) - math.Abs(z)
	})), z)
}

// softened walks a line in even steps and rounds its corners.
func softened(line []place, step float64, rounds int) []place {
	out := line[:1:1]
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		n := max(1, int(math.Round(math.Hypot(b.x-a.x, b.y-a.y)/step)))
		for k := 1; k <= n; k++ {
			out = append(out, a.mix(b, float64(k)/float64(n)))
		}
	}
	next := slices.Clone(out)
	for range rounds {
		for i := 1; i+1 < len(out); i++ {
			next[i] = place{(out[i-1].x + 2*out[i].x + out[i+1].x) / 4, (out[i-1].y + 2*out[i].y + out[i+1].y) / 4}
		}
		out, next = next, out
	}
	return out
}

// squared returns places round a rectangle whose corners are rounded, −1 to 1 both ways: a super-ellipse with this exponent. Half of
// them stand at even angles, for the sides, half at even turns, for the corners.
func squared(exponent float64) []place {
	const steps = 96
	var angles []float64
	for i := range steps {
		angle := 2 * math.Pi * float64(i) / steps
		sin, cos := math.Sincos(angle)
		bent := func(v float64) float64 { return math.Copysign(math.Pow(math.Abs(v), 2/exponent), v) }
		angles = append(angles, angle, math.Mod(math.Atan2(bent(sin), bent(cos))+2*math.Pi, 2*math.Pi))
	}
	slices.Sort(angles)
	angles = slices.CompactFunc(angles, func(a, b float64) bool { return math.Abs(a-b) < 1e-6 })
	var out []place
	for _, angle := range append(angles, angles[0]) {
		sin, cos := sincos(geom.Degrees(angle * 180 / math.Pi))
		round := math.Pow(math.Pow(math.Abs(sin), exponent)+math.Pow(math.Abs(cos), exponent), -1/exponent)
		out = append(out, place{round * cos, round * sin})
	}
	return out
}

// loop is a rounded rectangle on the face or tail.
type loop struct {
	front    bool
	heights  span
	exponent float64                 // of its corners
	half     func(y float64) float64 // half its width at each height
	aside    float64                 // its middle to the left of the centre line
}

// constant is a loop's half-width that is the same at each height.
func constant(half float64) func(float64) float64 { return func(float64) float64 { return half } }

// drawn returns the loop as a line of a kind.
func (s *Solid) drawn(name string, kind LineKind, o loop) Line {
	l := Line{Name: name, Kind: kind, onSurface: true, Closed: true}
	places := squared(o.exponent)
	found := make(map[place]vertex, len(places)/2)
	l.reserve(len(places))
	for _, q := range places {
		if v, ok := found[place{-q.x, q.y}]; ok && o.aside == 0 {
			l.add(v.on(right))
			continue
		}
		y := (o.heights.lo+o.heights.hi)/2 + float64((o.heights.hi-o.heights.lo)/2*q.y)
		v := s.onEnd(y, o.aside+float64(o.half(y)*q.x), o.front)
		l.add(v)
		found[q] = v
	}
	return l
}
