package view

import (
	"math"

	"hubrule/geom"
	"hubrule/segments"
)

// topAt returns the height of the upper surface at (x, z), z ≥ 0, outside a cab.
func (s *Solid) topAt(x, z float64) float64 {
	hi := s.top.value(x)
	lo := math.Max(s.low.value(x), hi-.6)
	return root(lo, hi, func(y float64) float64 {
		half, _, _ := s.surface(x, y, false)
		return half - z
	})
}

// endAt returns the x of the face or of the tail at height y and |z|: where the half-width has grown to |z|. On a vehicle with a rear
// screen, heights over its foot give the screen.
func (s *Solid) endAt(y, z float64, front bool) float64 {
	z = math.Abs(z)
	n := s.shape
	from, into, cab := s.face.value(y), float64(n.NoseLength), false
	if !front {
		from, into = s.back.value(y), -float64(n.TailLength)
		if s.places.hasFoot && y > s.places.foot.y {
			from, into, cab = s.rear.value(y), -.6, true
		}
	}
	return root(from+into, from, func(x float64) float64 {
		half, _, _ := s.surface(x, y, cab)
		return half - z
	})
}

// endPoint adds the point of the face or tail at height y and z.
func (l *Line) endPoint(s *Solid, y, z float64, front bool) {
	side := geom.Wheels(1)
	if z < 0 {
		side = -1
	}
	l.on(s, place{s.endAt(y, z, front), y}, side)
	l.Points[len(l.Points)-1].Z = geom.Wheels(z)
}

// topPoint adds the point of the upper surface at (x, z).
func (l *Line) topPoint(s *Solid, x, z float64) {
	side := geom.Wheels(1)
	if z < 0 {
		side = -1
	}
	l.on(s, place{x, s.topAt(x, math.Abs(z))}, side)
	l.Points[len(l.Points)-1].Z = geom.Wheels(z)
}

// cowl is where the screen meets the bonnet.
func (s *Solid) cowl() Line {
	const steps = 48
	l := Line{Name: "cowl"}
	cowl := s.places.cowl
	for i := range steps + 1 {
		share := float64(2*i)/steps - 1
		y := root(cowl.y-underCowl, cowl.y, func(y float64) float64 {
			q := s.onScreen(place{y, share})
			if float64(q.X) > cowl.x {
				return -1
			}
			half, _, _ := s.surface(float64(q.X), y, false)
			return half - math.Abs(float64(q.Z))
		})
		q := place{y, share}
		l.Points = append(l.Points, s.onScreen(q))
		l.outs = append(l.outs, s.screenNormal(q).Add(Point3{Y: 1}).Unit())
	}
	return l
}

// bonnet is the bonnet's leading edge, parallel to the nose in plan, and its shut lines to the feet of the A-pillars: one line, softened
// in plan and lifted to the surface.
func (s *Solid) bonnet() Line {
	const half, behindEdge, width = 40, .03, .76
	p, n := &s.places, s.shape
	full, _, _ := s.surface(p.edge.x+float64(n.NoseLength), p.edge.y-.03, false)
	lead := func(t float64) place {
		z := t * width * full
		return place{p.edge.x + behindEdge + inverse(math.Abs(z)/full, float64(n.NoseLength), n.NoseSquare), z}
	}
	corner, foot := lead(1), place{p.cowl.x - .12, .93 * s.cowlHalf}
	if corner.x > foot.x-.1 {
		corner.x = foot.x - .1
	}
	var plan []place
	for i := -2 * half; i <= 2*half; i++ {
		t := math.Abs(float64(i)) / half
		q := lead(math.Min(t, 1))
		q.x = math.Min(q.x, corner.x)
		if t > 1 {
			q = place{mix(corner.x, foot.x, t-1), mix(corner.y, foot.y, t-1)}
		}
		q.y = math.Copysign(math.Abs(q.y), float64(i))
		plan = append(plan, q)
	}
	l := Line{Name: "bonnet", surface: true}
	for _, q := range softened(plan, .03, 30) {
		l.topPoint(s, q.x, q.y)
	}
	return l
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

// lamps are the front and the rear lamp of one side: strips round the corner between two heights, from the width left free between
// them across the face to the inner end of the side view's lens.
func (s *Solid) lamps(side geom.Wheels) []Line {
	half := s.width / 2
	front, rear := s.Anatomy.FrontLamp, s.Anatomy.RearLamp
	fy, fh := float64(front.Min.Y), float64(front.Height())
	ry, rh := float64(rear.Min.Y), float64(rear.Height())
	return []Line{
		s.lamp(sided("lamp-front", side), side, lens{true, float64(front.Max.X), half * s.shape.LampReach,
			span{fy, fy + .66*fh}, span{fy + .26*fh, fy + fh}}),
		s.lamp(sided("lamp-rear", side), side, lens{false, float64(rear.Min.X), half * s.shape.RearLampReach,
			span{ry, ry + .94*rh}, span{ry + .10*rh, ry + rh}}),
	}
}

// lens is a lamp's strip: where it ends on the side, where across the face, and its heights at both ends.
type lens struct {
	front  bool
	x, z   float64
	middle span // heights across the face
	end    span // heights on the side
}

func (s *Solid) lamp(name string, side geom.Wheels, of lens) Line {
	l := Line{Name: name, surface: true, arched: true, Closed: true}
	low := s.strip(of, of.middle.lo, of.end.lo)
	high := s.strip(of, of.middle.hi, of.end.hi)
	for _, q := range low {
		l.on(s, q, side)
	}
	for i := len(high) - 1; i >= 0; i-- {
		l.on(s, high[i], side)
	}
	l.on(s, low[0], side)
	return l
}

// strip is one edge of a lamp: across the face and round the corner, its height running evenly from a to b on the way.
func (s *Solid) strip(of lens, a, b float64) []place {
	const steps = 40
	mid := (a + b) / 2
	half, _, _ := s.surface(of.x, mid, false)
	var way []place // x and z in plan
	for i := range steps + 1 {
		z := mix(of.z, half, float64(i)/steps)
		way = append(way, place{s.endAt(mid, math.Min(z, half*(1-1e-9)), of.front), z})
	}
	way[steps].x = of.x
	total, run := 0., make([]float64, len(way))
	for i := 1; i < len(way); i++ {
		total += math.Hypot(way[i].x-way[i-1].x, way[i].y-way[i-1].y)
		run[i] = total
	}
	const under = .012 // of the upper surface
	var out []place
	for i, q := range way {
		y := mix(a, b, run[i]/total)
		x := q.x
		if i < len(way)-1 {
			x = s.endAt(y, q.y, of.front)
			if of.front {
				x = math.Min(x, of.x)
			} else {
				x = math.Max(x, of.x)
			}
		}
		if x > s.top.lo && x < s.top.hi {
			y = math.Min(y, s.top.value(x)-under)
		}
		out = append(out, place{x, y})
	}
	return out
}

// window returns a rounded loop on the face or tail between two heights, as wide as half says at each height.
func (s *Solid) window(name string, front bool, heights span, square float64, half func(y float64) float64) Line {
	const steps = 96
	l := Line{Name: name, surface: true, Closed: true}
	for i := range steps + 1 {
		sin, cos := sincos(geom.Degrees(360 * float64(i%steps) / steps))
		round := math.Pow(math.Pow(math.Abs(sin), square)+math.Pow(math.Abs(cos), square), -1/square)
		y := (heights.lo+heights.hi)/2 + float64((heights.hi-heights.lo)/2*round*sin)
		l.endPoint(s, y, half(y)*round*cos, front)
	}
	return l
}

// rearLines are the rear screen and the shut line of what opens at the rear.
func (s *Solid) rearLines() []Line {
	p := &s.places
	frame := .15
	wide := func(inset float64) func(y float64) float64 {
		return func(y float64) float64 {
			cab := p.hasFoot && y > p.foot.y
			from := s.back.value(y)
			if cab {
				from = s.rear.value(y)
			}
			half, _, _ := s.surface(from-.45, y, cab)
			return math.Max(.1, half-inset)
		}
	}
	switch s.form {
	case segments.ThreeBox:
		return []Line{s.window("rear-screen", false, span{p.foot.y + .05, math.Min(p.roofEnd.y-.03, p.screenTop.y-.02)}, 7, wide(frame)), s.lid()}
	case segments.Bed:
		return []Line{s.window("rear-screen", false, span{p.foot.y + .09, p.screenTop.y - .02}, 7, wide(frame))}
	case segments.TwoBox, segments.OneBox:
		belt := float64(s.Plan.BeltAt(s.Plan.Tail))
		return []Line{s.window("rear-screen", false, span{belt + .03, math.Min(p.deckEnd.y, float64(s.Plan.Height)) - .10}, 7, wide(frame))}
	}
	return nil
}

// lid is the shut line of a boot: from the feet of the rear screen over the deck and down the tail.
func (s *Solid) lid() Line {
	p := &s.places
	l := Line{Name: "lid", surface: true}
	half := s.width / 2 * (s.shape.RearLampReach + .12)
	low := float64(s.Anatomy.RearLamp.Min.Y) - .16
	const steps = 40
	for _, side := range []float64{1, -1} {
		var run Line
		for i := range steps + 1 {
			run.topPoint(s, mix(p.foot.x+.02, p.deckEnd.x-.05, float64(i)/steps), side*half)
		}
		for i := range steps + 1 {
			run.endPoint(s, mix(p.deckEnd.y-.05, low, float64(i)/steps), side*half, false)
		}
		if side > 0 {
			l.Points, l.outs = run.Points, run.outs
			continue
		}
		for i := len(run.Points) - 1; i >= 0; i-- {
			l.Points, l.outs = append(l.Points, run.Points[i]), append(l.outs, run.outs[i])
		}
	}
	return l
}

// wellLines are the edges of a bed or cockpit, and an open car's screen frame.
func (s *Solid) wellLines() []Line {
	const steps = 60
	var out []Line
	o, half := s.places.opening, s.wellHalf()
	edge := Line{Name: "well"}
	add := func(x, z float64) {
		edge.Points = append(edge.Points, point3(x, s.top.value(x), z))
		edge.outs = append(edge.outs, Point3{Y: 1})
	}
	for i := range steps + 1 {
		add(mix(o.lo, o.hi, float64(i)/steps), half)
	}
	for i := range steps + 1 {
		add(mix(o.hi, o.lo, float64(i)/steps), -half)
	}
	edge.Points, edge.outs, edge.Closed = append(edge.Points, edge.Points[0]), append(edge.outs, edge.outs[0]), true
	out = append(out, edge)
	from, to := s.places.foot.x, float64(s.Plan.Tail)-1e-4
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
		out = append(out, l)
		if s.form == segments.Open {
			out = append(out, s.frameEdge(side))
		}
	}
	return out
}

// frameEdge is the rear edge of an open car's screen frame, from the belt up and in along the rail to the centre.
func (s *Solid) frameEdge(side geom.Wheels) Line {
	const steps = 60
	l := Line{Name: sided("frame", side)}
	p := &s.places
	depth := math.Min(float64(s.shape.RoofCrown), .8*(p.framePeak.y-p.frameFoot.y))
	for i := range 2*steps + 1 {
		y := mix(p.frameFoot.y+.01, p.framePeak.y-depth, float64(i)/steps)
		if i > steps {
			y = p.framePeak.y - inverse(2-float64(i)/steps, depth, crownSquare)
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
