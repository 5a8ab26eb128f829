package outline

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

// doors returns the shut lines: the quietest hints of the outline.
func (b *body) doors() layout.Path {
	if b.shape.Doors == 0 {
		return nil
	}
	path := b.frontShut()
	behind := slices.DeleteFunc(slices.Clone(b.shape.Pillars), func(p segments.Pillar) bool { return p.At <= 0 })
	low := b.doorFoot()
	if b.shape.Doors == 2 {
		return append(path, b.twoDoorEnd(low)...)
	}
	end := min(geom.Wheels(float64(b.Wheelbase())*b.shape.DoorEnd), b.GlassEnd()-.10)
	if len(behind) > 0 {
		x := b.pillarAt(behind[0].At) + geom.Wheels(.3*behind[0].Width)
		path = path.Move(b.onBelt(x)).Line(point{X: x + .03, Y: low + .01})
	}
	if len(behind) > 1 {
		end = b.pillarAt(behind[1].At) + behind[1].Width/2
	}
	return append(path, b.rearShut(end, low)...)
}

// doorFoot is the height at which the doors end, above the sill.
func (b *body) doorFoot() geom.Wheels { return b.sillLine() + .035 }

// frontShut is the front door's leading edge: from the pillar's foot down, leaning to the front arch.
func (b *body) frontShut() layout.Path {
	foot := b.PillarFoot().X + .07
	top := point{X: foot, Y: b.BeltAt(foot) - .01}
	low := point{X: max(b.FrontArch()+.14, top.X-.32), Y: b.doorFoot()}
	return openPath([]cubic{geom.Bowed(low, top, .035).Elevate()})
}

// twoDoorEnd is the trailing edge of the only door on a side.
func (b *body) twoDoorEnd(low geom.Wheels) layout.Path {
	x := min(geom.Wheels(float64(b.Wheelbase())*b.shape.DoorEnd), b.Wheelbase()-b.RearArch()-.06)
	y := b.BeltAt(x)
	return layout.Path{}.Move(point{X: x + .03, Y: y}).
		Curve(point{X: x + .06, Y: y - .3}, point{X: x + .02, Y: y + geom.Wheels(.7*(low-y))}, point{X: x - .03, Y: low})
}

// rearShut is the rear door's trailing edge: straight down, then round the arch.
func (b *body) rearShut(x, low geom.Wheels) layout.Path {
	a := b.rearArch()
	a.Radius += max(.09, b.shape.Cladding+.05)
	if x < b.Wheelbase()-a.Radius+.02 {
		return layout.Path{}.Move(b.onBelt(x)).Line(point{X: x + .02, Y: low})
	}
	x = min(x, b.Wheelbase()-a.Radius/4)
	top := b.onBelt(x)
	meet := math.Pi - math.Acos(float64((b.Wheelbase()-x)/a.Radius))
	a.From, a.To = meet+.16/float64(a.Radius), math.Pi-a.angle(low+.01)
	knee := point{X: x + .01, Y: a.at(meet).Y + .20}
	if knee.Y > top.Y-.02 || a.To < a.From {
		knee.Y = top.Y - .02
	}
	path := layout.Path{}.Move(top).Line(knee)
	path = join(path, lineEnd(top, knee, knee), a.end(a.From))
	return path.Arc(a.Radius, false, true, a.at(a.To))
}

// slide returns the rail of a sliding door.
func (b *body) slide() layout.Path {
	if b.shape.Slide == (segments.Range{}) {
		return nil
	}
	at := func(share float64) geom.Wheels { return geom.Wheels(share * float64(b.Wheelbase())) }
	y := b.BeltAt(b.Wheelbase()) - .11
	return layout.Path{}.Move(point{X: at(b.shape.Slide.Lo), Y: y}).Line(point{X: at(b.shape.Slide.Hi), Y: y + .01})
}

// intake returns the air intake ahead of the rear arch.
func (b *body) intake() layout.Path {
	if !b.shape.Intake {
		return nil
	}
	high := b.intakeTop()
	low, back := high.Add(point{X: -.03, Y: -.36}), high.Add(point{X: .37, Y: .02})
	return closedPath(geom.Blend(
		[]quad{geom.Bowed(low, high, -.01), geom.Bowed(high, back, 0), geom.Bowed(back, low, -.03)},
		[]segments.Fillet{{Before: .05, After: .05}, {Before: .03, After: .05}, {Before: .05, After: .05}}))
}

// intakeTop is the upper front corner of the air intake.
func (b *body) intakeTop() point {
	x := b.Wheelbase() - b.RearArch() - .27
	return point{X: x, Y: b.BeltAt(x) - .10}
}

// bedGap returns the gap between cab and bed, down to the arch or the sill.
func (b *body) bedGap() layout.Path {
	if b.Profile.Form != segments.Bed {
		return nil
	}
	x := b.foot.X + .035
	low := b.sillLine() + .03
	if dx := float64(x - b.Wheelbase()); math.Abs(dx) < float64(b.RearArch()) {
		low = b.RearRadius() + geom.Wheels(math.Sqrt(float64(b.RearArch()*b.RearArch())-float64(dx*dx))) + .015
	}
	return layout.Path{}.Move(point{X: x, Y: b.Deck() - .02}).Line(point{X: x, Y: low})
}

// frontLamp returns the front lens. It follows the guide's base, lower where the bonnet's drawn line leaves no room,
// its front edge just inside the drawn face and its upper edge under the drawn bonnet.
func (b *body) frontLamp() layout.Path {
	s := b.shape
	const inFace, underBonnet geom.Wheels = .025, .045
	deep, long := s.LampDepth, s.LampLength
	base := min(b.FrontLamp(), b.BonnetEdge()-.04-geom.Wheels(.45*deep))
	frontAt := func(y geom.Wheels) geom.Wheels { x, _ := extentAt(b.polyline, y); return x }
	low := point{X: frontAt(base) + inFace, Y: base}

	// The upper front corner moves back until the bonnet stands high enough over it.
	y := min(base+geom.Wheels(.72*deep), b.BonnetEdge()-.05)
	x := max(frontAt(y)+inFace+.005, low.X+.02)
	for range 100 {
		if heightAt(b.polyline, x)-underBonnet >= base+geom.Wheels(.4*deep) {
			break
		}
		x += .01
	}
	high := point{X: x, Y: min(y, heightAt(b.polyline, x)-underBonnet)}
	x = max(low.X+geom.Wheels(.94*long), high.X+.12)
	top := point{X: x, Y: min(base+geom.Wheels(1.05*deep), heightAt(b.polyline, x)-underBonnet)}
	back := point{X: max(low.X+long, top.X+.02)}
	back.Y = min(max(base+.06, top.Y-geom.Wheels(float64(deep)*s.LampTail)), top.Y-.035)

	mid := high.Lerp(top, .5)
	bow := max(-.01, min(.02, heightAt(b.polyline, mid.X)-underBonnet-mid.Y))
	return closedPath(geom.Blend([]quad{
		geom.Bowed(low, high, 0), geom.Bowed(high, top, bow), geom.Bowed(top, back, 0), geom.Bowed(back, low, .006),
	}, []segments.Fillet{{Before: .04, After: .05}, {Before: .05, After: .03}, {Before: .03, After: .05}, {Before: .05, After: .04}}))
}

// rearLamp returns the rear lens, just inside the drawn tail and below the deck.
func (b *body) rearLamp() layout.Path {
	s := b.shape
	const inTail, underDeck geom.Wheels = .02, .06
	deep, long := s.RearLampDepth, s.RearLampLength
	base := b.RearLamp() + (b.LampDepth()-deep)/2 // about the guide's box
	if b.hasDeck() || b.isOpen() || b.Profile.Form == segments.Fastback {
		base = min(base, b.tailTop.Y-underDeck-deep) // a tailgate goes on above the shoulder, a boot ends
	}
	rearAt := func(y geom.Wheels) geom.Wheels { _, x := extentAt(b.polyline, y); return x }
	low := point{X: rearAt(base) - inTail, Y: base}
	high := point{X: rearAt(base+deep) - inTail, Y: base + deep}
	highFront := point{X: high.X - long, Y: high.Y + .02}
	lowFront := point{X: low.X - geom.Wheels(.8*long), Y: base + .02 + geom.Wheels(.15*deep)}
	return closedPath(geom.Blend([]quad{
		geom.Bowed(low, lowFront, 0), geom.Bowed(lowFront, highFront, 0), geom.Bowed(highFront, high, .006), geom.Bowed(high, low, 0),
	}, []segments.Fillet{{Before: .05, After: .04}, {Before: .04, After: .05}, {Before: .04, After: .04}, {Before: .04, After: .04}}))
}

// bounds returns the box of a path's lines, true to their curves.
func bounds(path layout.Path) geom.Box[geom.Wheels] {
	return geom.BoundsOf(slices.Concat(path.Cubics()...))
}

// shoulder returns the line that runs from behind the front arch into the rear lamp, or into the air intake.
func (b *body) shoulder(rearLamp layout.Path) layout.Path {
	s := b.shape
	slope := (b.BeltRise() + s.ShoulderWedge).Tan()
	on := func(x geom.Wheels) point {
		return point{X: x, Y: b.Belt() - s.ShoulderDrop + geom.Wheels(slope*float64(x-b.Wheelbase()/2))}
	}
	lamp := bounds(rearLamp)
	from, to := on(.75*b.FrontArch()), on(lamp.Min.X-.03)
	from.Y = min(from.Y, heightOn(b.bonnet, from.X)-.10)
	to.Y = min(to.Y, lamp.Max.Y)
	if s.Intake {
		to = b.intakeTop()
	}
	return openPath([]cubic{geom.Bowed(from, to, .02).Elevate()})
}

// rocker returns the line above the sill that turns the body side under.
func (b *body) rocker() layout.Path {
	const rise, clear geom.Wheels = .03, .03
	y := b.sillLine() + b.shape.Rocker
	front, rear := b.frontArch(), b.rearArch()
	from := front.at(front.angle(y)).Add(point{X: clear})
	to := rear.at(rear.angle(y + rise))
	to.X = 2*rear.Centre.X - to.X - clear
	return openPath([]cubic{geom.Bowed(from, to, -.01).Elevate()})
}
