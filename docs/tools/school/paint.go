package main

import (
	"image"
	"image/color"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout/view"
)

// rgb is a colour with room for sums.
type rgb [3]float64

func (c rgb) times(x float64) rgb { return rgb{c[0] * x, c[1] * x, c[2] * x} }
func (c rgb) mix(d rgb, t float64) rgb {
	t = math.Max(0, math.Min(1, t))
	return rgb{c[0] + (d[0]-c[0])*t, c[1] + (d[1]-c[1])*t, c[2] + (d[2]-c[2])*t}
}

var (
	skyHigh = rgb{178, 198, 214}
	skyLow  = rgb{222, 227, 226}
	hedge   = rgb{128, 138, 124}
	road    = rgb{150, 148, 145}
	rubber  = rgb{34, 35, 37}
	alloy   = rgb{196, 200, 204}
	dark    = rgb{20, 21, 23}
	glass   = rgb{46, 54, 60}
	light   = view.Point3{X: -.35, Y: .80, Z: .50}.Unit()
)

// painter paints what a camera sees of a body.
type painter struct {
	*relief
	camera
	scene *view.Scene
	paint rgb
}

// pixels paints the picture: a sample a pixel, and four where neighbours differ.
func (p *painter) pixels() *image.RGBA {
	coarse := make([]rgb, p.width*p.height)
	for i := range coarse {
		coarse[i] = p.sample(float64(i%p.width)+.5, float64(i/p.width)+.5)
	}
	out := image.NewRGBA(image.Rect(0, 0, p.width, p.height))
	for i, c := range coarse {
		x, y := i%p.width, i/p.width
		if (x > 0 && c.apart(coarse[i-1])) || (y > 0 && c.apart(coarse[i-p.width])) ||
			(x+1 < p.width && c.apart(coarse[i+1])) || (y+1 < p.height && c.apart(coarse[i+p.width])) {
			c = rgb{}
			for k := range 4 {
				s := p.sample(float64(x)+.25+.5*float64(k%2), float64(y)+.25+.5*float64(k/2))
				c = rgb{c[0] + s[0]/4, c[1] + s[1]/4, c[2] + s[2]/4}
			}
		}
		out.SetRGBA(x, y, color.RGBA{uint8(c[0] + .5), uint8(c[1] + .5), uint8(c[2] + .5), 255})
	}
	return out
}

// apart reports whether two colours differ visibly.
func (c rgb) apart(d rgb) bool {
	const step = 6
	return math.Abs(c[0]-d[0])+math.Abs(c[1]-d[1])+math.Abs(c[2]-d[2]) > step
}

// sample paints one line of sight. What the half-widths add to the body outside its silhouette is left out.
func (p *painter) sample(x, y float64) rgb {
	ray := p.ray(x, y)
	at := view.ImagePoint{X: view.ImageLength((x - p.centre.X) / p.focal), Y: view.ImageLength((y - p.centre.Y) / p.focal)}
	if !p.scene.Covers(at) {
		return p.behind(ray)
	}
	h := p.meet(p.Eye, ray, p.sunk)
	if h.part != nothing {
		return p.surface(h)
	}
	switch at := p.Eye.Add(ray.Times(-float64(p.Eye.Z) / float64(ray.Z))); {
	case p.isScreen(at):
		return glass
	case at.Y > p.plan.Belt():
		return p.paint.times(.6) // a fitting of the other side
	}
	return p.behind(ray)
}

// isScreen reports whether a place is ahead of the A-pillars, where the screen bows.
func (p *painter) isScreen(at view.Point3) bool {
	foot := p.plan.PillarFoot()
	ahead := foot.X + (at.Y-foot.Y)/geom.Wheels(p.plan.PillarRake().Tan()) - at.X
	return at.Y > p.plan.Cowl()+.02 && ahead > .02 && ahead < 1
}

// behind paints the road and what stands behind it.
func (p *painter) behind(ray view.Point3) rgb {
	rise := float64(ray.Y) / math.Hypot(float64(ray.X), float64(ray.Z))
	switch {
	case rise > .012:
		return skyLow.mix(skyHigh, rise*6)
	case rise > -.004:
		return hedge
	}
	at := p.Eye.Add(ray.Times((p.sunk - float64(p.Eye.Y)) / float64(ray.Y)))
	far := float64(p.Eye.Z-at.Z) / float64(p.Eye.Z)
	return road.mix(rgb{176, 177, 172}, (far-1.1)*.12).mix(dark, p.shadow(at))
}

// shadow returns how dark the road is under the body.
func (p *painter) shadow(at view.Point3) float64 {
	nose, tail := float64(p.plan.Nose())+.15, float64(p.plan.Tail())-.15
	dx := math.Max(0, math.Max(nose-float64(at.X), float64(at.X)-tail))
	dz := math.Max(0, math.Abs(float64(at.Z))-p.widest+.12)
	soft := 1 - math.Hypot(dx, dz)/.45
	soft = math.Max(0, soft)
	return .82 * soft * soft
}

// surface paints the vehicle where it is hit.
func (p *painter) surface(h hit) rgb {
	switch h.part {
	case house:
		return dark
	case farTyre:
		return rubber.times(.8)
	case nearTyre:
		return p.tyre(h)
	}
	n := p.normal(h.p)
	under := float64(p.plan.Sill()) + .02
	if float64(h.p.Y) < under && float64(n.Y) < -.8 {
		return dark
	}
	if p.isScreen(h.p) {
		return glass
	}
	diffuse := math.Max(0, n.Dot(light))
	c := p.paint.times(.42 + .62*diffuse)
	up := float64(n.Y)
	if up > 0 { // the sky in the paint
		return c.mix(skyLow, .10+.45*up*up)
	}
	return c.mix(road.times(.45), .5*math.Min(1, -up*2))
}

// tyre paints a near tyre and its rim of five spokes.
func (p *painter) tyre(h hit) rgb {
	w := p.wheels[h.wheel]
	dx, dy := float64(h.p.X-w.Centre.X), float64(h.p.Y-w.Centre.Y)
	rim := p.plan.Rim()
	if h.wheel == 1 {
		rim = p.plan.RearRim()
	}
	share := math.Hypot(dx, dy) / float64(w.Radius)
	if h.p.Z < w.Centre.Z-.001 {
		return rubber.times(.7)
	}
	switch inner := share / rim; {
	case inner > 1:
		return rubber.times(1 + .5*math.Exp(-60*(share-.93)*(share-.93)*10))
	case inner > .93:
		return alloy.times(.86)
	case inner < .2:
		return alloy.times(.9)
	default:
		angle := math.Atan2(dy, dx) + .3
		spoke := math.Abs(math.Mod(angle/(2*math.Pi)*5+10, 1) - .5)
		if spoke*inner < .10+.02*inner {
			return alloy.times(.95 - .15*inner)
		}
		return rubber.times(1.5)
	}
}

// loop turns a run of a camera's picture into pixels.
func (c *camera) loop(run []view.ImagePoint) []geom.Point[float64] {
	out := make([]geom.Point[float64], len(run))
	for i, q := range run {
		out[i] = geom.Point[float64]{X: c.centre.X + c.focal*float64(q.X), Y: c.centre.Y + c.focal*float64(q.Y)}
	}
	return out
}
