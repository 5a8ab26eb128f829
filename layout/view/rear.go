package view

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/segments"
)

const screenFrame = .15 // body beside a rear screen, in wheels; judged by eye

// rearLines are the rear screen, the shut lines of what opens at the rear, bumper and number plate.
func (s *Solid) rearLines() []Line {
	p := &s.places
	bumper := s.bumperAt(false)
	out := []Line{s.bumper("bumper-rear", false)}
	inside := func(inset float64) func(y float64) float64 {
		return func(y float64) float64 { return math.Max(.1, s.endHalf(y, false)-inset) }
	}
	screen := func(lo, hi float64) Line {
		return s.drawn("rear-screen", GlassLine, loop{false, span{lo, hi}, 7, inside(screenFrame)})
	}
	tailgate := func(heights span, exponent float64, half func(float64) float64) Line {
		return s.drawn("tailgate", DetailLine, loop{false, heights, exponent, half})
	}
	plate := s.places.heel.y + float64(.62*(bumper-s.places.heel.y))
	switch s.form {
	case segments.ThreeBox:
		out = append(out, screen(p.foot.y+.05, math.Min(p.roofEnd.y-.03, p.screenTop.y-.02)), s.lid())
		plate = float64(s.outline.RearLamp.Min.Y) + .02
	case segments.Bed:
		out = append(out, screen(p.foot.y+.09, p.screenTop.y-.02),
			tailgate(span{bumper + .06, p.deckEnd.y - .04}, 20, constant(s.wellHalf())))
	case segments.TwoBox, segments.OneBox:
		belt := float64(s.plan.BeltAt(s.plan.Tail()))
		top := math.Min(p.deckEnd.y, float64(s.plan.Height())) - .10
		out = append(out, screen(belt+.03, top), tailgate(span{bumper + .03, top + .06}, 10, inside(screenFrame-.07)))
		plate = mix(bumper, belt, .3)
	case segments.Fastback:
		out = append(out, s.fastScreen())
	}
	return append(out, s.plate("plate-rear", false, plate))
}

// fastScreen is a fastback's rear screen, on the upper surface behind the roof.
func (s *Solid) fastScreen() Line {
	p := &s.places
	from, to := p.roofEnd.x+.05, mix(p.roofEnd.x, p.deckEnd.x, .62)
	l := Line{Name: "rear-screen", Kind: GlassLine, onSurface: true, Closed: true}
	for _, q := range squared(7) {
		x := mix(from, to, (1+q.y)/2)
		half := s.halfOf(x, s.top.value(x)-float64(s.shape.RoofCrown), false)
		l.add(s.onTop(x, (half-screenFrame)*q.x))
	}
	return l
}

// lid is the shut line of a boot: from the feet of the rear screen along the deck, down the tail and across.
func (s *Solid) lid() Line {
	const steps = 30
	p := &s.places
	low := float64(s.outline.RearLamp.Min.Y) - .10
	wide := s.endHalf(p.foot.y+.05, false) - screenFrame
	narrow := s.width / 2 * (s.shape.RearLampReach + .10)
	centre := place{p.deckEnd.x - .3, p.deckEnd.y - .35}
	width := func(x float64) float64 { return mix(wide, narrow, fade(p.foot.x, centre.x, x)) }
	var half Line
	for i := range steps + 1 {
		x := mix(p.foot.x+.02, centre.x, float64(i)/steps)
		half.add(s.onTop(x, width(x)))
	}
	for i := 1; i <= steps; i++ {
		half.add(s.onSlice(centre, geom.Degrees(90-float64(90*i)/steps), narrow))
	}
	// z and y down the tail and in to the centre
	for _, q := range softened([]place{{narrow, centre.y}, {narrow, low}, {0, low}}, .03, 12) {
		half.add(s.onEnd(q.y, q.x, false))
	}
	l := Line{Name: "lid", Kind: DetailLine, onSurface: true}
	l.addLine(half)
	l.addMirrored(half)
	return l
}

// shelfLines are the edges of the level face at the foot of a rear screen: the screen's foot, and the shoulder beside it.
func (s *Solid) shelfLines() []Line {
	const steps = 40
	p := &s.places
	var half Line
	shoulder := Line{Name: "shoulder-edge"}
	for i := range steps + 1 {
		t := float64(i) / steps
		x := p.foot.x - s.bow.evenly(1-t)
		half.add(vertex{point3(x, p.foot.y, s.halfOf(x, p.foot.y, true)), point3(.5, 1, .5).Unit()})
		x = mix(p.foot.x-s.bow.depth, p.foot.x, t)
		shoulder.add(vertex{point3(x, p.foot.y, s.halfOf(x, p.foot.y, false)), point3(0, 1, 1).Unit()})
	}
	foot := Line{Name: "rear-screen-foot", Kind: GlassLine}
	foot.addLine(half)
	foot.addMirrored(half)
	return append([]Line{foot}, onBothSides([]Line{shoulder})...)
}
