package view

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// In wheels; judged by eye.
const (
	screenFrame  = .15 // body beside a rear screen
	besideLamp   = .03 // between a lamp and the shut line beside it
	underSpoiler = .03 // of a rear screen
)

// rearLines are the rear screen, the shut lines of what opens at the rear, bumper and number plate.
func (s *Solid) rearLines() []Line {
	p := &s.places
	shape, shelf := s.plan.Profile.Shape, float64(s.outline.RearShelf[1])
	out := []Line{s.bumper("bumper-rear", false)}
	if ends := s.outline.RearCladding; ends[0] != ends[1] {
		out = append(out, s.round("cladding-rear", false, ends))
	}
	inside := func(inset float64) func(y float64) float64 {
		return func(y float64) float64 { return math.Max(.1, s.endHalf(y, false)-inset) }
	}
	drawn := func(name string, kind LineKind, heights span, exponent float64, half func(float64) float64) {
		out = append(out, s.drawn(name, kind, loop{heights: heights, exponent: exponent, half: half}))
	}
	belt := float64(s.plan.BeltAt(s.plan.GlassEnd()))
	top, lamp := math.Min(p.deckEnd.y, float64(s.plan.Height()))-.06, s.lampStrip(false)
	switch s.form {
	case segments.ThreeBox:
		drawn("rear-screen", GlassLine, span{p.foot.y + .05, math.Min(p.roofEnd.y-.03, p.screenTop.y-.02)}, 7, inside(screenFrame))
		out = append(out, s.lid())
	case segments.Bed:
		const handle, high, under = .15, .05, .12
		drawn("rear-screen", GlassLine, span{p.foot.y + .09, p.screenTop.y - .02}, 7, inside(screenFrame))
		drawn("tailgate", DetailLine, span{shelf + .03, p.deckEnd.y - .04}, 20, constant(math.Min(s.wellHalf(), lamp.z-besideLamp)))
		drawn("handle", DetailLine, span{p.deckEnd.y - under - high, p.deckEnd.y - under}, 12, constant(handle))
	case segments.TwoBox, segments.OneBox:
		if s.plan.Profile.HasLoadBox() { // two doors, each with a pane
			out = append(out, s.cargoDoors(span{belt + .06, top - .03}, shelf+.02, top+.06)...)
			break
		}
		glass := span{math.Max(belt-float64(s.shape.RearGlass), shelf+.3), top}
		if y := float64(s.outline.Spoiler[0].Y); y > 0 {
			out, glass.hi = append(out, s.spoiler()...), math.Min(top, y-underSpoiler)
		}
		out = append(out, s.tailgate(glass, shelf+.02)...)
	case segments.Fastback:
		out = append(out, s.fastScreen())
	}
	high := 55 / s.plan.Value(segments.Wheel)
	plate := shelf + geom.Clamp(.5*(float64(s.outline.RearLamp.HighOuter.Y)-shelf), .13, .20)
	if shape.Face == segments.LowFace || shape.Tail.Block || s.plan.Profile.HasLoadBox() { // in the bumper
		part := math.Min(shelf, s.bumperAt(false))
		plate = part - math.Max(.30*(part-p.heel.y), high) - .03
	}
	if shape.Face == segments.LowFace {
		if hi := math.Min(mix(p.heel.y, shelf, .42), plate-high-.05); hi > p.heel.y+.06 {
			drawn("valance", DetailLine, span{p.heel.y + .02, hi}, 12, constant(.50*s.width/2))
		}
	}
	return append(out, s.plate(plate))
}

// tailgate is the shut line of a tailgate from a height up, and the screen in it: between the lamps, wider over them unless they stand
// beside the glass.
func (s *Solid) tailgate(glass span, low float64) []Line {
	const seam, widens, under = .08, .45, .1 // seam: body between the screen and the tailgate's edge
	lamp := s.lampStrip(false)
	top := glass.hi + .04
	if y := float64(s.outline.Spoiler[0].Y); y > 0 {
		top = y + under
	}
	half := func(y float64) float64 {
		wide := math.Max(.1, s.endHalf(y, false)-screenFrame+seam)
		narrow := math.Min(wide, lamp.z-besideLamp)
		if lamp.middle.hi > glass.lo-.1 {
			return narrow
		}
		return mix(narrow, wide, ease(lamp.middle.hi, math.Min(lamp.middle.hi+widens, glass.lo+.1), y))
	}
	return []Line{
		s.drawn("rear-screen", GlassLine, loop{heights: glass, exponent: 7, half: func(y float64) float64 { return half(y) - seam }}),
		s.drawn("tailgate", DetailLine, loop{heights: span{low, top}, exponent: 10, half: half}).under(s.outline.Spoiler[0].Y),
	}
}

// under returns the part of a closed line below a height, which cuts it twice; all of it where the height is 0.
func (l Line) under(y geom.Wheels) Line {
	over := func(p Point3) bool { return p.Y > y }
	from := slices.IndexFunc(l.Points, over)
	if y == 0 || from < 0 {
		return l
	}
	out := Line{Name: l.Name, Kind: l.Kind, onSurface: l.onSurface}
	for i := range l.Points[1:] {
		if k := (from + i) % (len(l.Points) - 1); !over(l.Points[k]) {
			out.add(l.vertex(k))
		}
	}
	return out
}

// spoiler is a roof spoiler's lower edge, round the corners, and its ends up to the roof.
func (s *Solid) spoiler() []Line {
	const steps, over = 16, .08 // over: how far below the roof's line its ends are lost in the roof
	ends := s.outline.Spoiler
	end := Line{Name: "spoiler-end", Kind: DetailLine, onSurface: true}
	roof := place{float64(ends[1].X) - .05, 0}
	roof.y = s.top.value(roof.x) - over
	for i := range steps + 1 {
		end.add(s.outer(at(ends[1]).mix(roof, float64(i)/steps)))
	}
	return append(onBothSides([]Line{end}), s.round("spoiler", false, ends))
}

// cargoDoors are the two doors of a load box with their panes.
func (s *Solid) cargoDoors(panes span, low, high float64) []Line {
	const steps, gap = 40, .10
	split := Line{Name: "tailgate", Kind: DetailLine, onSurface: true}
	for i := range steps + 1 {
		split.add(s.onEnd(mix(low, high, float64(i)/steps), 0, false))
	}
	half := (s.endHalf(panes.hi, false) - screenFrame - gap) / 2
	pane := s.drawn("rear-screen-left", GlassLine, loop{heights: panes, exponent: 9, half: constant(half), aside: gap + half})
	other := pane.mirrored()
	other.Name = "rear-screen-right"
	return []Line{split, pane, other}
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
	low := float64(s.outline.RearShelf[1]) + .02
	wide := s.endHalf(p.foot.y+.05, false) - screenFrame
	narrow := s.lampStrip(false).z - besideLamp
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
	l := Line{Name: "lid", Kind: DetailLine, onSurface: true, grazed: true}
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
