package view

import (
	"cmp"
	"slices"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// centreLine returns the centre line from the front arch's lip over nose, bonnet, screen and roof to the rear one, as one line or,
// where a cockpit lies open, two.
func (s *Solid) centreLine() []Line {
	const chords = 24
	p := &s.places
	line := Line{Name: "centre-line", Kind: CentreLine, onSurface: true}
	inFrame := false // open: behind the frame's highest place, ahead of the deck
	line.reserve(chords * len(s.outline.Upper))
	var out []Line
	for _, c := range s.outline.Upper {
		for i := range chords {
			q, dir := c.At(float64(i)/chords), c.Derivative(float64(i)/chords)
			x, y := float64(q.X), float64(q.Y)
			if s.form == segments.Open && !inFrame && x >= p.framePeak.x && y > p.cowl.y && len(out) == 0 {
				inFrame, out = true, append(out, line)
				line.Points, line.normals = nil, nil
			}
			if inFrame = inFrame && (y > s.top.value(x)+.02 || x < p.opening.hi); !inFrame {
				line.add(vertex{point3(x, y, 0), point3(-float64(dir.Y), float64(dir.X), 0).Unit()})
			}
		}
	}
	return append(out, line)
}

// sections returns cuts across the vehicle where they explain most.
func (s *Solid) sections() []Line {
	plan := s.plan
	var out []Line
	for _, c := range []struct {
		name string
		x    geom.Wheels
	}{{"section-front-axle", 0}, {"section-pillar", plan.PillarFoot().X}, {"section-header", plan.PillarHead().X},
		{"section-rear-axle", plan.Wheelbase()}, {"section-glass-end", plan.GlassEnd()}} {
		if c.x < plan.Tail()-.1 {
			out = append(out, s.section(c.name, c.x)...)
		}
	}
	return out
}

// section returns the cut across the body at x: one line, two over an open bed or cockpit, none beyond nose and tail.
func (s *Solid) section(name string, x geom.Wheels) []Line {
	var half Line
	zones := s.zones()
	within := func(z zone) bool { return float64(x) >= z.from && float64(x) < z.to }
	if !slices.ContainsFunc(zones, within) {
		x += 2e-6 // zones keep a hair off the screen
	}
	slices.SortStableFunc(zones, func(a, b zone) int { return cmp.Compare(a.floor, b.floor) }) // a cab after what it stands on
	for _, z := range zones {
		if !within(z) {
			continue
		}
		flat := z
		flat.shift = func(x, _ float64) float64 { return x }
		flat.under = func(x, y float64) float64 {
			room := min(z.under(x, y), x-s.face.value(y), s.back.value(y)-x)
			if z.cab && s.places.hasFoot {
				room = min(room, s.rear.value(y)-x)
			}
			return room
		}
		for _, q := range s.sectionPlaces(flat, float64(x)) {
			s.addClosely(&half, s.onSurface(q, z.cab), z.cab)
		}
	}
	if len(half.Points) == 0 {
		return nil // ahead of the nose or behind the tail
	}
	return halves(name, s.overScreen(half, float64(x)))
}

// addClosely adds a point of a section, with others between where it lies far from the last one.
func (s *Solid) addClosely(l *Line, v vertex, cab bool) {
	const apart geom.Wheels = .05
	for n := len(l.Points); n > 0 && l.Points[n-1].Sub(v.p).Len() > apart; n = len(l.Points) {
		last := l.Points[n-1]
		q := place{float64(v.p.X), float64(last.Y+v.p.Y) / 2}
		between := s.onSurface(q, cab)
		for between.p.Sub(last).Len() > apart && between.p.Y-last.Y > 1e-7 {
			q.y = (q.y + float64(last.Y)) / 2
			between = s.onSurface(q, cab)
		}
		if between.p.Y-last.Y < 1e-7 || v.p.Y-between.p.Y < 1e-7 {
			break
		}
		l.add(between)
	}
	l.add(v)
}

// overScreen carries a left half on over the bowed screen to the centre: from the A-pillar's edge, or ahead of its foot from where
// the screen stands up from the bonnet.
func (s *Solid) overScreen(half Line, x float64) Line {
	const steps = 16
	p := &s.places
	if x <= p.screenFoot.x || x >= p.head.x || s.form == segments.Open && x > p.cowl.x {
		return half
	}
	share := func(z, y float64) float64 { _, half := s.screenEdge(y); return min(1, z/max(half, 1e-9)) }
	onScreen := func(z float64) (v vertex, of float64) { // the screen at this half-width, and that as a share of its edge's
		y := root(s.underCowl(), p.head.y-1e-6, func(y float64) float64 { return x - float64(s.onScreen(place{y, share(z, y)}).X) })
		of = share(z, y)
		v = s.screenVertex(place{y, of})
		v.p.X, v.p.Y = geom.Wheels(x), geom.Wheels(y)
		return v, of
	}
	if x < p.cowl.x {
		stands := slices.IndexFunc(half.Points, func(q Point3) bool {
			v, of := onScreen(float64(q.Z))
			return of < 1 && v.p.Y > q.Y
		})
		if stands <= 0 { // the screen stands up nowhere here
			return half
		}
		half.Points, half.normals = half.Points[:stands], half.normals[:stands]
	}
	edge := float64(half.Points[len(half.Points)-1].Z)
	for k := 1; k <= steps; k++ {
		v, _ := onScreen(edge * (1 - float64(k)/steps))
		half.add(v)
	}
	return half
}

// halves returns a left half and its mirror image: as one line where it reaches the centre, else as two.
func halves(name string, half Line) []Line {
	whole := Line{Name: name, Kind: SectionLine, onSurface: true}
	opposite := whole
	opposite.addMirrored(half)
	whole.addLine(half)
	if half.Points[len(half.Points)-1].Z > 1e-3 {
		return []Line{whole, opposite}
	}
	whole.addLine(Line{Points: opposite.Points[1:], normals: opposite.normals[1:]})
	return []Line{whole}
}
