package sheet

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/outline"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// levels draws roof, belt, sill and clearance.
func (d *drawing) levels() {
	p := d.plan
	if d.wants("roof") {
		d.level("roof", "roof", roofLine(), p.Height(), d.x(max(p.Nose(), p.PillarHead().X-1)), d.reach)
	}
	if d.wants("belt") {
		d.belt()
	}
	if d.wants("sill") {
		d.sill()
	}
	if d.wants("clearance") {
		d.level("clearance", "clearance", clearanceLine(), p.Clearance(), d.x(.5), d.x(p.Wheelbase()-p.RearRadius()))
	}
}

// sill draws the sill between the wheel arches, ahead of them and behind.
func (d *drawing) sill() {
	p := d.plan
	front := chord(p.FrontArch(), .5-p.Sill())
	rear := chord(p.RearArch(), p.RearRadius()-p.Sill())
	d.level("sill", "sill-front", sillLine(), p.Sill(), d.x(p.Nose()), d.x(-front))
	d.level("sill", "sill", sillLine(), p.Sill(), d.x(front), d.x(p.Wheelbase()-rear))
	d.level("sill", "sill-rear", sillLine(), p.Sill(), d.x(p.Wheelbase()+rear), d.reach)
}

// chord returns half the chord of a circle of radius r at distance h from its centre.
func chord(r, h geom.Wheels) geom.Wheels {
	return geom.Wheels(math.Sqrt(math.Max(0, float64(r*r)-float64(h*h))))
}

// slight is the most a belt line may climb from mid-wheelbase to the tail, on paper, and still be one line.
const slight geom.MM = 1.2

// belt draws the belt line. A sloped one runs nose to tail and turns about mid-wheelbase, from where a hair
// level alone goes on to the rule, so that brackets and numbers speak of one height.
func (d *drawing) belt() {
	p := d.plan
	middle := p.Wheelbase() / 2
	at := func(x geom.Wheels) layout.Point { return layout.Point{X: x, Y: p.BeltAt(x)} }
	climb := d.long(p.BeltAt(p.Tail()) - p.Belt())
	if max(climb, -climb) < slight {
		d.rule("belt", "belt", guideLine(), at(p.Nose()), at(d.wheels(d.reach-d.origin.X)))
		return
	}
	d.rule("belt", "belt", guideLine(), at(p.Nose()), at(p.Tail()))
	if d.reach > d.x(p.Tail()) {
		d.level("belt", "belt-level", levelLine(), p.Belt(), d.x(middle), d.reach)
		pivot := d.onPage(at(middle))
		d.Line("belt", "belt-pivot", levelLine(), pivot.Add(draft.Point{Y: -1.2}), pivot.Add(draft.Point{Y: 1.2}))
	}
}

// arches draws the wheel arches down to the sill.
func (d *drawing) arches() {
	p := d.plan
	for _, a := range []struct {
		id string
		c  layout.Point
		r  geom.Wheels
	}{{"arch-front", layout.Point{Y: .5}, p.FrontArch()}, {"arch-rear", layout.Point{X: p.Wheelbase(), Y: p.RearRadius()}, p.RearArch()}} {
		dip := math.Asin(math.Max(-1, math.Min(1, float64((a.c.Y-p.Sill())/a.r))))
		d.arc("arches", a.id, guideLine(), a.c, a.r, -dip, math.Pi+dip)
	}
}

// Lamp boxes are this long: a mark for the height, not the lens, whose length the outline shows.
const (
	frontLampLong geom.Wheels = .30
	rearLampLong  geom.Wheels = .24
)

// lamps draws a box for each lamp, open at nose and tail.
func (d *drawing) lamps() {
	p := d.plan
	box := func(id string, base, outer, inner geom.Wheels) {
		from, to := d.x(min(outer, inner)), d.x(max(outer, inner))
		d.level("lamps", id, guideLine(), base, from, to)
		d.level("lamps", id+"-top", guideLine(), base+p.LampDepth(), from, to)
		d.upright("lamps", id+"-end", guideLine(), inner, base, base+p.LampDepth())
	}
	box("lamp-front", p.FrontLamp(), p.Nose(), p.Nose()+frontLampLong)
	box("lamp-rear", p.RearLamp(), p.Tail(), p.Tail()-rearLampLong)
}

// glassEnd draws where the side glass ends: from the ground if the tyre is near, else only about the belt and above.
func (d *drawing) glassEnd() {
	p := d.plan
	foot := geom.Wheels(0)
	if p.GlassEnd() < p.RearEdge()-.5 {
		foot = p.Belt() - .25
	}
	d.upright("glass", "glass-end", glassLine(), p.GlassEnd(), foot, p.Height()+.1)
}

// pillar draws the A-pillar from foot to head, on to its aim on the front axle's vertical, and the band the aim may move in.
func (d *drawing) pillar(band bool) {
	p := d.plan
	aim := layout.Point{Y: p.PillarAim()}
	if band {
		lo, hi := layout.Point{Y: geom.Wheels(p.AimRange().Lo)}, layout.Point{Y: geom.Wheels(p.AimRange().Hi)}
		d.Fill("pillar", "", d.Inks.Wash, d.carry(layout.Path{}.Move(lo).Line(hi).Line(p.PillarHead()).Close()))
		d.rule("pillar", "pillar-low", bandLine(), lo, p.PillarHead())
		d.rule("pillar", "pillar-high", bandLine(), hi, p.PillarHead())
		for _, end := range []layout.Point{lo, hi} {
			q := d.onPage(end)
			d.Line("pillar", "", bandLine(), q.Add(draft.Point{X: -1.2}), q.Add(draft.Point{X: 1.2}))
		}
	}
	below := aim.Y < 0
	if below {
		// It crosses the axle's vertical below the ground, where rules and words are: it is drawn down to the ground.
		aim = layout.Point{X: p.PillarFoot().X - geom.Wheels(float64(p.PillarFoot().Y)/p.PillarRake().Tan())}
	}
	d.rule("pillar", "pillar-aim", aimLine(), aim, p.PillarFoot())
	d.rule("pillar", "pillar", pillarLine(), p.PillarFoot(), p.PillarHead())
	if !below {
		d.Circle("pillar", "pillar-mark", ringLine(), draft.Ring{Centre: d.onPage(aim), R: .9})
	}
}

// angles draws the ground angles: the line that touches a tyre and passes the lower corner ahead of it or behind it, as far as
// the guides reach, and the ramp under the belly.
func (d *drawing) angles() {
	approach, departure, rampFront, rampRear := d.plan.AngleLines()
	from, to := d.angleEnds()
	d.rule("checks", "angle-approach", angleLine(), approach.Touch, from)
	d.rule("checks", "angle-departure", angleLine(), departure.Touch, to)
	d.rule("checks", "angle-breakover-front", angleLine(), rampFront.Touch, rampFront.Corner)
	d.rule("checks", "angle-breakover-rear", angleLine(), rampRear.Touch, rampRear.Corner)
}

// angleEnds returns where the lines of approach and departure end: a little ahead of the nose, and at the upright rule; steep ones at
// the roof's height.
func (d *drawing) angleEnds() (front, rear layout.Point) {
	const ahead geom.Wheels = .25
	approach, departure, _, _ := d.plan.AngleLines()
	front = approach.ExtendTo(d.plan.Nose()-ahead, d.plan.Height())
	end := d.plan.Tail() + ahead
	if d.rail > 0 {
		end = d.wheels(d.reach - d.origin.X)
	}
	return front, departure.ExtendTo(end, d.plan.Height())
}

// tyres draws both tyres with their rims.
func (d *drawing) tyres() {
	d.tyre(true)
	d.tyre(false)
	for _, front := range []bool{true, false} {
		c, _, rim, _ := d.tyreAt(front)
		d.wheelAt("wheels", "", rimLine(), c, rim)
	}
}

// crosses marks the wheel centres where no axle lines do.
func (d *drawing) crosses() {
	d.cross(true)
	d.cross(false)
}

// tyreAt returns centre, radius, rim's radius and id of one wheel of the plan.
func (d *drawing) tyreAt(front bool) (c layout.Point, r, rim geom.Wheels, id string) {
	p := d.plan
	if front {
		return layout.Point{Y: .5}, .5, geom.Wheels(p.Rim() / 2), "wheel-front"
	}
	return layout.Point{X: p.Wheelbase(), Y: p.RearRadius()}, p.RearRadius(), p.RearRadius() * geom.Wheels(p.RearRim()), "wheel-rear"
}

// tyre draws one tyre without its rim.
func (d *drawing) tyre(front bool) {
	c, r, _, id := d.tyreAt(front)
	d.wheelAt("wheels", id, tyreLine(), c, r)
}

// cross marks one wheel's centre.
func (d *drawing) cross(front bool) {
	c, _, _, _ := d.tyreAt(front)
	q := d.onPage(c)
	d.Line("wheels", "", rimLine(), q.Add(draft.Point{X: -1.2}), q.Add(draft.Point{X: 1.2}))
	d.Line("wheels", "", rimLine(), q.Add(draft.Point{Y: -1.2}), q.Add(draft.Point{Y: 1.2}))
}

// apart is how far two parallel dashed guides must lie apart on paper to be read as two.
const apart geom.MM = .8

// axles draws the axle line through the wheel centres and the uprights through both axles. Where the
// sill coincides with the axle line the sill keeps the body and the axle line only crosses the wheels:
// two dash patterns on one line read as neither.
func (d *drawing) axles() {
	p := d.plan
	from, to := reachOf(p)
	gap := d.long(p.Sill() - .5)
	if max(gap, -gap) < apart && d.wants("sill") {
		const off = .02
		d.level("wheels", "axle-lead", axleLine(), .5, d.x(from), d.x(p.Nose()))
		d.level("wheels", "axle-line", axleLine(), .5, d.x(-p.FrontArch()+off), d.x(p.FrontArch()-off))
		d.level("wheels", "axle-line-rear", axleLine(), .5, d.x(p.Wheelbase()-p.RearArch()+off), d.x(p.Wheelbase()+p.RearArch()-off))
	} else {
		d.level("wheels", "axle-line", axleLine(), .5, d.x(from), d.x(to))
	}
	d.upright("wheels", "axle-front", axleLine(), 0, -.06, max(1, geom.Wheels(p.AimRange().Hi))+.22)
	d.upright("wheels", "axle-rear", axleLine(), p.Wheelbase(), -.06, 1.22)
}

// ground draws the road between two x of the page.
func (d *drawing) ground(from, to geom.MM) {
	d.level("ground", "ground", groundLine(), 0, from, to)
}

// step draws one guide.
type step struct {
	guide request.Guide
	draw  func()
}

// draw draws outline, levels and the steps, as far as their guides are wanted.
func (d *drawing) draw(outline bool, steps []step) {
	if outline && d.wants("outline") {
		d.outline()
	}
	d.levels()
	for _, s := range steps {
		if d.wants(s.guide) {
			s.draw()
		}
	}
}

// outline draws the body over the guides: fills first, hair lines inside.
func (d *drawing) outline() {
	for _, l := range outline.Of(d.plan).Lines {
		id := l.Name
		if l.Kind == outline.Body {
			id = "outline"
		} else {
			id = "outline-" + id
		}
		path := d.carry(l.Path)
		switch l.Kind {
		case outline.Body:
			d.Fill("outline", "", d.Inks.Body, path)
			d.Curve("outline", id, outlineLine(), path, 8)
		case outline.Glass:
			d.Fill("outline", "", d.Inks.Side, path)
			d.Curve("outline", id, outlineLine(), path, 8)
		case outline.Lamp:
			d.Fill("outline", "", d.Inks.Side, path)
			d.Curve("outline", id, detailLine(), path, 4)
		case outline.Hairline:
			d.Curve("outline", id, detailLine(), path, 4)
		case outline.Dashed:
			d.Curve("outline", id, dashedLine(), path, 8)
		}
	}
}
