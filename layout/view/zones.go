package view

import (
	"hubrule/internal/geom"
	"hubrule/segments"
)

// zone is a stretch of the body whose sections are built alike.
type zone struct {
	from, to float64
	cab      bool                       // what stands on the deck or bed
	shift    func(x, y float64) float64 // where the section that is called x stands at height y: it leans as nose and tail do
	under    func(x, y float64) float64 // how far (x, y) lies under the zone's upper end
	floor    float64                    // lower end; 0: the body's lower edge
}

// zones lists the stretches of this vehicle from front to rear.
func (s *Solid) zones() []zone {
	p := &s.places
	nose, tail := float64(s.plan.Nose()), float64(s.plan.Tail())
	noseEnd, tailEnd := nose+s.nose.depth, tail-s.tail.depth
	upright := func(x, _ float64) float64 { return x }
	toTop := func(x, y float64) float64 { return s.top.value(x) - y }
	leanFront := func(x, y float64) float64 {
		return x + float64(fade(p.cowl.x, noseEnd, x)*(s.face.value(y)-nose))
	}
	leanRear := func(from float64) func(x, y float64) float64 {
		return func(x, y float64) float64 { return x + float64(fade(from, tailEnd, x)*(s.back.value(y)-tail)) }
	}
	// Bonnet and roof keep a hair off the screen: at cowl and header themselves the section is the screen's.
	roof := p.head.x + 1e-6
	front := zone{from: nose, to: p.cowl.x - 1e-6, shift: leanFront, under: toTop}
	screen := zone{from: p.cowl.x, to: p.head.x, shift: upright, under: func(x, y float64) float64 {
		switch {
		case y <= p.cowl.y:
			return 1
		case y >= p.head.y:
			return p.head.y - y
		}
		return x - s.screen.value(y)
	}}
	switch {
	case s.form == segments.Open:
		return []zone{front,
			{from: p.cowl.x, to: p.opening.hi, shift: upright, under: toTop},
			{from: p.opening.hi, to: tail, shift: leanRear(p.opening.hi), under: toTop}}
	case !p.hasFoot:
		return []zone{front, screen, {from: roof, to: tail, shift: leanRear(p.head.x), under: toTop}}
	}
	bowEnd := p.foot.x - s.bow.depth
	leanScreen := func(x, y float64) float64 {
		return x + float64(fade(p.head.x, bowEnd, x)*(s.rear.value(y)-p.foot.x))
	}
	toRoof := func(x, y float64) float64 { return s.roof.value(x) - y }
	toShelf := func(_, y float64) float64 { return p.foot.y - y }
	return []zone{front, screen,
		{from: roof, to: p.foot.x, cab: true, shift: leanScreen, under: toRoof, floor: p.foot.y},
		{from: p.head.x, to: p.foot.x, shift: upright, under: toShelf},
		{from: p.foot.x, to: tail, shift: leanRear(p.foot.x), under: toTop}}
}

// fade runs straight from 0 at a to 1 at b, whichever way round, and stays there.
func fade(a, b, v float64) float64 { return geom.Clamp((v-a)/(b-a), 0, 1) }
