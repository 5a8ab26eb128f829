package perspective

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// arcs draws runs of a circle in space as arcs of its image e, or as polylines where e is nearly edge-on.
func (d *drawing) arcs(id string, k draft.LineStyle, e view.Ellipse, lines [][]view.ImagePoint) {
	shape := d.ellipse(e)
	for _, run := range lines {
		if shape.Short < .02*shape.Long || len(run) < 3 {
			d.polylines("wheels", id, k, [][]view.ImagePoint{run})
			id = ""
			continue
		}
		from, to := parameter(e, run[0]), parameter(e, run[len(run)-1])
		// Clockwise on the page is the sense of the parameter.
		if mid := parameter(e, run[len(run)/2]); math.Mod(mid-from+4*math.Pi, 2*math.Pi) > math.Mod(to-from+4*math.Pi, 2*math.Pi) {
			from, to = to, from
		}
		for to <= from+1e-9 {
			to += 2 * math.Pi
		}
		d.Ellipse(k.For("wheels", id), shape, from, to)
		id = ""
	}
}

// parameter returns the parameter of the point of e at s.
func parameter(e view.Ellipse, s view.ImagePoint) float64 {
	sin, cos := math.Sincos(e.Angle)
	off := s.Sub(e.Centre)
	along := float64(float64(off.X)*cos) + float64(float64(off.Y)*sin)
	over := float64(float64(off.Y)*cos) - float64(float64(off.X)*sin)
	return math.Atan2(over/float64(e.Short), along/float64(e.Long))
}

// nearWheel draws near wheel i: the outer edge whole, the visible parts of the inner edge and the tread, and the rim.
func (d *drawing) nearWheel(i int) {
	w := d.wheels[i]
	d.innerEdge(i)
	d.Ellipse(counting.TyreLine().For("wheels", "wheel-"+w.Wheel.Name), d.ellipse(w.Outer), 0, 0)
	d.Ellipse(counting.RimLine().For("wheels", "rim-"+w.Wheel.Name), d.ellipse(w.Rim), 0, 0)
}

// innerEdge draws the inner edge of wheel i and the outline of its tread.
func (d *drawing) innerEdge(i int) {
	w := d.wheels[i]
	if d.noBody {
		tread(d.Surface, d.mapping, w, "wheel-inner-"+w.Wheel.Name)
		return
	}
	for _, r := range d.wheelLines[i] {
		switch r.kind {
		case view.TyreInnerLine:
			d.arcs(r.name, innerLine(), w.Inner, r.seen)
			d.arcs("", hiddenLine(), w.Inner, r.hidden)
		case view.TreadLine:
			d.polylines("wheels", r.name, innerLine(), r.seen)
			d.polylines("wheels", "", hiddenLine(), r.hidden)
		}
	}
}

// tread draws the inner edge of a wheel and the outline of its tread as only the tyre itself hides them.
func tread(b *draft.Surface, m mapping, w view.WheelImage, id string) {
	if !w.HasTreads {
		return
	}
	seen, hidden := innerArcs(w)
	b.Ellipse(innerLine().For("wheels", id), m.ellipse(w.Inner), seen[0], seen[1])
	b.Ellipse(hiddenLine().For("wheels", ""), m.ellipse(w.Inner), hidden[0], hidden[1])
	for _, t := range w.Treads {
		b.Line(innerLine().For("wheels", ""), m.toPage(t[0]), m.toPage(t[1]))
	}
}

// innerArcs splits a wheel's inner edge, where the tread's outline touches it, into the arc that the tyre leaves visible and the one it
// hides. Both are parameters of the ellipse.
func innerArcs(w view.WheelImage) (seen, hidden [2]float64) {
	a, b := parameter(w.Inner, w.Treads[0][1]), parameter(w.Inner, w.Treads[1][1])
	for b <= a {
		b += 2 * math.Pi
	}
	one, other := [2]float64{a, b}, [2]float64{b, a + 2*math.Pi}
	// The visible arc lies away from the outer edge.
	away := w.Inner.Centre.Sub(w.Outer.Centre)
	distance := func(arc [2]float64) float64 {
		return w.Inner.At((arc[0] + arc[1]) / 2).Sub(w.Inner.Centre).Dot(away)
	}
	if distance(one) > distance(other) {
		return one, other
	}
	return other, one
}

// farWheel draws far wheel i: both edges dashed, with their visible parts over them.
func (d *drawing) farWheel(i int) {
	w := d.wheels[i]
	name := w.Wheel.Name
	if d.noBody { // only the tyre itself hides its far edge
		d.Ellipse(farTyreLine().For("wheels", "wheel-"+name), d.ellipse(w.Outer), 0, 0)
		d.Ellipse(counting.TyreLine().For("wheels", "wheel-inner-"+name), d.ellipse(w.Inner), 0, 0)
		return
	}
	d.Ellipse(hiddenLine().For("wheels", "wheel-"+name), d.ellipse(w.Outer), 0, 0)
	d.Ellipse(hiddenLine().For("wheels", "wheel-inner-"+name), d.ellipse(w.Inner), 0, 0)
	for _, r := range d.wheelLines[i] {
		switch r.kind {
		case view.TyreOuterLine:
			d.arcs("", innerLine(), w.Outer, r.seen)
		case view.TyreInnerLine:
			d.arcs("", innerLine(), w.Inner, r.seen)
		case view.TreadLine:
			d.polylines("wheels", "", innerLine(), r.seen)
		}
	}
}

// nearWheels and farWheels draw the wheels of a side, the rear one first.
func (d *drawing) nearWheels() { d.nearWheel(1); d.nearWheel(0) }
func (d *drawing) farWheels()  { d.farWheel(3); d.farWheel(2) }

// countedWheels returns the images of the wheels counted between the near tyres, in the plane of the front one's outer edge.
func (d *drawing) countedWheels() []geom.Ellipse[geom.MM] {
	var out []geom.Ellipse[geom.MM]
	side := d.wheels[0].Wheel.Centre.Z
	for k := 1; k <= counting.WholeWheels(d.plan.WheelsBetween()); k++ {
		e, err := d.camera.Circle(view.Point3{X: geom.Wheels(k), Y: .5, Z: side}, view.Point3{X: .5}, view.Point3{Y: .5})
		if err != nil { // impossible: each lies between two tyres that are seen
			panic("perspective: cannot project a counted wheel: " + err.Error())
		}
		out = append(out, d.ellipse(e))
	}
	return out
}

// between draws the counted wheels.
func (d *drawing) between() {
	for k, e := range d.countedWheels() {
		d.Ellipse(counting.CountedLine().For("between", fmt.Sprintf("between-%d", k+1)), e, 0, 0)
	}
}

// nearAxes draws the axes of the near wheels' ellipses and their axles: the short axis nearly follows the axle.
func (d *drawing) nearAxes() {
	for _, i := range []int{0, 1} {
		d.draw(part{"axis", func(d *drawing) { d.axes(i) }}, part{"axles", func(d *drawing) { d.axle(i) }})
	}
}

// axes draws the long and the short axis of wheel i's ellipse.
func (d *drawing) axes(i int) {
	e, name := d.ellipse(d.wheels[i].Outer), d.wheels[i].Wheel.Name
	d.Line(counting.RimLine().For("axis", "axis-long-"+name), e.At(0), e.At(math.Pi))
	d.Line(counting.RimLine().For("axis", "axis-short-"+name), e.At(math.Pi/2), e.At(-math.Pi/2))
}

// axle draws the axle of wheel i from its centre outwards.
func (d *drawing) axle(i int) {
	const out geom.Wheels = .62
	c := d.wheels[i].Wheel.Centre
	side := geom.Wheels(1)
	if c.Z < 0 {
		side = -1
	}
	d.spaceLine("axles", "axle-"+d.wheels[i].Wheel.Name, counting.AxleLine(), c, view.Point3{X: c.X, Y: c.Y, Z: c.Z + side*out})
}

// uprights draws the axles' uprights on the near side.
func (d *drawing) uprights() {
	for _, i := range []int{0, 1} {
		w := d.wheels[i].Wheel
		over := geom.Wheels(1.22)
		if i == 0 {
			over = max(over, d.plan.PillarAim()+.1)
		}
		d.Line(counting.AxleLine().For("axles", "upright-"+w.Name), d.at(view.Point3{X: w.Centre.X, Z: w.Centre.Z}),
			d.at(view.Point3{X: w.Centre.X, Y: over, Z: w.Centre.Z}))
	}
}

// axlePlanes draws where the planes of both axles meet the ground, from side to side of the enclosing box.
func (d *drawing) axlePlanes() {
	for _, i := range []int{0, 1} {
		near, far := d.wheels[i].Wheel.Centre, d.wheels[i+2].Wheel.Centre
		s, ok := d.visible(view.Point3{X: near.X, Z: near.Z}, view.Point3{X: far.X, Z: far.Z})
		if ok {
			d.polylines("axles", "ground-"+d.wheels[i].Wheel.Name, behindLine(), d.clip(s, d.uncovered))
		}
	}
}

// spaceLine draws the visible part of a line in space.
func (d *drawing) spaceLine(guide request.Guide, id string, k draft.LineStyle, a, b view.Point3) {
	if s, ok := d.visible(a, b); ok {
		d.Line(k.For(guide, id), d.toPage(s.from), d.toPage(s.to))
	}
}
