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

// drawFront adds the line under the nose, the face and the bonnet.
func (b *body) drawFront() {
	const leastTurn = 8 * math.Pi / 180 // from face to bonnet, so that the nose stays one corner
	lean, edge := b.shape.FaceLean, max(b.BonnetEdge(), b.Chin()+.1)
	for {
		face := endParabola(b.Nose()+b.correction.nose, b.Chin(), edge, b.ChinSetback(), lean, -1)
		b.face = face.Along(b.Chin(), edge)
		b.bonnet = b.drawBonnet(b.face[2])
		if lean < .02 || -angleBetween(b.face[2].Sub(b.face[1]), b.bonnet[1].Sub(b.bonnet[0])) >= leastTurn {
			break
		}
		lean -= .01
	}
	soft := b.shape.Fillets
	arch, chin := b.frontArch(), b.face[0]
	lip := arch.at(arch.To)
	inset := chin.Sub(lip).Unit().Times(float64(archSoft))
	b.add(geom.Bowed(lip.Add(inset), chin, 0), soft.Chin)
	b.add(b.face, soft.Edge)
	b.add(b.bonnet, soft.Cowl)
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

const (
	mostBow geom.Wheels = .135 // of a bonnet: beyond it a wing looks swollen
	wing    geom.Wheels = .10  // bonnet above the front arch's top: less shows as a sliver
)

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

func (b *body) clearsWing(bonnet quad) bool {
	for _, x := range [5]geom.Wheels{-.2, -.1, 0, .1, .2} {
		foot, top := bonnet[2], b.screenTop()
		y := foot.Lerp(top, float64((x-foot.X)/(top.X-foot.X))).Y
		if x < foot.X {
			y = heightOn(bonnet, x)
		}
		if y < .5+wing+geom.Wheels(math.Sqrt(math.Max(0, float64(b.FrontArch()*b.FrontArch())-float64(x*x)))) {
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

// placeRear places the tail, its upper edge and the foot of what stands on it.
func (b *body) placeRear() {
	s := b.shape
	top := b.Sill() + geom.Wheels(s.Shoulder*float64(b.BodySide()))
	switch b.Profile.Form {
	case segments.ThreeBox, segments.Bed, segments.Open:
		top = b.Deck() - s.DeckFall
	case segments.Fastback:
		top = b.Deck()
	}
	top = max(top, b.TailLow()+.1)
	b.tail = endParabola(b.Tail()+b.correction.tail, b.TailLow(), top, b.TailSetback(), s.TailLean, 1).Along(top, b.TailLow())
	b.tailTop = b.tail[0]
	b.foot = b.tailTop
	switch b.Profile.Form {
	case segments.ThreeBox, segments.Open:
		b.foot = point{X: min(b.Wheelbase()+b.TailFoot(), b.tailTop.X-.1), Y: b.Deck()}
	case segments.Bed:
		b.foot = point{X: min(b.GlassEnd()+s.CabBack, b.tailTop.X-.3), Y: b.Deck()}
	}
}
