package outline

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

// screenTop returns the upper end of the screen on the centre line, on the roof just ahead of the A-pillar's head.
func (b *body) screenTop() point { return b.roof.On(b.HeaderTop()) }

// screen returns the screen's centre line from the cowl to the roof, bowed as far as it still turns into the roof.
func (b *body) screen(roof quad) quad {
	cowl := b.bonnet[2]
	return geom.Bowed(cowl, roof[0], fitBow(cowl, roof[0], b.shape.ScreenBow, quad{}, roof))
}

// cowlOn returns the position of the screen's foot on the drawn upper line.
func (b *body) cowlOn(upper spline) float64 {
	return upper.Find(float64(len(upper)), 0, func(at, _ point) bool { return at.X <= b.bonnet[2].X })
}

// wedgeFoot returns the place on the A-pillar's line where the windscreen ends at the cowl.
func (b *body) wedgeFoot() point {
	const underBelt, climb = .02, .2
	skin := b.upperAtCowl().Y
	gap := b.onPillar(skin).X - b.bonnet[2].X
	y := min(max(b.glassFront().Y-underBelt, skin-underBelt), skin+geom.Wheels(climb*float64(gap)))
	return b.onPillar(y)
}

// upperAtCowl returns the place of the drawn upper line over the screen's foot.
func (b *body) upperAtCowl() point {
	upper := spline(b.upper)
	return upper.At(b.cowlOn(upper))
}

// wedgeHead returns the height on the A-pillar's line where the windscreen ends under the header.
func (b *body) wedgeHead() geom.Wheels {
	if b.isOpen() {
		top, _, _ := b.frame()
		return top.Y - frameHead
	}
	return min(b.glassHead().Y, b.PillarHead().Y)
}

// windscreen returns what the side view shows of the screen: the wedge between the drawn upper line and the A-pillar's line.
func (b *body) windscreen() layout.Path {
	const sag geom.Wheels = .014 // of the lower edge towards the bonnet
	high, over := b.wedgeHead(), geom.Wheels(.03)
	if b.isOpen() {
		over = .02
	}
	head, foot := b.onPillar(high), b.wedgeFoot()
	upper := spline(b.upper)
	from := b.cowlOn(upper)
	to := upper.Find(from, float64(len(upper)), func(at, _ point) bool { return at.Y >= high+over })
	skin := upper.Part(from, to)
	low, top := skin[0][0], skin[len(skin)-1][3]
	u, v := head.Sub(top).Len(), low.Sub(foot).Len()
	inner := geom.Blend([]quad{
		geom.Bowed(top, head, 0), geom.Bowed(head, foot, 0), geom.Bowed(foot, low, -min(sag, .035*v)),
	}, []segments.Fillet{{Before: min(.055, .3*u), After: min(.07, .38*u)}, {Before: min(.03, .2*v), After: min(.035, .23*v)}})
	return closedPath(append(skin, inner...))
}

// screenEdge returns the screen's side edge: the A-pillar's line from the cowl up, then its turn into the drawn upper line,
// which it meets where the roof still rises.
func (b *body) screenEdge() []cubic {
	turn := segments.Fillet{Before: .12, After: .30}
	if b.isOpen() {
		turn = segments.Fillet{Before: .06, After: .05}
	}
	upper, low := spline(b.upper), b.wedgeFoot()
	end := float64(len(upper))
	meet := upper.Find(b.cowlOn(upper), end, func(at, _ point) bool { return at.X >= b.onPillar(at.Y).X && at.Y > low.Y })
	peak := upper.Find(meet, end, func(_, dir point) bool { return dir.Y <= 0 })
	corner := upper.At(meet)
	rise := corner.Sub(low)
	from := corner.Sub(rise.Unit().Times(float64(min(turn.Before, .3*rise.Len()))))
	line := geom.Straight(low, from)
	for after := min(turn.After, .6*(upper.At(peak).X-corner.X)); after > .004; after *= .85 {
		join := upper.Find(meet, peak, func(at, _ point) bool { return at.X >= corner.X+after })
		if c, ok := geom.Corner(lineEnd(low, from, from), upper.End(join)); ok {
			return []cubic{line, c}
		}
	}
	return []cubic{geom.Straight(low, corner)}
}
