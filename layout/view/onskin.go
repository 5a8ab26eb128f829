package view

import (
	"math"
	"slices"

	"hubrule/internal/geom"
)

// topAt returns the height of the upper surface at (x, z), z ≥ 0, outside a cab.
func (s *Solid) topAt(x, z float64) float64 {
	hi := s.top.value(x)
	lo := math.Max(s.low.value(x), hi-.6)
	return root(lo, hi, func(y float64) float64 {
		half := s.halfOf(x, y, false)
		return half - z
	})
}

// endAt returns the x of the face or of the tail at height y and |z|: where the half-width has grown to |z|. On a vehicle with a
// rear screen, heights over its foot give the screen.
func (s *Solid) endAt(y, z float64, front bool) float64 {
	z = math.Abs(z)
	from, into, cab := s.endLine(y, front)
	return root(from+into, from, func(x float64) float64 {
		half := s.halfOf(x, y, cab)
		return half - z
	})
}

// endLine returns the x of the outline at nose, tail or rear screen at height y, how far from there the half-width is sure to have its
// full size, and whether the place belongs to a cab.
func (s *Solid) endLine(y float64, front bool) (x, into float64, cab bool) {
	switch {
	case front:
		return s.face.value(y), float64(s.shape.NoseLength), false
	case s.places.hasFoot && y > s.places.foot.y:
		return s.rear.value(y), -.6, true
	}
	return s.back.value(y), -float64(s.shape.TailLength), false
}

// endHalf returns the half-width that the face, tail or rear screen has at height y, behind its rounding.
func (s *Solid) endHalf(y float64, front bool) float64 {
	x, into, cab := s.endLine(y, front)
	half := s.halfOf(x+into, y, cab)
	return half
}

// sideOf is 1 on the left and −1 on the right.
func sideOf(z float64) geom.Wheels { return geom.Wheels(math.Copysign(1, z)) }

// endPoint adds the point of the face, tail or rear screen at height y and z.
func (l *Line) endPoint(s *Solid, y, z float64, front bool) {
	l.on(s, place{s.endAt(y, z, front), y}, sideOf(z))
	l.Points[len(l.Points)-1].Z = geom.Wheels(z)
}

// topPoint adds the point of the upper surface at (x, z).
func (l *Line) topPoint(s *Solid, x, z float64) {
	l.on(s, place{x, s.topAt(x, math.Abs(z))}, sideOf(z))
	l.Points[len(l.Points)-1].Z = geom.Wheels(z)
}

// slicePoint adds the point of the skin that lies at z in the direction of an angle, counted from rearwards to up, from a place inside.
func (l *Line) slicePoint(s *Solid, inside place, angle geom.Degrees, z float64) {
	sin, cos := sincos(angle)
	along := func(r float64) place { return place{inside.x + float64(r*cos), inside.y + float64(r*sin)} }
	r := root(0, 1.5, func(r float64) float64 {
		q := along(r)
		half := s.halfOf(q.x, q.y, false)
		return half - math.Abs(z)
	})
	l.on(s, along(r), sideOf(z))
	l.Points[len(l.Points)-1].Z = geom.Wheels(z)
}

// add puts the points of m at the end of l, or, backwards, those of its mirror image.
func (l *Line) add(m Line) {
	l.Points, l.outs = append(l.Points, m.Points...), append(l.outs, m.outs...)
}

func (l *Line) addMirrored(m Line) {
	for i := len(m.Points) - 1; i >= 0; i-- {
		l.Points, l.outs = append(l.Points, m.Points[i].Mirror()), append(l.outs, m.outs[i].Mirror())
	}
}

// softened walks a line in even steps and rounds its corners.
func softened(line []place, step float64, rounds int) []place {
	out := line[:1:1]
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		n := max(1, int(math.Round(math.Hypot(b.x-a.x, b.y-a.y)/step)))
		for k := 1; k <= n; k++ {
			out = append(out, place{mix(a.x, b.x, float64(k)/float64(n)), mix(a.y, b.y, float64(k)/float64(n))})
		}
	}
	for range rounds {
		next := append([]place(nil), out...)
		for i := 1; i+1 < len(out); i++ {
			next[i] = place{(out[i-1].x + 2*out[i].x + out[i+1].x) / 4, (out[i-1].y + 2*out[i].y + out[i+1].y) / 4}
		}
		out = next
	}
	return out
}

// squared returns places round a rectangle whose corners are rounded, −1 to 1 both ways: a super-ellipse with this exponent. Half of
// them stand at even angles, for the sides, half at even turns, for the corners.
func squared(square float64) []place {
	const steps = 96
	var angles []float64
	for i := range steps {
		angle := 2 * math.Pi * float64(i) / steps
		sin, cos := math.Sincos(angle)
		bent := func(v float64) float64 { return math.Copysign(math.Pow(math.Abs(v), 2/square), v) }
		angles = append(angles, angle, math.Mod(math.Atan2(bent(sin), bent(cos))+2*math.Pi, 2*math.Pi))
	}
	slices.Sort(angles)
	angles = slices.CompactFunc(angles, func(a, b float64) bool { return math.Abs(a-b) < 1e-6 })
	var out []place
	for _, angle := range append(angles, angles[0]) {
		sin, cos := sincos(geom.Degrees(angle * degree))
		round := math.Pow(math.Pow(math.Abs(sin), square)+math.Pow(math.Abs(cos), square), -1/square)
		out = append(out, place{round * cos, round * sin})
	}
	return out
}

// window returns a rounded loop on the face or tail between two heights, as wide as half says at each height.
func (s *Solid) window(name string, front bool, heights span, square float64, half func(y float64) float64) Line {
	l := Line{Name: name, Kind: DetailLine, surface: true, Closed: true}
	for _, q := range squared(square) {
		y := (heights.lo+heights.hi)/2 + float64((heights.hi-heights.lo)/2*q.y)
		l.endPoint(s, y, half(y)*q.x, front)
	}
	return l
}
