package perspective

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// blanks lists what a student reads off a perspective whose practice sheet gives a level, and what counts as right: what is given within
// the reading tolerance, other lengths within the segment's ranges, other ellipses within one step of a template.
func (d *drawing) blanks(given int) []draft.Blank {
	side := (&counting.Drawing{Plan: d.plan, Units: d.units}).Blanks(func(g request.Guide) bool {
		return g == "roof" || g == "belt" || g == "sill" || g == "wheels" && given >= request.GivenLevels
	})
	ellipse := func(name string, i int) draft.Blank {
		off := 5. // common practice: ellipse templates come in steps of 5°
		if i == 0 || given >= request.GivenLevels {
			off = 2 // common practice: a measured angle
		}
		v := math.Round(float64(d.wheels[i].Outer.Degrees()))
		return draft.Blank{Name: name + ", degrees", Value: draft.FormatFixed(v, 0),
			Lo: draft.FormatFixed(v-off, 0), Hi: draft.FormatFixed(v+off, 0)}
	}
	return []draft.Blank{
		side[0], side[1], side[3], side[2], // wheels between, roof, belt, sill
		ellipse("ellipse of the front wheel", 0), ellipse("ellipse of the rear wheel", 1),
	}
}

// practice draws what a student is given at a level, back to front.
func (d *drawing) practice(given int) {
	d.noBody = true
	for _, part := range []struct {
		from int
		draw func()
	}{
		{request.GivenLevels, d.grid},
		{request.GivenWheels, d.horizon},
		{request.GivenWheels, d.enclosure},
		{request.GivenMost, d.crossSections},
		{request.GivenMost, d.centreLine},
		{request.GivenMost, d.thirds},
		{request.GivenMost, d.farWheels},
		{request.GivenMost, d.axlePlanes},
		{request.GivenMost, d.uprights},
		{request.GivenCounted, d.between},
		{request.GivenWheels, func() { d.levels(false) }},
		{request.GivenLevels, func() { d.wheelAndAxle(1) }},
		{request.GivenWheels, func() { d.wheelAndAxle(0) }},
		{request.GivenWheels, d.givenLevels},
	} {
		if given >= part.from {
			part.draw()
		}
	}
}

// answer draws the full sheet over the levels that the practice sheet gives.
func (d *drawing) answer(s request.Setting) {
	if s.Outline == request.OutlineByKind {
		s.Outline = request.OutlineOff
	}
	d.choose(s.Guides)
	d.draw("heights", d.givenLevels) // before the words, which keep clear of them
	d.full(s)
}

// practiceTasks names what is given at each level and what is left to draw.
var practiceTasks = map[int]string{
	request.GivenWheels:  "Given: box, levels, horizon and the near front wheel. Draw the other three wheels and count between them",
	request.GivenLevels:  "Given: box, levels, horizon, ground and the near wheels. Draw the far wheels and count between the near ones",
	request.GivenCounted: "Given: box, levels, horizon, ground, the near wheels and the counted ones. Draw the far wheels",
	request.GivenMost:    "Given: all guides but the A-pillars. Draw them",
}

// wheelAndAxle draws near wheel i with the axes of its ellipse and its axle.
func (d *drawing) wheelAndAxle(i int) {
	d.nearWheel(i)
	d.axes(d.wheels[i], d.wheels[i].Wheel.Name)
	d.axle(d.wheels[i].Wheel)
}

// givenLevels draws belt and sill along the near side of the box; reading their heights is the exercise.
func (d *drawing) givenLevels() {
	corners := d.solid.Corners()
	for _, l := range []struct {
		id string
		y  geom.Wheels
		k  draft.LineStyle
	}{{"belt", d.plan.Belt(), counting.GuideLine()}, {"sill", d.plan.Sill(), counting.SillLine()}} {
		from, to := corners[4], corners[5]
		from.Y, to.Y = l.y, l.y
		d.spaceLine(l.k.For("heights", l.id), from, to)
		end := corners[0]
		if d.camera.Spec.Turn < 0 {
			end, from = corners[1], to
		}
		end.Y = l.y
		d.spaceLine(l.k.For("heights", l.id+"-end"), end, from)
	}
}
