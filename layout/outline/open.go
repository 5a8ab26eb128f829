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
	frameFoot  geom.Wheels = .19  // width of the pillar along the belt
	fairing    geom.Wheels = .10  // rise of the cover behind the cockpit above the belt
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
	b.add(geom.Bowed(b.beltBehind(frameFoot), cockpit, -.014), segments.Fillet{Before: .10, After: .16})
	cover := point{X: cockpit.X + geom.Wheels(.3*(b.tailTop.X-cockpit.X)), Y: max(cockpit.Y, b.tailTop.Y) + fairing}
	b.add(geom.Bowed(cockpit, cover, 0), soft.Base)
	b.add(geom.Bowed(cover, b.tailTop, b.shape.DeckBow), soft.Deck)
	b.raiseRoof()
}

// frame returns the corners of the frame's upper end: ahead of the pillar's line, behind it, and below that.
func (b *body) frame() (top, end, under point) {
	top = b.onPillar(max(b.Height()-frameDrop, b.bonnet[2].Y+.2)).Add(point{X: -frameAhead})
	end = top.Add(point{X: frameRail, Y: .012})
	return top, end, end.Add(point{X: -.006, Y: -frameHead})
}

// quarterLight returns the small pane that stands behind the frame when the windows are down.
func (b *body) quarterLight() layout.Path {
	const inset, long geom.Wheels = .02, .30
	_, _, under := b.frame()
	foot, head := b.beltBehind(frameFoot+inset), under.Add(point{X: inset})
	high := foot.Lerp(head, .62)
	rear := b.beltBehind(frameFoot + inset + long)
	if rear.X < high.X+.06 {
		rear = b.onBelt(high.X + .06)
	}
	return closedPath(geom.Blend([]quad{
		geom.Bowed(foot, high, 0), geom.Bowed(high, rear, .006), geom.Bowed(rear, foot, 0),
	}, []segments.Fillet{{Before: .05, After: .05}, {Before: .04, After: .04}, {Before: .06, After: .06}}))
}

// beltBehind returns the point of the belt line that lies a step behind the A-pillar's line.
func (b *body) beltBehind(step geom.Wheels) point {
	return b.onBelt(b.PillarFoot().X + step)
}

// cockpitEnd returns the rear end of the cockpit's opening, on the belt.
func (b *body) cockpitEnd() point {
	return b.onBelt(min(b.GlassEnd()+b.shape.Cockpit, b.tailTop.X-.2))
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

// seats returns every seat's back with its head restraint, as far as it stands above the belt; rear seats stand lower.
func (b *body) seats() layout.Path {
	var path layout.Path
	for i, share := range b.shape.Seats {
		x := b.pillarAt(share)
		tall := geom.Wheels(.38)
		if i > 0 {
			tall = .27
		}
		at := func(dx, dy geom.Wheels) point { return point{X: x + dx, Y: b.BeltAt(x+dx) + dy} }
		foot, brow, crown, heel := at(-.13, 0), at(.03, tall), at(.17, tall-.02), at(.24, 0)
		path = append(path, closedPath(geom.Blend([]quad{
			geom.Bowed(foot, brow, 0), geom.Bowed(brow, crown, .004), geom.Bowed(crown, heel, .03), geom.Bowed(heel, foot, 0),
		}, []segments.Fillet{{Before: .10, After: .06}, {Before: .07, After: .09}, {}, {}}))...)
	}
	return path
}
