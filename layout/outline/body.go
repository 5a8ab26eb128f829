package outline

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

// body is the body's upper line in the making: a chain of bowed lines that meet in theoretical
// corners, from the front arch over nose, roof and tail to the rear arch, each corner then softened.
type body struct {
	layout.Plan
	shape      segments.Shape
	correction correction
	slope      float64 // of the A-pillar's line

	tailTop, foot point // upper edge of the tail; foot of the rear screen, tailgate or cab
	roof          parabola
	header        point // where the A-pillar's line meets the roof
	bonnet        quad
	panel         quad // of the tail, above the bumper
	bumper        quad // face of the front bumper, upwards
	rearBumper    quad // that of the rear one, downwards

	faceFoot, panelFoot point       // upper ends of the shelves on the bumpers
	datum               geom.Wheels // wedge noses: height at which both bumpers part from the body; 0: not known yet

	lines                  []quad
	fillets                []segments.Fillet
	upper                  []cubic
	corners                []float64 // positions on upper of the corners after each line
	edgeCorner, deckCorner int       // numbers of the corners at the bonnet's edge and at the upper edge of the tail
	roofUp                 []cubic   // open: screen, roof and rear screen with the roof up
	polyline               []point   // upper as a polyline, for looking up heights and places
}

// correction is what the softened corners shave off roof, nose and tail, added to the theoretical ones.
type correction struct{ roof, nose, tail geom.Wheels }

// drawBody draws the body. A wedge's bumpers part from it where the front lens ends, which is known only once it is drawn.
func drawBody(p layout.Plan) *body {
	b := drawAt(p, 0)
	if b.isWedge() {
		b = drawAt(p, b.frontLens().lowInner.Y)
	}
	return b
}

// drawAt draws the upper line repeatedly until roof, nose and tail of the drawn curve match the figures.
func drawAt(p layout.Plan, datum geom.Wheels) *body {
	const close geom.Wheels = 1e-9
	const rounds = 12 // each leaves a tenth of the error or less
	var extra correction
	var b *body
	for range rounds {
		b = drawUpper(p, extra, datum)
		box := geom.BoundsOf(b.upper)
		top := box.Max.Y
		if b.isOpen() {
			top = geom.BoundsOf(b.roofUp).Max.Y
		}
		miss := correction{b.Height() - top, b.Nose() - box.Min.X, b.Tail() - box.Max.X} // the drawn extremes stay inside the figures
		if max(abs(miss.roof), abs(miss.nose), abs(miss.tail)) < close {
			break
		}
		extra = correction{extra.roof + miss.roof, extra.nose + miss.nose, extra.tail + miss.tail}
	}
	b.polyline = geom.Polyline(b.upper, chords)
	return b
}

func (b *body) isOpen() bool { return b.Profile.Form == segments.Open }

// drawUpper draws the upper line once.
func drawUpper(p layout.Plan, extra correction, datum geom.Wheels) *body {
	b := &body{Plan: p, shape: p.Profile.Shape, correction: extra, slope: p.PillarRake().Tan(), datum: datum}
	b.placeRear()
	b.placeRoof()
	b.drawFront()
	if b.isOpen() {
		b.drawOpen()
	} else {
		b.drawClosed()
	}
	b.drawTail()
	b.upper, b.corners = geom.BlendAt(b.lines, b.fillets[:len(b.fillets)-1])
	return b
}

// add appends a line to the chain; fillet belongs to the corner after it.
func (b *body) add(line quad, fillet segments.Fillet) {
	b.lines, b.fillets = append(b.lines, line), append(b.fillets, fillet)
}

// onPillar returns the point of the A-pillar's line at height y.
func (b *body) onPillar(y geom.Wheels) point {
	return point{X: geom.Wheels(float64(y-b.PillarAim()) / b.slope), Y: y}
}

// onBelt returns the point of the belt line at x.
func (b *body) onBelt(x geom.Wheels) point { return point{X: x, Y: b.BeltAt(x)} }

// placeRoof lays the roof's parabola and finds the header on it.
func (b *body) placeRoof() {
	quarter := float64(b.Wheelbase()) / 4
	peak := point{X: b.onPillar(b.Height()).X, Y: b.Height() + b.correction.roof}
	behind := b.shape.Apex * quarter
	peak.X += geom.Wheels(behind)
	fall := float64(b.shape.Crown) / (quarter * quarter)
	if run := float64(b.foot.X - peak.X); run > 0 {
		// The roof never spends more than 45 % of its drop: a strong crown would dive under the rear screen.
		fall = math.Min(fall, .45*float64(peak.Y-b.foot.Y)/(run*run))
	}
	// It still meets the pillar's line, and not at a graze.
	fall = math.Min(fall, .18*b.slope/math.Max(behind, .01))
	fall = math.Max(fall, 1e-6)
	b.roof = parabola{Vertex: peak, Bend: -fall}
	b.header = intersect(b.roof, b.slope, b.PillarAim())
}

// intersect returns where the line y = at + slope·x meets p, a parabola that bends down: the first place from below, going
// the way the line rises. A line that passes over p is taken to touch it.
func intersect(p parabola, slope float64, at geom.Wheels) point {
	over := float64(at + geom.Wheels(slope*float64(p.Vertex.X)) - p.Vertex.Y)
	root := math.Sqrt(math.Max(0, float64(slope*slope)+float64(4*p.Bend*over)))
	// This form of the root loses no digits where p is nearly flat.
	return p.On(p.Vertex.X - geom.Wheels(2*over/(slope+math.Copysign(root, slope))))
}

// drawClosed adds the screen, the roof, the rear screen or tailgate and, where the form has one, the deck.
func (b *body) drawClosed() {
	soft := b.shape.Fillets
	next := b.panel
	if b.hasDeck() {
		next = quad{}
	}
	roof, rear := b.roofAndScreen(b.foot, next)
	b.add(b.screen(roof), soft.Header)
	b.add(roof, soft.Roof)
	b.add(rear, soft.Base)
	if b.hasDeck() {
		b.add(geom.Bowed(b.foot, b.tailTop, b.shape.DeckBow), soft.Deck)
	}
}

// roofAndScreen returns the roof and the rear screen that stands on foot; next is the line after it, the zero quad for none.
func (b *body) roofAndScreen(foot point, next quad) (roof, screen quad) {
	end := b.roofEnd(foot)
	roof = b.roof.Along(b.screenTop().X, end.X)
	return roof, geom.Bowed(end, foot, fitBow(end, foot, b.shape.GlassBow, roof, next))
}

// roofEnd returns where the rear screen that stands on foot meets the roof. The screen is steeper than its rake
// where it would cut the end of the side glass or leave too short a roof.
func (b *body) roofEnd(foot point) point {
	const roofLength geom.Wheels = .30 // at least, behind the header
	slope, steepest := max(b.TailRake(), 4).Tan(), geom.Degrees(88).Tan()
	if !b.hasDeck() && !b.isOpen() {
		// A tailgate steeper than the tail below it would turn their corner inside out.
		in := b.panel[1].Sub(b.panel[0])
		angle := math.Max(.07, math.Atan2(float64(-in.Y), float64(in.X))-3*math.Pi/180)
		steepest = math.Min(steepest, math.Tan(math.Min(angle, 88*math.Pi/180)))
	}
	if glass := (point{X: b.GlassEnd() + .03, Y: b.BeltAt(b.GlassEnd()) + .05 + b.shape.Kick}); glass.X < foot.X-.05 {
		slope = math.Max(slope, float64((glass.Y-foot.Y)/(foot.X-glass.X)))
	}
	slope = math.Min(slope, steepest)
	end := intersect(b.roof, -slope, foot.Y+geom.Wheels(slope*float64(foot.X)))
	return b.roof.On(min(max(end.X, b.header.X+roofLength), foot.X-.02))
}

// fitBow returns the largest bow up to want with which the line from a to b still turns by 3° from
// the line before it and to the one after it (the zero quads: none): a bow never turns a corner hollow.
func fitBow(a, b point, want geom.Wheels, before, after quad) geom.Wheels {
	const keep = 3 * math.Pi / 180
	along := b.Sub(a)
	room := math.Pi/3 - keep
	if after != (quad{}) {
		room = math.Min(room, -angleBetween(along, after[1].Sub(after[0]))-keep)
	}
	if before != (quad{}) {
		room = math.Min(room, -angleBetween(before[2].Sub(before[1]), along)-keep)
	}
	return max(0, min(want, geom.Wheels(math.Tan(math.Max(room, 0))*float64(along.Len())/4)))
}

// angleBetween returns the angle from one direction to another in radians, counter-clockwise positive.
func angleBetween(from, to point) float64 { return math.Atan2(from.Cross(to), from.Dot(to)) }

func abs(w geom.Wheels) geom.Wheels { return max(w, -w) }
