package perspective

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render/counting"
	"hubrule/render/draft"
)

// arcs draws runs of a circle of the vehicle as parts of its ellipse e, where that is round enough to have any.
func (d *drawing) arcs(id string, k draft.LineStyle, e view.Ellipse, lines [][]view.ImagePoint) {
	shape := d.ellipse(e)
	for _, run := range lines {
		if shape.Short < .02*shape.Long || len(run) < 3 {
			d.polylines("wheels", id, k, [][]view.ImagePoint{run})
			id = ""
			continue
		}
		from, to := parameter(e, run[0]), parameter(e, run[len(run)-1])
		// The clock's sense on the page is the parameter's.
		if mid := parameter(e, run[len(run)/2]); math.Mod(mid-from+4*math.Pi, 2*math.Pi) > math.Mod(to-from+4*math.Pi, 2*math.Pi) {
			from, to = to, from
		}
		for to <= from+1e-9 {
			to += 2 * math.Pi
		}
		d.Ellipse("wheels", id, k, shape, from, to)
		id = ""
	}
}

// parameter returns the parameter of the place of e that s lies on.
func parameter(e view.Ellipse, s view.ImagePoint) float64 {
	sin, cos := math.Sincos(e.Angle)
	off := s.Sub(e.Centre)
	along := float64(float64(off.X)*cos) + float64(float64(off.Y)*sin)
	over := float64(float64(off.Y)*cos) - float64(float64(off.X)*sin)
	return math.Atan2(over/float64(e.Short), along/float64(e.Long))
}

// nearWheel draws wheel i of the near side: its outer edge whole, the inner one and the tread as far as they are seen, the rim.
func (d *drawing) nearWheel(i int) {
	w := d.wheels[i]
	d.innerEdge(i)
	d.Ellipse("wheels", "wheel-"+w.Wheel.Name, counting.TyreLine(), d.ellipse(w.Outer), 0, 0)
	d.Ellipse("wheels", "rim-"+w.Wheel.Name, counting.RimLine(), d.ellipse(w.Rim), 0, 0)
}

// innerEdge draws the inner edge of wheel i and its tread's outline.
func (d *drawing) innerEdge(i int) {
	w := d.wheels[i]
	name := w.Wheel.Name
	if d.noBody {
		if w.HasTreads {
			a, b := parameter(w.Inner, w.Treads[0][1]), parameter(w.Inner, w.Treads[1][1])
			seen, hidden := d.innerArcs(w, a, b)
			d.Ellipse("wheels", "wheel-inner-"+name, innerLine(), d.ellipse(w.Inner), seen[0], seen[1])
			d.Ellipse("wheels", "", hiddenLine(), d.ellipse(w.Inner), hidden[0], hidden[1])
			for _, t := range w.Treads {
				d.Line("wheels", "", innerLine(), d.toPage(t[0]), d.toPage(t[1]))
			}
		}
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

// innerArcs tells which part of a wheel's inner edge its own tyre leaves in sight, between the parameters at which the tread's outline
// touches it, and which it hides.
func (d *drawing) innerArcs(w view.WheelImage, a, b float64) (seen, hidden [2]float64) {
	for b <= a {
		b += 2 * math.Pi
	}
	one, other := [2]float64{a, b}, [2]float64{b, a + 2*math.Pi}
	// What is in sight lies farther out, away from the outer edge.
	away := w.Inner.Centre.Sub(w.Outer.Centre)
	far := func(arc [2]float64) float64 {
		return w.Inner.At((arc[0] + arc[1]) / 2).Sub(w.Inner.Centre).Dot(away)
	}
	if far(one) > far(other) {
		return one, other
	}
	return other, one
}

// farWheel draws wheel i of the far side: both edges whole and dashed, and what is seen of them over that.
func (d *drawing) farWheel(i int) {
	w := d.wheels[i]
	name := w.Wheel.Name
	if d.noBody { // only the tyre itself hides its far edge
		d.Ellipse("wheels", "wheel-"+name, farTyreLine(), d.ellipse(w.Outer), 0, 0)
		d.Ellipse("wheels", "wheel-inner-"+name, counting.TyreLine(), d.ellipse(w.Inner), 0, 0)
		return
	}
	d.Ellipse("wheels", "wheel-"+name, hiddenLine(), d.ellipse(w.Outer), 0, 0)
	d.Ellipse("wheels", "wheel-inner-"+name, hiddenLine(), d.ellipse(w.Inner), 0, 0)
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
func (d *drawing) nearWheels() {
	for _, i := range []int{1, 0} {
		d.nearWheel(i)
	}
}

func (d *drawing) farWheels() {
	for _, i := range []int{3, 2} {
		d.farWheel(i)
	}
}

// counted returns the images of the wheels that are counted between the near tyres, in the plane of the front one's outer edge.
func (d *drawing) countedWheels() []geom.Ellipse[geom.MM] {
	var out []geom.Ellipse[geom.MM]
	side := d.wheels[0].Wheel.Centre.Z
	for k := 1; k <= counting.WholeWheels(d.plan.WheelsBetween()); k++ {
		e, err := d.camera.Circle(view.Point3{X: geom.Wheels(k), Y: .5, Z: side}, view.Point3{X: .5}, view.Point3{Y: .5})
		if err != nil { // each lies between two tyres
			panic("perspective: a counted wheel nearer than the tyres: " + err.Error())
		}
		out = append(out, d.ellipse(e))
	}
	return out
}

// between draws the counted wheels.
func (d *drawing) between() {
	for k, e := range d.countedWheels() {
		d.Ellipse("between", fmt.Sprintf("between-%d", k+1), counting.CountedLine(), e, 0, 0)
	}
}

// nearAxes draws long and short axis of the near wheels, and their axles outwards: short axis and axle nearly agree.
func (d *drawing) nearAxes() {
	for _, i := range []int{0, 1} {
		d.axes(i)
		d.axle(i)
	}
}

// axes draws the long and the short axis of wheel i's ellipse.
func (d *drawing) axes(i int) {
	e, name := d.ellipse(d.wheels[i].Outer), d.wheels[i].Wheel.Name
	d.Line("axis", "axis-long-"+name, counting.RimLine(), e.At(0), e.At(math.Pi))
	d.Line("axis", "axis-short-"+name, counting.RimLine(), e.At(math.Pi/2), e.At(-math.Pi/2))
}

// axle draws the axle of wheel i from its centre outwards.
func (d *drawing) axle(i int) {
	const out geom.Wheels = .62
	c := d.wheels[i].Wheel.Centre
	side := geom.Wheels(1)
	if c.Z < 0 {
		side = -1
	}
	if s, ok := d.visible(c, view.Point3{X: c.X, Y: c.Y, Z: c.Z + side*out}); ok {
		d.Line("axles", "axle-"+d.wheels[i].Wheel.Name, counting.AxleLine(), d.toPage(s.from), d.toPage(s.to))
	}
}

// uprights draws the axles' uprights on the near side.
func (d *drawing) uprights() {
	for _, i := range []int{0, 1} {
		w := d.wheels[i].Wheel
		over := geom.Wheels(1.22)
		if i == 0 {
			over = max(over, d.plan.PillarAim()+.1)
		}
		d.Line("axles", "upright-"+w.Name, counting.AxleLine(), d.at(view.Point3{X: w.Centre.X, Z: w.Centre.Z}),
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
