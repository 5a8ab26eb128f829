package outline

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

// The windscreen frame of an open car, in wheels; judged by eye. A frame of one thickness reads as a bare stick:
// this one widens down to the belt and ends in a rail that begins the roof.
const (
	frameDrop  geom.Wheels = .08  // its top below the raised roof
	frameAhead geom.Wheels = .13  // its top ahead of the A-pillar's line
	frameRail  geom.Wheels = .23  // length of its upper rail
	frameHead  geom.Wheels = .055 // thickness of the rail
	cockpitBow geom.Wheels = .014 // of the cockpit's edge below the belt
	seatBelow  geom.Wheels = .30  // where the seats' backs begin under the belt
	frameFoot  geom.Wheels = .19  // width of the pillar along the belt
)

// drawOpen adds the standing windscreen frame, the belt along the cockpit, the cover and the deck behind it,
// and draws the roof in its raised place as a line of its own.
func (b *body) drawOpen() {
	soft := b.shape.Fillets
	cowl, cockpit := b.bonnet[2], b.cockpitEnd()
	top, end, under := b.frame()
	b.add(geom.Bowed(cowl, top, .03), segments.Fillet{Before: .09, After: .07})
	b.add(geom.Bowed(top, end, .006), segments.Fillet{Before: .05, After: .022})
	b.add(geom.Bowed(end, under, 0), segments.Fillet{Before: .02, After: .024})
	b.add(geom.Bowed(under, b.beltBehind(frameFoot), -.012), segments.Fillet{Before: .16, After: .20})
	b.add(geom.Bowed(b.beltBehind(frameFoot), cockpit, -cockpitBow), segments.Fillet{Before: .10, After: .16})
	b.add(geom.Bowed(cockpit, b.tailTop, b.shape.DeckBow), soft.Deck)
	b.raiseRoof()
}

// frame returns the corners of the frame's upper end: ahead of the pillar's line, behind it, and below that.
func (b *body) frame() (top, end, under point) {
	top = b.onPillar(max(b.Height()-frameDrop, b.bonnet[2].Y+.2)).Add(point{X: -frameAhead})
	end = top.Add(point{X: frameRail, Y: .012})
	return top, end, end.Add(point{X: -.006, Y: -frameHead})
}

// beltBehind returns the point of the belt line that lies a step behind the A-pillar's line.
func (b *body) beltBehind(step geom.Wheels) point {
	return b.onBelt(b.PillarFoot().X + step)
}

// cockpitEnd returns the rear end of the cockpit's opening, on the belt.
func (b *body) cockpitEnd() point {
	return b.onBelt(min(b.GlassEnd()+b.shape.Cockpit, b.tailTop.X-.5))
}

// raiseRoof draws roof and rear screen as if the roof were up. The rear screen stands on the drawn deck.
func (b *body) raiseRoof() {
	soft := b.shape.Fillets
	deck := b.lines[len(b.lines)-1]
	foot := b.onBelt(b.foot.X)
	if foot.X > deck[0].X {
		foot.Y = heightOn(deck, foot.X)
	}
	roof, rear := b.roofAndScreen(foot, quad{})
	run := geom.Blend([]quad{b.screen(roof), roof, rear}, []segments.Fillet{soft.Header, soft.Roof})
	b.roofUp = run[1:] // the screen is drawn already
}

// seats returns every seat's back with its head restraint above it, rear seats lower. They begin so far below the belt.
func (b *body) seats(below geom.Wheels) layout.Path {
	const lean geom.Wheels = .325 // 18° from the upright
	var path layout.Path
	for i, share := range b.shape.Seats {
		tall := geom.Wheels(.31)
		if i > 0 {
			tall = .22
		}
		x := min(b.pillarAt(share)+.06, b.cockpitEnd().X-.15)
		foot := point{X: x - lean*below, Y: b.BeltAt(x) - below}
		wide := .085 + geom.Wheels(.15*float64(below)) // half its thickness there
		up := point{X: lean, Y: 1}.Unit()
		across := point{X: up.Y, Y: -up.X}
		at := func(along, aside geom.Wheels) point {
			return foot.Add(up.Times(float64(along))).Add(across.Times(float64(aside)))
		}
		belt := below / up.Y
		neck, top := belt+geom.Wheels(.44*float64(tall)), belt+tall
		path = append(path, block(
			[4]point{at(-.3*wide, -wide), at(neck, -.085), at(neck-.012, .085), at(.3*wide, wide)},
			[4]segments.Fillet{{Before: .09, After: .05}, {Before: .05, After: .08}, {Before: .01, After: .01}, {Before: .01, After: .01}})...)
		path = append(path, block(
			[4]point{at(neck+.016, -.075), at(top, -.07), at(top-.012, .07), at(neck+.016, .075)},
			[4]segments.Fillet{{Before: .055, After: .05}, {Before: .05, After: .06}, {Before: .025, After: .03}, {Before: .03, After: .025}})...)
	}
	return path
}

// block is a closed shape of four straight sides with softened corners, the first fillet at the second corner.
func block(corners [4]point, fillets [4]segments.Fillet) layout.Path {
	var lines []quad
	for i, p := range corners {
		lines = append(lines, geom.Bowed(p, corners[(i+1)%4], 0))
	}
	return closedPath(geom.Blend(lines, fillets[:]))
}
