package counting

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/outline"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// Levels draws roof, belt, sill and clearance.
func (d *Drawing) Levels() {
	p := d.Plan
	if d.Wants("roof") {
		d.Level(RoofLine().For("roof", "roof"), p.Height(), d.X(max(p.Nose(), p.PillarHead().X-1)), d.LevelsEnd)
	}
	if d.Wants("belt") {
		d.Belt()
	}
	if d.Wants("sill") {
		d.Sill()
	}
	if d.Wants("clearance") {
		d.Level(ClearanceLine().For("clearance", "clearance"), p.Clearance(), d.X(.5), d.X(p.Wheelbase()-p.RearRadius()))
	}
}

// Sill draws the sill between the wheel arches, ahead of them and behind.
func (d *Drawing) Sill() {
	p := d.Plan
	front := HalfChord(p.FrontArch(), .5-p.Sill())
	rear := HalfChord(p.RearArch(), p.RearRadius()-p.Sill())
	d.Level(SillLine().For("sill", "sill-front"), p.Sill(), d.X(p.Nose()), d.X(-front))
	d.Level(SillLine().For("sill", "sill"), p.Sill(), d.X(front), d.X(p.Wheelbase()-rear))
	d.Level(SillLine().For("sill", "sill-rear"), p.Sill(), d.X(p.Wheelbase()+rear), d.LevelsEnd)
}

// HalfChord returns half the chord of a circle of radius r at distance h from its centre.
func HalfChord(r, h geom.Wheels) geom.Wheels {
	return geom.Wheels(math.Sqrt(math.Max(0, float64(r*r)-float64(h*h))))
}

// slight is the most a belt line may climb from mid-wheelbase to the tail, on paper, and still be one line.
const maxClimb geom.MM = 1.2

// Belt draws the belt line. A sloped one runs nose to tail and turns about mid-wheelbase, from where a hair
// level alone goes on to the rule, so that brackets and numbers speak of one height.
func (d *Drawing) Belt() {
	p := d.Plan
	middle := p.Wheelbase() / 2
	at := func(x geom.Wheels) layout.Point { return layout.Point{X: x, Y: p.BeltAt(x)} }
	climb := d.MM(p.BeltAt(p.Tail()) - p.Belt())
	if max(climb, -climb) < maxClimb {
		d.Rule(GuideLine().For("belt", "belt"), at(p.Nose()), at(d.Wheels(d.LevelsEnd-d.Origin.X)))
		return
	}
	d.Rule(GuideLine().For("belt", "belt"), at(p.Nose()), at(p.Tail()))
	if d.LevelsEnd > d.X(p.Tail()) {
		d.Level(levelLine().For("belt", "belt-level"), p.Belt(), d.X(middle), d.LevelsEnd)
		pivot := d.OnPage(at(middle))
		d.Line(levelLine().For("belt", "belt-pivot"), pivot.Add(draft.Point{Y: -1.2}), pivot.Add(draft.Point{Y: 1.2}))
	}
}

// Arches draws the wheel arches down to the sill.
func (d *Drawing) Arches() {
	p := d.Plan
	for _, a := range []struct {
		id string
		c  layout.Point
		r  geom.Wheels
	}{{"arch-front", layout.Point{Y: .5}, p.FrontArch()}, {"arch-rear", layout.Point{X: p.Wheelbase(), Y: p.RearRadius()}, p.RearArch()}} {
		dip := math.Asin(math.Max(-1, math.Min(1, float64((a.c.Y-p.Sill())/a.r))))
		d.arc(GuideLine().For("arches", a.id), a.c, a.r, -dip, math.Pi+dip)
	}
}

// Lamp boxes are this long: a mark for the height, not the lens, whose length the outline shows.
const (
	FrontLampLength geom.Wheels = .30
	RearLampLength  geom.Wheels = .24
)

// Lamps draws a box for each lamp, open at nose and tail.
func (d *Drawing) Lamps() {
	p := d.Plan
	box := func(id string, base, outer, inner geom.Wheels) {
		from, to := d.X(min(outer, inner)), d.X(max(outer, inner))
		d.Level(GuideLine().For("lamps", id), base, from, to)
		d.Level(GuideLine().For("lamps", id+"-top"), base+p.LampDepth(), from, to)
		d.Upright(GuideLine().For("lamps", id+"-end"), inner, base, base+p.LampDepth())
	}
	box("lamp-front", p.FrontLamp(), p.Nose(), p.Nose()+FrontLampLength)
	box("lamp-rear", p.RearLamp(), p.Tail(), p.Tail()-RearLampLength)
}

// GlassEnd draws where the side glass ends: from the ground if the tyre is near, else only about the belt and above.
func (d *Drawing) GlassEnd() {
	p := d.Plan
	foot := geom.Wheels(0)
	if p.GlassEnd() < p.RearEdge()-.5 {
		foot = p.Belt() - .25
	}
	d.Upright(GlassLine().For("glass", "glass-end"), p.GlassEnd(), foot, p.Height()+.1)
}

// Pillar draws the A-pillar from foot to head, on to its aim on the front axle's vertical, and the band the aim may move in.
func (d *Drawing) Pillar(band bool) {
	p := d.Plan
	aim := layout.Point{Y: p.PillarAim()}
	if band {
		lo, hi := layout.Point{Y: geom.Wheels(p.AimRange().Lo)}, layout.Point{Y: geom.Wheels(p.AimRange().Hi)}
		d.Fill("pillar", "", d.Inks.Wash, d.Path(layout.Path{}.Move(lo).Line(hi).Line(p.PillarHead()).Close()))
		d.Rule(bandLine().For("pillar", "pillar-low"), lo, p.PillarHead())
		d.Rule(bandLine().For("pillar", "pillar-high"), hi, p.PillarHead())
		for _, end := range []layout.Point{lo, hi} {
			q := d.OnPage(end)
			d.Line(bandLine().For("pillar", ""), q.Add(draft.Point{X: -1.2}), q.Add(draft.Point{X: 1.2}))
		}
	}
	below := aim.Y < 0
	if below {
		// It crosses the axle's vertical below the ground, where rules and words are: it is drawn down to the ground.
		aim = layout.Point{X: p.PillarFoot().X - geom.Wheels(float64(p.PillarFoot().Y)/p.PillarRake().Tan())}
	}
	d.Rule(AimLine().For("pillar", "pillar-aim"), aim, p.PillarFoot())
	d.Rule(PillarLine().For("pillar", "pillar"), p.PillarFoot(), p.PillarHead())
	if !below {
		d.Circle(RingLine().For("pillar", "pillar-mark"), draft.Circle{Centre: d.OnPage(aim), R: .9})
	}
}

// Angles draws the ground angles: the line that touches a tyre and passes the lower corner ahead of it or behind it, as far as
// the guides reach, and the ramp under the belly.
func (d *Drawing) Angles() {
	approach, departure, rampFront, rampRear := d.Plan.AngleLines()
	from, to := d.AngleEnds()
	d.Rule(AngleLine().For("checks", "angle-approach"), approach.Touch, from)
	d.Rule(AngleLine().For("checks", "angle-departure"), departure.Touch, to)
	d.Rule(AngleLine().For("checks", "angle-breakover-front"), rampFront.Touch, rampFront.Corner)
	d.Rule(AngleLine().For("checks", "angle-breakover-rear"), rampRear.Touch, rampRear.Corner)
}

// AngleEnds returns where the lines of approach and departure end: a little ahead of the nose, and at the upright rule; steep ones at
// the roof's height.
func (d *Drawing) AngleEnds() (front, rear layout.Point) {
	const ahead geom.Wheels = .25
	approach, departure, _, _ := d.Plan.AngleLines()
	front = approach.ExtendTo(d.Plan.Nose()-ahead, d.Plan.Height())
	end := d.Plan.Tail() + ahead
	if d.RuleX > 0 {
		end = d.Wheels(d.LevelsEnd - d.Origin.X)
	}
	return front, departure.ExtendTo(end, d.Plan.Height())
}

// Tyres draws both tyres with their rims.
func (d *Drawing) Tyres() {
	d.Tyre(true)
	d.Tyre(false)
	for _, front := range []bool{true, false} {
		c, _, rim, _ := d.tyreAt(front)
		d.WheelAt(RimLine().For("wheels", ""), c, rim)
	}
}

// Crosses marks the wheel centres where no axle lines do.
func (d *Drawing) Crosses() {
	d.Cross(true)
	d.Cross(false)
}

// tyreAt returns centre, radius, rim's radius and id of one wheel of the plan.
func (d *Drawing) tyreAt(front bool) (c layout.Point, r, rim geom.Wheels, id string) {
	p := d.Plan
	if front {
		return layout.Point{Y: .5}, .5, geom.Wheels(p.Rim() / 2), "wheel-front"
	}
	return layout.Point{X: p.Wheelbase(), Y: p.RearRadius()}, p.RearRadius(), p.RearRadius() * geom.Wheels(p.RearRim()), "wheel-rear"
}

// Tyre draws one tyre without its rim.
func (d *Drawing) Tyre(front bool) {
	c, r, _, id := d.tyreAt(front)
	d.WheelAt(TyreLine().For("wheels", id), c, r)
}

// Cross marks one wheel's centre.
func (d *Drawing) Cross(front bool) {
	c, _, _, _ := d.tyreAt(front)
	q := d.OnPage(c)
	d.Line(RimLine().For("wheels", ""), q.Add(draft.Point{X: -1.2}), q.Add(draft.Point{X: 1.2}))
	d.Line(RimLine().For("wheels", ""), q.Add(draft.Point{Y: -1.2}), q.Add(draft.Point{Y: 1.2}))
}

// apart is how far two parallel dashed guides must lie apart on paper to be read as two.
const leastGap geom.MM = .8

// Axles draws the axle line through the wheel centres and the uprights through both axles. Where the
// sill coincides with the axle line the sill keeps the body and the axle line only crosses the wheels:
// two dash patterns on one line read as neither.
func (d *Drawing) Axles() {
	p := d.Plan
	from, to := GuideExtent(p)
	gap := d.MM(p.Sill() - .5)
	if max(gap, -gap) < leastGap && d.Wants("sill") {
		const off = .02
		d.Level(AxleLine().For("wheels", "axle-lead"), .5, d.X(from), d.X(p.Nose()))
		d.Level(AxleLine().For("wheels", "axle-line"), .5, d.X(-p.FrontArch()+off), d.X(p.FrontArch()-off))
		d.Level(AxleLine().For("wheels", "axle-line-rear"), .5, d.X(p.Wheelbase()-p.RearArch()+off), d.X(p.Wheelbase()+p.RearArch()-off))
	} else {
		d.Level(AxleLine().For("wheels", "axle-line"), .5, d.X(from), d.X(to))
	}
	d.Upright(AxleLine().For("wheels", "axle-front"), 0, -.06, max(1, geom.Wheels(p.AimRange().Hi))+.22)
	d.Upright(AxleLine().For("wheels", "axle-rear"), p.Wheelbase(), -.06, 1.22)
}

// Ground draws the road between two x of the page.
func (d *Drawing) Ground(from, to geom.MM) {
	d.Level(GroundLine().For("ground", "ground"), 0, from, to)
}

// Step draws one guide.
type Step struct {
	Guide request.Guide
	Draw  func()
}

// DrawSteps draws outline, levels and the steps, as far as their guides are wanted.
func (d *Drawing) DrawSteps(outline bool, steps []Step) {
	if outline && d.Wants("outline") {
		d.Outline()
	}
	d.Levels()
	for _, s := range steps {
		if d.Wants(s.Guide) {
			s.Draw()
		}
	}
}

// Outline draws the body over the guides: fills first, hair lines inside.
func (d *Drawing) Outline() {
	for _, l := range outline.Of(d.Plan).Lines {
		id := l.Name
		if l.Kind == outline.Body {
			id = "outline"
		} else {
			id = "outline-" + id
		}
		path := d.Path(l.Path)
		switch l.Kind {
		case outline.Body:
			d.Fill("outline", "", d.Inks.Body, path)
			d.Curve(OutlineLine().For("outline", id), path, 8)
		case outline.Glass:
			d.Fill("outline", "", d.Inks.Side, path)
			d.Curve(OutlineLine().For("outline", id), path, 8)
		case outline.Lamp:
			d.Fill("outline", "", d.Inks.Side, path)
			d.Curve(DetailLine().For("outline", id), path, 4)
		case outline.Hairline:
			d.Curve(DetailLine().For("outline", id), path, 4)
		case outline.Dashed:
			d.Curve(dashedLine().For("outline", id), path, 8)
		}
	}
}
