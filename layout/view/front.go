package view

import (
	"math"

	"hubrule/segments"
)

// cowl is where the screen meets the bonnet, from A-pillar to A-pillar.
func (s *Solid) cowl() Line {
	const steps = 48
	l := Line{Name: "cowl", Kind: GlassLine}
	cowl := s.places.cowl
	for i := range steps + 1 {
		share := float64(2*i)/steps - 1
		y := cowl.y
		if i > 0 && i < steps {
			y = root(cowl.y-underCowl, cowl.y, func(y float64) float64 {
				q := s.onScreen(place{y, share})
				if float64(q.X) > cowl.x {
					return -1
				}
				half := s.halfOf(float64(q.X), y, false)
				return half - math.Abs(float64(q.Z))
			})
		}
		q := place{y, share}
		l.Points = append(l.Points, s.onScreen(q))
		l.outs = append(l.outs, s.screenNormal(q).Add(Point3{Y: 1}).Unit())
	}
	return l
}

// bonnet is the bonnet's leading edge, parallel to the nose in plan and as wide as the lamps leave room, and its shut lines to the
// feet of the A-pillars: one line, softened in plan and lifted to the surface.
func (s *Solid) bonnet() Line {
	const half, leastBehind, mostBehind, overLamps = 40, .03, .6, .10
	p, n := &s.places, s.shape
	full := s.halfOf(p.edge.x+float64(n.NoseLength), p.edge.y-.03, false)
	wide := math.Min(s.width/2*(n.LampReach+overLamps), .95*full)
	behind := leastBehind
	lead := func(t float64) place {
		z := t * wide
		return place{p.edge.x + behind + inverse(math.Abs(z)/full, float64(n.NoseLength), n.NoseSquare), z}
	}
	// A low nose carries its lamps in its upper surface: the bonnet begins behind them.
	lamp := s.anatomy.FrontLamp
	clears := float64(lamp.Min.Y + .85*lamp.Height())
	for behind < mostBehind && s.topAt(lead(1).x, wide) < clears {
		behind += .02
	}
	corner, foot := lead(1), place{p.cowl.x - .06, .94 * s.cowlHalf}
	corner.x = math.Min(corner.x, foot.x-.1)
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
	l := Line{Name: "bonnet", Kind: DetailLine, surface: true}
	for _, q := range softened(plan, .03, 30) {
		l.topPoint(s, q.x, q.y)
	}
	return l
}

// bumperAt is the height of the bumper's upper edge: half way from the lower corner to the lamp, at both ends.
func (s *Solid) bumperAt(front bool) float64 {
	if front {
		return mix(s.places.chin.y, float64(s.anatomy.FrontLamp.Min.Y), .55)
	}
	return mix(s.places.heel.y, float64(s.anatomy.RearLamp.Min.Y), .5)
}

// bumper is the bumper's upper edge across nose or tail and round the corners to the arches.
func (s *Solid) bumper(name string, front bool) Line {
	y := s.bumperAt(front)
	arch, side := s.anatomy.FrontArch, -1.
	if !front {
		arch, side = s.anatomy.RearArch, 1.
	}
	rise := y - float64(arch.Centre.Y)
	reach := math.Sqrt(math.Max(0, float64(arch.Radius*arch.Radius)-float64(rise*rise)))
	of := lens{front: front, x: float64(arch.Centre.X) + float64(side*(reach+.02+float64(s.plan.Profile.Shape.Cladding)))}
	var half Line
	for _, q := range s.strip(of, y, y) {
		half.on(s, q, 1)
	}
	l := Line{Name: name, Kind: DetailLine, surface: true, arched: true}
	l.addMirrored(half)
	l.add(half)
	return l
}

// faceLines are what tells a face: bumper, opening for air and number plate. They repeat no figure; sizes are judged by eye.
func (s *Solid) faceLines() []Line {
	out := []Line{s.bumper("bumper-front", true)}
	bumper, chin := s.bumperAt(true), s.places.chin.y
	lamp, half := s.anatomy.FrontLamp, s.width/2
	upper := span{bumper + .05, math.Min(s.places.edge.y-.10, float64(lamp.Min.Y)+float64(.8*lamp.Height()))}
	if s.form == segments.Fastback || s.form == segments.Open || upper.hi-upper.lo < .12 {
		upper = span{mix(chin, bumper, .25), mix(chin, bumper, .85)} // a low nose takes its air under the bumper
	}
	wide := half*s.shape.LampReach - .10
	out = append(out, s.window("grille", true, upper, 9, func(float64) float64 { return wide }))
	return append(out, s.plate("plate-front", true, mix(chin, bumper, .62)))
}

// plate is a number plate of the common European size, 520 × 110 mm (MEM), upright on nose or tail round height y.
func (s *Solid) plate(name string, front bool, y float64) Line {
	wheel := s.plan.Value(segments.Wheel)
	wide, high := 260/wheel, 55/wheel
	return s.window(name, front, span{y - high, y + high}, 24, func(float64) float64 { return wide })
}
