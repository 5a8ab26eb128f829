package reading_test

import (
	"math"
	"math/rand/v2"

	"hubrule/segments"
	"hubrule/segments/reading"
)

// What follows takes photographs of invented vehicles. It shares no code with the reader: it has a pinhole camera of its own, vehicles given by
// points in space, and silhouettes that are searched for.

// point is a place in space, in wheels: x rearwards from the front axle, y up from the road, z from the centre plane towards the camera.
type point [3]float64

func (p point) plus(q point, times float64) point {
	return point{p[0] + times*q[0], p[1] + times*q[1], p[2] + times*q[2]}
}

func (p point) dot(q point) float64 { return p[0]*q[0] + p[1]*q[1] + p[2]*q[2] }

// pinhole is a camera.
type pinhole struct {
	eye, right, down, forward point
	focal                     float64 // pixels
	axis                      [2]float64
}

// lookAlong returns a camera at eye; yaw is from square-on and positive where it looks ahead, pitch down, roll clockwise; radians.
func lookAlong(eye point, yaw, pitch, roll, focal float64) pinhole {
	forward := point{-math.Sin(yaw) * math.Cos(pitch), -math.Sin(pitch), -math.Cos(yaw) * math.Cos(pitch)}
	right := point{math.Cos(yaw), 0, -math.Sin(yaw)} // level
	down := point{
		forward[1]*right[2] - forward[2]*right[1], forward[2]*right[0] - forward[0]*right[2], forward[0]*right[1] - forward[1]*right[0],
	}
	c := pinhole{eye: eye, forward: forward, focal: focal}
	c.right = point{}.plus(right, math.Cos(roll)).plus(down, math.Sin(roll))
	c.down = point{}.plus(down, math.Cos(roll)).plus(right, -math.Sin(roll))
	return c
}

// see returns the pixel at which p lies.
func (c *pinhole) see(p point) [2]float64 {
	d := p.plus(c.eye, -1)
	depth := d.dot(c.forward)
	return [2]float64{c.axis[0] + c.focal*d.dot(c.right)/depth, c.axis[1] + c.focal*d.dot(c.down)/depth}
}

// outermost returns the pixel of the curve for u from -1 to 1 that lies farthest along a direction of the picture.
func (c *pinhole) outermost(curve func(u float64) point, along [2]float64) [2]float64 {
	how := func(u float64) float64 { p := c.see(curve(u)); return p[0]*along[0] + p[1]*along[1] }
	best := -1.
	for u := -1.; u <= 1; u += 1. / 64 {
		if how(u) > how(best) {
			best = u
		}
	}
	lo, hi := max(-1, best-1./64), min(1, best+1./64)
	for range 60 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if how(a) < how(b) {
			lo = a
		} else {
			hi = b
		}
	}
	return c.see(curve((lo + hi) / 2))
}

// shape is an invented kind of vehicle: lengths in wheels, angles in degrees.
type shape struct {
	tyre                                                                                                        float64 // mm
	wheelbase, front, rear, height, sill, ratio, width, aim, rake, glassEnd, lamp, lampDepth, cowl, clear, rise float64
}

var shapes = map[string]shape{
	"suv":       {739, 4.00, .55, .72, 2.35, .38, .50, 2.53, .90, 34, .00, 1.13, .16, 1.60, .27, 1.2},
	"hatchback": {632, 4.14, .91, .75, 2.32, .32, .55, 2.81, 1.05, 30, .00, 1.00, .16, 1.50, .25, 2.5},
	"sedan":     {658, 4.26, .88, 1.15, 2.21, .29, .54, 2.80, .91, 29, -.20, .94, .16, 1.43, .23, 1.2},
	"sports":    {694, 3.77, .90, .84, 1.84, .22, .51, 2.71, .64, 27, -.45, .79, .14, 1.18, .17, 1.5},
}

// vehicle is one vehicle: the points that get marked, and what is true of it.
type vehicle struct {
	shape
	half, plane, track, ratioOfTyres, sink float64 // plane: z of the near tyres' outer edge
	nose, tail, crown                      float64 // roundness
	spots                                  map[reading.Name][]spot
	true                                   map[segments.Figure]float64
}

// spot is a place of the side view with how far inside half the width it lies.
type spot struct{ x, y, inboard float64 }

// normal is a normal deviate about a mean that is not less than a bound.
func normal(r *rand.Rand, mean, sd, least float64) float64 {
	for {
		if x := mean + sd*r.NormFloat64(); x >= least {
			return x
		}
	}
}

// build draws a vehicle of a kind: every length a little off the kind's, everything that the reader assumes drawn about its assumption.
func build(r *rand.Rand, s shape) *vehicle {
	for _, x := range []*float64{&s.wheelbase, &s.front, &s.rear, &s.height, &s.sill, &s.ratio, &s.cowl} {
		*x *= .97 + .06*r.Float64()
	}
	v := &vehicle{shape: s}
	v.half = s.width / 2 * normal(r, 1, .03, .8)
	v.plane = v.half - normal(r, .05, .025, -.1)
	v.track = .855 * s.width * normal(r, 1, .04, .8)
	v.ratioOfTyres = normal(r, 1, .003, .9)
	v.sink = normal(r, .012, .008, 0)
	v.nose, v.tail, v.crown = normal(r, .25, .10, .04), normal(r, .12, .06, .02), normal(r, .06, .02, .015)
	v.place(r)
	v.measure()
	return v
}

// beltAt is the height of the belt line.
func (v *vehicle) beltAt(x float64) float64 {
	side := (v.height - v.sill) / (1 + v.ratio)
	return v.sill + side + (x-v.wheelbase/2)*math.Tan(v.rise*math.Pi/180)
}

// place sets the points that get marked. The depths are those that docs and the reader's table give.
func (v *vehicle) place(r *rand.Rand) {
	at := func(x, y, inboard, sd float64) spot { return spot{x, y, inboard + sd*r.NormFloat64()} }
	base, slope := v.wheelbase, math.Tan(v.rake*math.Pi/180)
	low := (v.beltAt(0) - v.aim) / (slope - math.Tan(v.rise*math.Pi/180))
	high := (v.height - .1 - v.aim) / slope
	tail, nose := base+v.ratioOfTyres/2+v.rear, -.5-v.front
	v.spots = map[reading.Name][]spot{
		reading.BeltLine:   {at(.3*base, v.beltAt(.3*base), .05, .04), at(.72*base, v.beltAt(.72*base), .05, .04)},
		reading.SillEdge:   {at(base/2, v.sill, .04, .04)},
		reading.Lowest:     {at(base/2, v.clear, .35, .3)},
		reading.APillar:    {at(low, v.aim+slope*low, .14, .06), at(high, v.height-.1, .36, .08)},
		reading.GlassEnd:   {at(base+v.ratioOfTyres/2+v.glassEnd, v.beltAt(base)+.1, .16, .07)},
		reading.FrontLamp:  {at(nose+.25*v.front, v.lamp, .15, .08), at(nose+.3*v.front, v.lamp+v.lampDepth, .15, .08)},
		reading.RearLamp:   {at(tail-.2, v.lamp+.2, .15, .08), at(tail-.22, v.lamp+.4, .15, .08)},
		reading.Cowl:       {at(low-.15, v.cowl, .45, .2)},
		reading.Header:     {at(high+.1, v.height-.07, .45, .2)},
		reading.BonnetEdge: {at(nose+.2, v.cowl-.35, .45, .3)},
		reading.Deck:       {at(base, v.cowl, .25, .2)},
		reading.TailFoot:   {at(base+.2, v.cowl, .45, .3)},
		reading.ArchFront:  {at(0, 1.08, .02, .03)},
		reading.ArchRear:   {at(base, v.ratioOfTyres+.08, .02, .03)},
	}
}

// measure sets the true figures.
func (v *vehicle) measure() {
	q := v.ratioOfTyres
	v.true = map[segments.Figure]float64{
		segments.Wheelbase: v.wheelbase, segments.WheelsBetween: v.wheelbase - .5 - q/2,
		segments.FrontOverhang: v.front, segments.RearOverhang: v.rear, segments.Length: v.front + .5 + v.wheelbase + q/2 + v.rear,
		segments.Height: v.height, segments.Belt: v.beltAt(v.wheelbase / 2), segments.Sill: v.sill, segments.GreenhouseToBody: v.ratio,
		segments.BeltRise: v.rise, segments.PillarAim: v.aim, segments.PillarRake: v.rake, segments.GlassEnd: v.glassEnd,
		segments.FrontLamp: v.lamp, segments.RearLamp: v.lamp + .2, segments.LampDepth: v.lampDepth, segments.ArchGap: .08,
		segments.Cowl: v.cowl, segments.ScreenBase: v.spots[reading.Cowl][0].x, segments.Clearance: v.clear,
		segments.HeaderDrop: .07, segments.BonnetEdge: v.cowl - .35, segments.Deck: v.cowl, segments.TailFoot: .2,
		segments.Chin: v.sill + .05, segments.ChinSetback: .06, segments.TailLow: v.sill + .15, segments.TailSetback: .1,
	}
}

// end returns the plan curve of nose or tail: way -1 or 1, at a height, retreated from the outermost by so much, and outermost at a
// distance from the centre plane of which a deviation is given.
func (v *vehicle) end(r *rand.Rand, way, y, retreat, sd float64) func(u float64) point {
	x, g := -.5-v.front, v.nose
	if way > 0 {
		x, g = v.wheelbase+v.ratioOfTyres/2+v.rear, v.tail
	}
	off := sd * r.NormFloat64()
	return func(u float64) point { return point{x - way*(retreat+g*u*u), y, off + u*v.half} }
}

// roofline returns a section of the roof at mid-wheelbase.
func (v *vehicle) roofline(u float64) point {
	return point{v.wheelbase / 2, v.height - v.crown*u*u, u * (v.half - .38)}
}
