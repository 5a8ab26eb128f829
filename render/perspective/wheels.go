package perspective

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render/counting"
	"hubrule/render/draft"
)

// arcs draws runs of a circle in space as arcs of its image e, or as polylines where e is nearly edge-on.
func (d *drawing) arcs(id string, k draft.LineStyle, e view.Ellipse, lines [][]view.ImagePoint) {
	shape := d.ellipse(e)
	for _, run := range lines {
		if shape.Short < .02*shape.Long || len(run) < 3 {
			d.polylines("wheels", id, k, [][]view.ImagePoint{run})
		} else {
			from, to := parameter(e, run[0]), parameter(e, run[len(run)-1])
			after := func(t float64) float64 { return math.Mod(t-from+4*math.Pi, 2*math.Pi) }
			if after(parameter(e, run[len(run)/2])) > after(to) { // the parameter runs clockwise on the page
				from, to = to, from
			}
			for to <= from+1e-9 {
				to += 2 * math.Pi
			}
			d.Ellipse(k.For("wheels", id), shape, from, to)
		}
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
	if d.noBody {
		d.tread(w, "wheel-inner-"+w.Wheel.Name)
	} else {
		for _, r := range d.wheelLines()[i] {
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
	d.face(w, w.Wheel.Name)
}

// face draws the outer edge and the rim of a wheel.
func (d *drawing) face(w view.WheelImage, name string) {
	d.Ellipse(counting.TyreLine().For("wheels", "wheel-"+name), d.ellipse(w.Outer), 0, 0)
	d.Ellipse(counting.RimLine().For("wheels", "rim-"+name), d.ellipse(w.Rim), 0, 0)
}

// tread draws the inner edge of a wheel and the outline of its tread as only the tyre itself hides them. The points where the outline
// touches the inner edge split it into the arc that is seen, which lies away from the outer edge, and the hidden one.
func (d *drawing) tread(w view.WheelImage, id string) {
	if !w.HasTreads {
		return
	}
	a, b := parameter(w.Inner, w.Treads[0][1]), parameter(w.Inner, w.Treads[1][1])
	if b <= a {
		b += 2 * math.Pi
	}
	seen, hidden := [2]float64{a, b}, [2]float64{b, a + 2*math.Pi}
	if w.Inner.At((a+b)/2).Sub(w.Inner.Centre).Dot(w.Inner.Centre.Sub(w.Outer.Centre)) <= 0 {
		seen, hidden = hidden, seen
	}
	d.Ellipse(innerLine().For("wheels", id), d.ellipse(w.Inner), seen[0], seen[1])
	d.Ellipse(hiddenLine().For("wheels", ""), d.ellipse(w.Inner), hidden[0], hidden[1])
	for _, t := range w.Treads {
		d.Line(innerLine().For("wheels", ""), d.toPage(t[0]), d.toPage(t[1]))
	}
}

// farWheel draws far wheel i: both edges dashed, with their visible parts over them; of the wheel behind the doors only these, unless the
// wheels are asked for.
func (d *drawing) farWheel(i int) {
	w := d.wheels[i]
	outer, inner := hiddenLine(), hiddenLine()
	if d.noBody { // only the tyre itself hides its far edge
		outer, inner = farTyreLine(), counting.TyreLine()
	}
	edge, innerEdge := "wheel-"+w.Wheel.Name, "wheel-inner-"+w.Wheel.Name
	if d.noBody || i != d.behindDoors() || d.asked("wheels") {
		d.Ellipse(outer.For("wheels", edge), d.ellipse(w.Outer), 0, 0)
		d.Ellipse(inner.For("wheels", innerEdge), d.ellipse(w.Inner), 0, 0)
		edge, innerEdge = "", ""
	}
	if d.noBody {
		return
	}
	for _, r := range d.wheelLines()[i] {
		switch r.kind {
		case view.TyreOuterLine:
			d.arcs(edge, innerLine(), w.Outer, r.seen)
		case view.TyreInnerLine:
			d.arcs(innerEdge, innerLine(), w.Inner, r.seen)
		case view.TreadLine:
			d.polylines("wheels", "", innerLine(), r.seen)
		}
	}
}

// behindDoors is the far wheel at the end that lies away from the camera.
func (d *drawing) behindDoors() int {
	if d.camera.Spec.Turn < 0 {
		return 2
	}
	return 3
}

// nearWheels and farWheels draw the wheels of a side, the rear one first.
func (d *drawing) nearWheels() { d.nearWheel(1); d.nearWheel(0) }
func (d *drawing) farWheels()  { d.farWheel(3); d.farWheel(2) }

// countedWheels returns the images of the wheels counted between the near tyres, in the plane of the front one's outer edge.
func (d *drawing) countedWheels() []geom.Ellipse[geom.MM] {
	var out []geom.Ellipse[geom.MM]
	for k := range counting.WholeWheels(d.plan.WheelsBetween()) {
		centre := view.Point3{X: geom.Wheels(k + 1), Y: .5, Z: d.wheels[0].Wheel.Centre.Z}
		e, _ := d.camera.Circle(centre, view.Point3{X: .5}, view.Point3{Y: .5}) // no error: it lies between two tyres that are seen
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
	for _, w := range d.wheels[:2] {
		d.draw("axis", func() { d.axes(w, w.Wheel.Name) })
		d.draw("axles", func() { d.axle(w.Wheel) })
	}
}

// axes draws the long and the short axis of a wheel's ellipse.
func (d *drawing) axes(w view.WheelImage, name string) {
	e := d.ellipse(w.Outer)
	d.Line(counting.RimLine().For("axis", "axis-long-"+name), e.At(0), e.At(math.Pi))
	d.Line(counting.RimLine().For("axis", "axis-short-"+name), e.At(math.Pi/2), e.At(-math.Pi/2))
}

// axle draws the axle of a wheel from its centre outwards.
func (d *drawing) axle(w view.Wheel) {
	end := w.Centre
	end.Z += geom.Wheels(math.Copysign(.62, float64(end.Z)))
	d.spaceLine(counting.AxleLine().For("axles", "axle-"+w.Name), w.Centre, end)
}

// uprights draws the axles' uprights on the near side.
func (d *drawing) uprights() {
	for i, over := range []geom.Wheels{max(1.22, d.plan.PillarAim()+.1), 1.22} {
		foot := d.wheels[i].Wheel.Centre
		foot.Y = 0
		head := foot
		head.Y = over
		d.Line(counting.AxleLine().For("axles", "upright-"+d.wheels[i].Wheel.Name), d.at(foot), d.at(head))
	}
}

// axlePlanes draws where the planes of both axles meet the ground, from side to side of the enclosing box.
func (d *drawing) axlePlanes() {
	for i, w := range d.wheels[:2] {
		near, far := w.Wheel.Centre, d.wheels[i+2].Wheel.Centre
		near.Y, far.Y = 0, 0
		d.polylines("axles", "ground-"+w.Wheel.Name, behindLine(), d.clip(d.visible(near, far), d.uncovered))
	}
}

// spaceLine draws the visible part of a line in space.
func (d *drawing) spaceLine(l draft.Line, a, b view.Point3) {
	if s := d.visible(a, b); s != nil {
		d.Line(l, d.toPage(s[0]), d.toPage(s[1]))
	}
}
