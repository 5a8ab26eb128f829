package outline

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// endParabola returns the bulging end of a body between heights low and high: a parabola that touches
// the extreme x, stands setback inside it at low and lean inside it at high. side is −1 at the nose, 1 at the tail.
// So approach and departure are met by construction, and where the end bulges most follows from both.
func endParabola(extreme, low, high, setback, lean geom.Wheels, side float64) parabola {
	down, up := math.Sqrt(float64(max(0, setback))), math.Sqrt(float64(lean))
	if down+up == 0 {
		return parabola{Vertex: point{X: extreme, Y: low}, Turned: true}
	}
	k := (down + up) / float64(high-low)
	return parabola{
		Vertex: point{X: extreme, Y: low + geom.Wheels(down/k)},
		Bend:   -side * k * k,
		Turned: true,
	}
}

// edgeHeight is the height of the bonnet's front edge.
func (b *body) edgeHeight() geom.Wheels { return max(b.BonnetEdge(), b.Chin()+.1) }

// frontBreak is the height at which the front bumper's face ends: under the lamp and clear of the arch's top.
func (b *body) frontBreak() geom.Wheels {
	n, edge := b.shape.Nose, b.edgeHeight()
	if b.isWedge() {
		return b.Chin() + geom.Wheels(n.Tip*float64(edge-b.Chin()))
	}
	y := max(min(b.FrontLamp()-n.Drop, edge-.2), b.Chin()+.12)
	return min(y, .5+b.FrontArch()+b.shape.Cladding-.08-n.Rise)
}

func (b *body) isWedge() bool { return b.shape.Nose.Tip > 0 }

// drawFront adds the line under the nose, the bumper's face, its shelf, the face above it and the bonnet.
func (b *body) drawFront() {
	const leastTurn = 8 * math.Pi / 180 // from face to bonnet, so that the nose stays one corner
	n, high := b.shape.Nose, b.frontBreak()
	b.bumper = endParabola(b.Nose()+b.correction.nose, b.Chin(), high, b.ChinSetback(), n.Top, -1).Along(b.Chin(), high)
	b.faceFoot = b.bumper[2]
	if !b.isWedge() {
		b.faceFoot = b.bumper[2].Add(point{X: n.Step, Y: n.Rise})
	}
	edge := point{X: max(b.Nose()+b.correction.nose+b.shape.FaceLean, b.faceFoot.X+.004), Y: b.edgeHeight()}
	var face quad
	for {
		face = geom.Bowed(b.faceFoot, edge, min(n.Bow, .12*edge.Sub(b.faceFoot).Len()))
		b.bonnet = b.drawBonnet(edge)
		if edge.X-b.faceFoot.X < .02 || -angleBetween(face[2].Sub(face[1]), b.bonnet[1].Sub(b.bonnet[0])) >= leastTurn {
			break
		}
		edge.X -= .01
	}
	soft, arch := b.shape.Fillets, b.frontArch()
	b.addUnder(arch.at(arch.To), b.bumper[0], n.Level, soft.Chin)
	b.add(b.bumper, n.Break)
	if !b.isWedge() {
		b.add(geom.Bowed(b.bumper[2], b.faceFoot, 0), segments.Fillet{Before: n.Break.After, After: 1.4 * n.Break.Before})
	}
	b.add(face, soft.Edge)
	b.edgeCorner = len(b.lines) - 1
	b.add(b.bonnet, soft.Cowl)
}

// addUnder adds the lower edge from the front arch's lip to the chin: level for a share of the way to the nose, then straight up; one
// straight ramp where there is nothing to climb.
func (b *body) addUnder(lip, chin point, share float64, soft segments.Fillet) {
	turn := point{X: lip.X - geom.Wheels(share*float64(lip.X-b.Nose())), Y: lip.Y}
	if lip.X-turn.X > .05 && chin.Y-lip.Y > .012 {
		b.add(geom.Bowed(lip.Add(point{X: -archSoft}), turn, 0), segments.Fillet{Before: .20, After: .20})
		b.add(geom.Bowed(turn, chin, 0), soft)
		return
	}
	b.add(geom.Bowed(lip.Add(chin.Sub(lip).Unit().Times(float64(archSoft))), chin, 0), soft)
}

// addHeel adds the lower edge from the heel to the rear arch's lip, like that under the nose.
func (b *body) addHeel(heel, lip point, share float64) {
	turn := point{X: lip.X + geom.Wheels(share*float64(b.Tail()-lip.X)), Y: lip.Y}
	if turn.X-lip.X > .05 && heel.Y-lip.Y > .012 {
		b.add(geom.Bowed(heel, turn, 0), segments.Fillet{Before: .20, After: .14})
		b.add(geom.Bowed(turn, lip.Add(point{X: archSoft}), 0), segments.Fillet{})
		return
	}
	b.add(geom.Bowed(heel, lip.Add(heel.Sub(lip).Unit().Times(float64(archSoft))), 0), segments.Fillet{})
}

// drawBonnet returns the bonnet from its edge to the cowl, which stands over the screen's base.
// The wing rule: seen from the side a low car's bonnet is its wing, so it passes over the front arch. More bow
// raises it as long as it still climbs at the cowl; where that is not enough the cowl rises:
// a bonnet that dips before the screen reads as a bump.
func (b *body) drawBonnet(edge point) quad {
	low := max(b.Cowl(), edge.Y+.02)
	high := max(low, b.screenTop().Y-.2)
	cowl := bisect(low, high, func(y geom.Wheels) bool {
		return b.clearsWing(b.bonnetTo(edge, y, mostBow))
	})
	bow := bisect(b.shape.BonnetBow, mostBow, func(bow geom.Wheels) bool {
		return b.clearsWing(b.bonnetTo(edge, cowl, bow))
	})
	return b.bonnetTo(edge, cowl, bow)
}

const mostBow geom.Wheels = .135 // of a bonnet: beyond it a wing looks swollen

// bonnetTo returns the bonnet with the cowl at height y and at most this bow, less where it would not climb at the cowl.
// Its bend is gathered towards the edge: a bonnet turns most there and runs nearly straight to the cowl, so that the hollow
// there may be long and soft.
func (b *body) bonnetTo(edge point, y, bow geom.Wheels) quad {
	const (
		climb = 1.5 * math.Pi / 180
		crown = .4 // of the chord, where it bends most; the middle is .5
	)
	cowl := point{X: b.ScreenBase(), Y: y}
	chord := cowl.Sub(edge)
	room := math.Tan(max(0, angleBetween(point{X: 1}, chord)-climb)) * float64(chord.Len()) * (1 - crown) / 2
	q := geom.Bowed(edge, cowl, min(bow, geom.Wheels(room)))
	q[1] = q[1].Sub(chord.Times(.5 - crown))
	return q
}

// bisect returns the smallest value from low to high that holds, as do all larger ones, and high where none does.
func bisect(low, high geom.Wheels, holds func(geom.Wheels) bool) geom.Wheels {
	if holds(low) {
		return low
	}
	high, _ = geom.Bisect(high, low, 30, holds)
	return high
}

// clearsWing reports whether a bonnet, and the screen behind it, passes over the front arch.
func (b *body) clearsWing(bonnet quad) bool {
	foot, top := bonnet[2], b.screenTop()
	for _, x := range [5]geom.Wheels{-.2, -.1, 0, .1, .2} {
		y := foot.Lerp(top, float64((x-foot.X)/(top.X-foot.X))).Y
		if x < foot.X {
			y = heightOn(bonnet, x)
		}
		over := geom.Wheels(math.Sqrt(math.Max(0, float64(b.FrontArch()*b.FrontArch())-float64(x*x))))
		if y < .5+b.shape.Wing+over {
			return false
		}
	}
	return true
}

// heightOn returns the height of q over x; q runs rearwards and x lies between its ends.
func heightOn(q quad, x geom.Wheels) geom.Wheels {
	in, out := float64(q[1].X-q[0].X), float64(q[2].X-q[1].X)
	// x(t) − x = (out − in)·t² + 2·in·t − run, solved for the root that stays put where q is straight
	run := float64(x - q[0].X)
	root := math.Sqrt(math.Max(0, float64(in*in)+float64((out-in)*run)))
	return q.At(run / (in + root)).Y
}

// hasDeck reports whether a deck or bed lies between the rear screen's foot and the tail.
func (b *body) hasDeck() bool {
	form := b.Profile.Form
	return form == segments.ThreeBox || form == segments.Bed
}

// isRecessed reports whether the tail's panel is drawn in under a lip.
func (b *body) isRecessed() bool { return b.shape.Tail.Step < 0 }

// bumperDatum is the height at which the front bumper parts from the body.
func (b *body) bumperDatum() geom.Wheels {
	if b.isWedge() && b.datum > 0 {
		return b.datum
	}
	return b.frontBreak() + b.shape.Nose.Rise
}

// rearBreak is the height at which the rear bumper's face ends. Both bumpers part from the body at one height, near enough, whatever the
// lamps say.
func (b *body) rearBreak(top geom.Wheels) geom.Wheels {
	const datumBy, over geom.Wheels = .075, .02
	t, datum := b.shape.Tail, b.bumperDatum()
	y := b.RearLamp() - t.Drop
	switch {
	case b.isRecessed():
		y = max(y, datum-.06)
	case t.Block:
		y = datum + over - t.Rise
	default:
		y = geom.Clamp(y+t.Rise, datum-datumBy, datum+datumBy) - t.Rise
	}
	return max(min(y, top-t.Rise-.12), b.TailLow()+.14)
}

// placeRear places the tail: bumper, shelf and panel, and the foot of what stands on its upper edge.
func (b *body) placeRear() {
	s, t := b.shape, b.shape.Tail
	top := b.Sill() + geom.Wheels(s.Shoulder*float64(b.BodySide()))
	switch b.Profile.Form {
	case segments.ThreeBox, segments.Open, segments.Fastback:
		top = b.Deck() - s.DeckFall
	case segments.Bed:
		top = b.Deck()
	}
	top = max(top, b.TailLow()+.1+t.Rise+.16)
	high := b.rearBreak(top)
	tail := b.Tail() + b.correction.tail
	b.rearBumper = endParabola(tail, b.TailLow(), high, b.TailSetback(), t.Top, 1).Along(high, b.TailLow())
	b.panelFoot = b.rearBumper[0].Add(point{X: -t.Step, Y: t.Rise})
	b.tailTop = point{X: min(tail-s.TailLean, b.panelFoot.X-.006), Y: top}
	if b.isRecessed() {
		b.panelFoot = b.rearBumper[0].Add(point{X: t.Step, Y: t.Rise})
		b.tailTop = point{X: tail - .02, Y: top}
	}
	b.panel = geom.Bowed(b.tailTop, b.panelFoot, t.Bow)
	b.foot = b.tailTop
	switch b.Profile.Form {
	case segments.ThreeBox, segments.Open:
		b.foot = point{X: min(b.Wheelbase()+b.TailFoot(), b.tailTop.X-.1), Y: b.Deck()}
	case segments.Bed:
		b.foot = point{X: min(b.GlassEnd()+s.CabBack, b.tailTop.X-.3), Y: b.Deck()}
	}
}

// drawTail adds the panel, the shelf, the bumper's face and the lower edge up to the rear arch.
func (b *body) drawTail() {
	panel, shelf := segments.Fillet{Before: .03, After: .02}, segments.Fillet{Before: .02, After: .03}
	if b.isRecessed() {
		panel, shelf = segments.Fillet{Before: .06, After: .05}, segments.Fillet{Before: .06, After: .14}
	}
	b.deckCorner = len(b.lines) - 1
	b.add(b.panel, panel)
	b.add(geom.Bowed(b.panelFoot, b.rearBumper[0], 0), shelf)
	b.add(b.rearBumper, b.shape.Fillets.Heel)
	arch := b.rearArch()
	b.addHeel(b.rearBumper[2], arch.at(arch.From), b.shape.Tail.Level)
}
