package layout

import (
	"hubrule/geom"
	"hubrule/segments"
)

// drawOpen adds the standing windscreen frame, the belt along the cockpit and the deck behind it,
// and draws the roof in its raised place as a line of its own.
func (b *body) drawOpen() {
	soft := b.shape.Soften
	const (
		drop   geom.Wheels = .08  // top of the frame below the raised roof
		header geom.Wheels = .13  // length of the frame's upper rail
		thick  geom.Wheels = .055 // of that rail
		foot   geom.Wheels = .17  // of the pillar along the belt: it widens downwards
	)
	cowl := b.bonnet[2]
	top := b.onPillar(max(b.Height-drop, cowl.Y+.2))
	end := top.Add(Point{X: header, Y: .012})
	under := end.Add(Point{X: .01, Y: -thick})
	inner := under.Add(Point{X: -header * .45, Y: -.012})
	beltFoot := b.beltBehind(foot)
	cockpit := b.cockpitEnd()
	b.add(geom.Bowed(cowl, top, b.shape.ScreenBow), segments.Soft{Before: .12, After: .07})
	b.add(geom.Bowed(top, end, .004), segments.Soft{Before: .03, After: .025})
	b.add(geom.Bowed(end, under, 0), segments.Soft{Before: .025, After: .02})
	b.add(geom.Bowed(under, inner, 0), segments.Soft{Before: .03, After: .05})
	b.add(geom.Bowed(inner, beltFoot, -.006), segments.Soft{Before: .16, After: .16})
	b.add(geom.Bowed(beltFoot, cockpit, 0), soft.Base)
	b.add(geom.Bowed(cockpit, b.tailTop, b.shape.DeckBow), soft.Deck)
	b.raiseRoof()
}

// beltBehind returns the point of the belt line that lies a step behind the A-pillar's line.
func (b *body) beltBehind(step geom.Wheels) Point {
	x := b.PillarFoot.X + step
	return Point{X: x, Y: b.BeltAt(x)}
}

// cockpitEnd returns the rear end of the cockpit's opening, on the belt.
func (b *body) cockpitEnd() Point {
	x := min(b.GlassEnd+b.shape.Cockpit, b.tailTop.X-.2)
	return Point{X: x, Y: b.BeltAt(x)}
}

// raiseRoof draws roof and rear screen as if the roof were up. The rear screen stands on the drawn deck.
func (b *body) raiseRoof() {
	soft := b.shape.Soften
	deck := b.lines[len(b.lines)-1]
	foot := b.foot
	if foot.X > deck[0].X {
		foot.Y = heightOn(deck, foot.X)
	} else {
		foot.Y = b.BeltAt(foot.X)
	}
	end := b.roofEnd(foot)
	roof := b.roof.Along(b.header.X, end.X)
	screen := geom.Bowed(b.bonnet[2], b.header, b.shape.ScreenBow)
	rear := geom.Bowed(end, foot, fitBow(end, foot, b.shape.GlassBow, roof, quad{}))
	run := geom.Chain([]quad{screen, roof, rear}, []segments.Soft{soft.Header, soft.Roof})
	b.roofUp = run[1:] // the screen is drawn already
}

// seats returns backrest and head restraint of every seat, as far as they stand above the belt.
func (b *body) seats() Path {
	var path Path
	for _, share := range b.shape.Seats {
		x := b.header.X + geom.Wheels(share*float64(b.GlassEnd-b.header.X))
		y := b.BeltAt(x)
		at := func(dx, dy geom.Wheels) Point { return Point{X: x + dx, Y: y + dy} }
		path = append(path, loop(geom.Loop([]quad{
			geom.Bowed(at(-.10, 0), at(-.02, .17), .01),
			geom.Bowed(at(-.02, .17), at(.20, .15), .01),
			geom.Bowed(at(.20, .15), at(.22, -.0), .01),
			geom.Bowed(at(.22, -.0), at(-.10, 0), 0),
		}, []segments.Soft{{Before: .06, After: .06}, {Before: .07, After: .07}, {}, {}}))...)
		path = append(path, loop(geom.Loop([]quad{
			geom.Bowed(at(.01, .19), at(.05, .36), .006),
			geom.Bowed(at(.05, .36), at(.17, .35), .004),
			geom.Bowed(at(.17, .35), at(.16, .18), .008),
			geom.Bowed(at(.16, .18), at(.01, .19), 0),
		}, []segments.Soft{{Before: .05, After: .04}, {Before: .04, After: .05}, {Before: .03, After: .03}, {Before: .03, After: .03}}))...)
	}
	return path
}
