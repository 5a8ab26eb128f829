package view

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// place is a place of the side view, in wheels.
type place struct{ x, y float64 }

func at(p point) place { return place{float64(p.X), float64(p.Y)} }

// mix returns the place a share t of the way from a to b.
func (a place) mix(b place, t float64) place { return place{mix(a.x, b.x, t), mix(a.y, b.y, t)} }

// places are where the drawn outline turns from one surface into the next.
type places struct {
	chin, heel place // lower corners, where face and tail end
	edge       place // bonnet's edge, where it lies at 45°
	deckEnd    place // upper end of the tail: at the deck, or at the roof above a tailgate
	screenFoot place // on the centre line, where the bonnet begins to rise into the screen
	screenBase place // on the centre line, over the figure
	cowl       place // foot of the screen's side edge
	pillar     place // on that edge: where the screen is seen to begin
	head       place // where the screen's side edge has turned into the roof
	roofEnd    place // theoretical corner
	hasFoot    bool  // a rear screen stands on a deck or bed
	foot       place // where the rear screen has turned into deck or rail
	screenTop  place // where the roof has turned into the rear screen
	framePeak  place // open: highest place of the screen's frame
	frameFoot  place // open: where the frame's rear edge has turned into the belt
	opening    span  // bed or cockpit, along x
}

// span is a stretch along one axis, in wheels.
type span struct{ lo, hi float64 }

// survey finds the places of the drawn outline and reads its parts as functions.
func (s *Solid) survey() {
	a, p := &s.outline, &s.places
	upper := spline(a.Upper)
	start, end := 0., float64(len(upper))
	nose := upper.Find(start, end, func(_, dir point) bool { return dir.X >= 0 && dir.Y > 0 })
	tail := upper.Find(end, nose, func(_, dir point) bool { return dir.X >= 0 })
	chin := upper.Find(start, nose, func(_, dir point) bool { return underTurn*float64(dir.Y) > math.Abs(float64(dir.X)) })
	heel := upper.Find(end, tail, func(_, dir point) bool { return -underTurn*float64(dir.Y) > math.Abs(float64(dir.X)) })
	edge := upper.Find(math.Floor(a.EdgeAt), end, func(_, dir point) bool { return dir.X > dir.Y })
	steep := 1. // the slope at which the roof has turned into the tail; a tailgate's, which belongs to the tail, may be less
	if s.form == segments.TwoBox || s.form == segments.OneBox {
		steep = math.Min(1, geom.Degrees(.6*float64(s.plan.TailRake())).Tan())
	}
	deck := upper.Find(math.Ceil(a.DeckAt), edge, func(_, dir point) bool { return float64(dir.X)*steep > -float64(dir.Y) })
	cowl := upper.Find(edge, end, func(at, _ point) bool { return at.X >= a.Cowl.X })
	side := spline(a.ScreenEdge)
	p.screenBase, p.pillar, p.head = at(upper.At(cowl)), at(side[0][0]), at(side[len(side)-1][3])
	cowl = hollowStart(upper, cowl)
	p.screenFoot = at(upper.At(cowl))
	foot := s.footOf(upper.End(cowl), side[0][0])
	p.cowl, side[0] = at(foot), geom.Straight(foot, side[0][3])
	head := upper.Find(cowl, end, func(q, _ point) bool { return float64(q.X) >= p.head.x })
	p.chin, p.heel, p.edge, p.deckEnd = at(upper.At(chin)), at(upper.At(heel)), at(upper.At(edge)), at(upper.At(deck))
	p.roofEnd = at(a.RoofEnd)

	s.face = newGraph(upper.Part(chin, edge), true).eased(math.Inf(1), runOut)
	s.back = newGraph(upper.Part(deck, heel), true).eased(math.Inf(1), runOut)
	s.screen, s.centre = newGraph(side, true), newGraph(upper.Part(cowl, head), true)
	s.low = newGraph(s.lowerEdge(upper.Part(start, chin), upper.Part(heel, end)), false)
	if s.form == segments.Open {
		s.surveyOpen(upper, edge, cowl, head, deck)
		return
	}
	s.top = newGraph(slices.Concat(s.bonnetLine(upper, edge, cowl), side, upper.Part(head, deck)), false).eased(runOut, runOut)
	if s.form == segments.ThreeBox || s.form == segments.Bed {
		s.surveyFoot(upper, head, deck)
	}
}

// hollowStart returns where the hollow of a line at a position begins: the place of least slope on the same piece of it, up to there.
func hollowStart(line spline, position float64) float64 {
	const steps = 64
	from := math.Max(0, math.Ceil(position)-1)
	best, least := position, math.Inf(1)
	for k := range steps + 1 {
		at := from + float64((position-from)*float64(k)/steps)
		if dir := line.End(at).Dir; float64(dir.Y/dir.X) < least {
			best, least = at, float64(dir.Y/dir.X)
		}
	}
	return best
}

// bonnetLine is the upper edge of the body's side ahead of the screen: the bonnet, and beside the screen on to its edge's foot.
func (s *Solid) bonnetLine(upper spline, edge, cowl float64) spline {
	end, foot := upper.End(cowl), point{X: geom.Wheels(s.places.cowl.x), Y: geom.Wheels(s.places.cowl.y)}
	handle := end.At.Add(end.Dir.Times(float64(foot.X-end.At.X) / 3))
	return append(upper.Part(edge, cowl), cubic{end.At, handle, end.At.Lerp(foot, 2./3), foot})
}

// footOf carries the bonnet straight on from its end to the A-pillar's line: there the screen's edge begins, no higher than the
// outline has it. Seen from the side the bonnet so keeps under the hollow at the screen's foot.
func (s *Solid) footOf(end geom.EndCondition[geom.Wheels], top point) point {
	rake, slope := s.plan.PillarRake().Tan(), float64(end.Dir.Y/end.Dir.X)
	y := (float64(s.plan.PillarAim()) - rake*(float64(end.At.Y)-slope*float64(end.At.X))/slope) / (1 - rake/slope)
	foot := point{Y: min(geom.Wheels(y), top.Y)}
	foot.X = geom.Wheels(float64(foot.Y-s.plan.PillarAim()) / rake)
	return foot
}

// lowerEdge joins the lines under nose and tail over the arches and along the sill.
func (s *Solid) lowerEdge(front, rear spline) spline {
	out := front.Backwards() // under the nose the outline runs forward
	back := rear.Backwards()
	out = append(out, geom.Straight(out[len(out)-1][3], s.outline.SillFront), geom.Straight(s.outline.SillFront, s.outline.SillRear),
		geom.Straight(s.outline.SillRear, back[0][0]))
	return append(out, back...)
}

// lowerEdgeAt returns the height of the body's lower edge over x: the outline's, but level where it leaves the lower corners of nose and
// tail, so that from the front and the rear it is level in the middle and not a peak.
func (s *Solid) lowerEdgeAt(x float64) float64 {
	const levels = .22 // over this length the outline's own height takes over
	y := s.low.value(x)
	y += float64((s.places.chin.y - y) * (1 - ease(0, levels, x-s.low.lo)))
	return y + float64((s.places.heel.y-y)*(1-ease(0, levels, s.low.hi-x)))
}

// surveyFoot finds where a rear screen begins and ends.
func (s *Solid) surveyFoot(upper spline, head, deck float64) {
	p := &s.places
	p.hasFoot = true
	level := .2
	if s.form == segments.Bed {
		level = .35
	}
	foot := upper.Find(head, deck, func(at, dir point) bool {
		return float64(at.X) > p.roofEnd.x+.15 && float64(max(dir.Y, -dir.Y)) < level*float64(dir.X)
	})
	steep := .6 * s.plan.TailRake().Tan()
	top := upper.Find(head, foot, func(at, dir point) bool {
		return -float64(dir.Y) > steep*float64(dir.X) || float64(at.X) > p.roofEnd.x+.5
	})
	p.foot, p.screenTop = at(upper.At(foot)), at(upper.At(top))
	s.rear = newGraph(upper.Part(top, foot), true).eased(runOut, runOut)
	s.roof = newGraph(upper.Part(head, top), false).eased(runOut, runOut)
	if s.form == segments.Bed {
		p.opening = span{p.foot.x + .03, p.deckEnd.x - gate}
	}
}

// surveyOpen reads an open car's tub: its top runs from the cowl along the belt into the cockpit's edge and the deck.
func (s *Solid) surveyOpen(upper spline, edge, cowl, head, deck float64) {
	p := &s.places
	peak := upper.Find(head, deck, func(_, dir point) bool { return dir.Y <= 0 })
	under := upper.Find(peak, deck, func(_, dir point) bool { return dir.X < 0 })
	belt := upper.Find(under, deck, func(_, dir point) bool { return dir.X > max(dir.Y, -dir.Y) })
	p.framePeak, p.frameFoot = at(upper.At(peak)), at(upper.At(belt))
	s.rail = newGraph(upper.Part(head, peak), false)
	s.rear = newGraph(upper.Part(peak, belt), true)
	tub := s.bonnetLine(upper, edge, cowl)
	tub = append(tub, geom.Straight(tub[len(tub)-1][3], upper.At(belt)))
	s.top = newGraph(append(tub, upper.Part(belt, deck)...), false).eased(runOut, runOut)
	p.opening = span{p.cowl.x + .35, float64(s.outline.CockpitEnd.X) + .02}
}

// underTurn is how far face and tail lean under, x per unit of height, where they end at the lower corners; below that they go on
// straight to the body's lower edge.
const underTurn = 1

// runOut is the length over which face, tail and upper surface level off beyond their upper corners, where the outline stands at 45°, in
// wheels; judged by eye. Without it those corners would be creases off the centre line.
const runOut = .10

// gate is the thickness of a bed's tailgate, in wheels.
const gate = .08

// zone is a stretch of the body whose sections are built alike.
type zone struct {
	from, to float64
	cab      bool                       // what stands on the deck or bed
	shift    func(x, y float64) float64 // where the section that is called x stands at height y: it leans as nose and tail do
	under    func(x, y float64) float64 // how far (x, y) lies under the zone's upper end
	floor    float64                    // lower end; 0: the body's lower edge
}

// zones lists the stretches of this vehicle from front to rear.
func (s *Solid) zones() []zone {
	p := &s.places
	nose, tail := float64(s.plan.Nose()), float64(s.plan.Tail())
	noseEnd, tailEnd := nose+s.nose.depth, tail-s.tail.depth
	upright := func(x, _ float64) float64 { return x }
	toTop := func(x, y float64) float64 { return s.top.value(x) - y }
	leanFront := func(x, y float64) float64 {
		return x + float64(fade(p.cowl.x, noseEnd, x)*(s.face.value(y)-nose))
	}
	leanRear := func(from float64) func(x, y float64) float64 {
		return func(x, y float64) float64 { return x + float64(fade(from, tailEnd, x)*(s.back.value(y)-tail)) }
	}
	// Bonnet and roof keep a hair off the screen: at cowl and header themselves the section is the screen's.
	roof := p.head.x + 1e-6
	front := zone{from: nose, to: p.cowl.x - 1e-6, shift: leanFront, under: toTop}
	screen := zone{from: p.cowl.x, to: p.head.x, shift: upright, under: func(x, y float64) float64 {
		switch {
		case y <= p.cowl.y:
			return 1
		case y >= p.head.y:
			return p.head.y - y
		}
		return x - s.screen.value(y)
	}}
	switch {
	case s.form == segments.Open:
		return []zone{front,
			{from: p.cowl.x, to: p.opening.hi, shift: upright, under: toTop},
			{from: p.opening.hi, to: tail, shift: leanRear(p.opening.hi), under: toTop}}
	case !p.hasFoot:
		return []zone{front, screen, {from: roof, to: tail, shift: leanRear(p.head.x), under: toTop}}
	}
	bowEnd := p.foot.x - s.bow.depth
	leanScreen := func(x, y float64) float64 {
		return x + float64(fade(p.head.x, bowEnd, x)*(s.rear.value(y)-p.foot.x))
	}
	toRoof := func(x, y float64) float64 { return s.roof.value(x) - y }
	toShelf := func(_, y float64) float64 { return p.foot.y - y }
	return []zone{front, screen,
		{from: roof, to: p.foot.x, cab: true, shift: leanScreen, under: toRoof, floor: p.foot.y},
		{from: p.head.x, to: p.foot.x, shift: upright, under: toShelf},
		{from: p.foot.x, to: tail, shift: leanRear(p.foot.x), under: toTop}}
}

// fade runs straight from 0 at a to 1 at b, whichever way round, and stays there.
func fade(a, b, v float64) float64 { return geom.Clamp((v-a)/(b-a), 0, 1) }
