package outline

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

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
