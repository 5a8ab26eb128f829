package outline

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

// lens is a lamp's lens in the making. Its outer edge is the piece of the drawn upper line between lowOuter and highOuter.
type lens struct {
	skin                spline // from the lower to the higher end at the nose, from the higher to the lower at the tail
	lowOuter, highOuter point
	lowInner, highInner point
	path                layout.Path
}

// corners returns the lens's corners, rounded as the outline is.
func (l lens) corners() Lens {
	return Lens{quantise(l.lowOuter), quantise(l.highOuter), quantise(l.lowInner), quantise(l.highInner)}
}

// skinAt returns the position of the drawn upper line at height y: at the nose, or at the tail.
func (b *body) skinAt(y geom.Wheels, front bool) float64 {
	upper := spline(b.upper)
	if front {
		return upper.Find(0, b.cowlOn(upper), func(at, dir point) bool { return at.Y >= y })
	}
	return upper.Find(float64(len(upper)), b.corners[b.deckCorner]-.5, func(at, dir point) bool { return at.Y >= y })
}

// skinOver returns the height of the drawn upper line over x.
func (b *body) skinOver(x geom.Wheels) geom.Wheels { return heightAt(b.polyline, x) }

// frontLens places the front lens. It slides down where the nose is too low for it, and keeps its depth as far as it can.
func (b *body) frontLens() lens {
	s := b.shape.FrontLens
	lo, hi := b.lensEnds(s, b.FrontLamp())
	least := b.faceFoot.Y + .03
	if b.isWedge() {
		least = b.faceFoot.Y + .06
	}
	most := b.skinOver(b.Nose() + s.Reach)
	if s.InCorner { // seen from the front it stays under the corner's rounding
		most = min(most, b.edgeHeight()-.09)
	}
	lo, hi = fitLens(lo, hi, most, least)
	from, to := b.skinAt(lo, true), b.skinAt(hi, true)
	return b.lensOn(s, from, to, 1)
}

// rearLens places the rear lens under the deck, the roof or, for a column, the belt; in a recess it fills that.
func (b *body) rearLens() lens {
	s := b.shape.RearLens
	lo, hi := b.lensEnds(s, b.RearLamp())
	most, least := b.Height()-.35, b.panelFoot.Y+.03
	if b.hasDeck() || b.isOpen() || b.Profile.Form == segments.Fastback {
		most = b.tailTop.Y - .05
	}
	if s.Column {
		most = min(most, b.BeltAt(b.Tail())-.05)
	}
	if b.isRecessed() {
		tall := hi - lo
		lo = b.panelFoot.Y + .004
		hi, least = min(b.tailTop.Y-.025, lo+tall), lo
	}
	lo, hi = fitLens(lo, hi, most, least)
	from, to := b.skinAt(hi, false), b.skinAt(lo, false)
	return b.lensOn(s, from, to, -1)
}

// lensEnds returns the heights between which a lens wants to stand.
func (b *body) lensEnds(s segments.Lens, base geom.Wheels) (lo, hi geom.Wheels) {
	deep := float64(b.LampDepth())
	hi = base + geom.Wheels(s.High*deep)
	return min(base+geom.Wheels(s.Low*deep), hi-.05), hi
}

// fitLens keeps a lens at or under most and, as far as it stays .06 deep, over least.
func fitLens(lo, hi, most, least geom.Wheels) (geom.Wheels, geom.Wheels) {
	if tall := hi - lo; hi > most {
		hi = most
		lo = min(lo, hi-max(.046, .62*tall))
	}
	return max(lo, min(least, hi-.06)), hi
}

// lensOn returns the lens over the piece of the upper line between two positions. inwards is 1 at the nose and −1 at the tail.
func (b *body) lensOn(s segments.Lens, from, to float64, inwards geom.Wheels) lens {
	l := lens{skin: spline(b.upper).Part(from, to)}
	l.lowOuter, l.highOuter = l.skin[0][0], l.skin[len(l.skin)-1][3]
	if inwards < 0 {
		l.lowOuter, l.highOuter = l.highOuter, l.lowOuter
	}
	const underSkin, thin geom.Wheels = .055, .02
	l.highInner = l.highOuter.Add(point{X: inwards * s.Upper, Y: s.UpperRise})
	if skin := b.skinOver(l.highInner.X); skin > 0 {
		l.highInner.Y = min(l.highInner.Y, skin-underSkin)
	}
	l.lowInner = l.lowOuter.Add(point{X: inwards * s.Lower, Y: s.LowerRise})
	l.lowInner.Y = min(l.lowInner.Y, l.highInner.Y-thin)

	mid := l.highOuter.Lerp(l.highInner, .5)
	bow := geom.Wheels(.006)
	if inwards > 0 {
		bow = geom.Clamp(b.skinOver(mid.X)-.035-mid.Y, -.02, .014)
	}
	inner := geom.Blend([]quad{
		geom.Bowed(l.highOuter, l.highInner, bow*inwards),
		geom.Bowed(l.highInner, l.lowInner, 0),
		geom.Bowed(l.lowInner, l.lowOuter, .006*inwards),
	}, []segments.Fillet{{Before: s.Corners[0], After: s.Corners[0]}, {Before: s.Corners[1], After: s.Corners[1]}})
	skin := l.skin
	if inwards < 0 {
		skin = skin.Backwards()
	}
	l.path = closedPath(append(skin, inner...))
	return l
}
