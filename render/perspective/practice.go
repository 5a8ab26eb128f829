package perspective

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// blanks lists what a student reads off a perspective and what counts as right: lengths within the segment's ranges, ellipses within one
// step of a template.
func (d *drawing) blanks() []draft.Blank {
	side := (&counting.Drawing{Plan: d.plan, Units: d.units}).Blanks()
	ellipse := func(name string, i int) draft.Blank {
		const eye = 5 // common practice: ellipse templates come in steps of 5°
		v := math.Round(float64(d.wheels[i].Outer.Degrees()))
		return draft.Blank{Name: name + ", degrees", Value: draft.Fixed(v, 0), Lo: draft.Fixed(v-eye, 0), Hi: draft.Fixed(v+eye, 0)}
	}
	return []draft.Blank{
		side[0], side[1], side[3], side[2], // wheels between, roof, belt, sill
		ellipse("ellipse of the front wheel", 0), ellipse("ellipse of the rear wheel", 1),
	}
}

// practiceParts lists what a practice sheet draws, back to front, and from which given level on.
var practiceParts = []struct {
	from int
	draw func(*drawing)
}{
	{request.GivenLevels, (*drawing).grid},
	{request.GivenWheels, (*drawing).horizon},
	{request.GivenWheels, (*drawing).enclosure},
	{request.GivenMost, (*drawing).sections},
	{request.GivenMost, (*drawing).centreLine},
	{request.GivenMost, (*drawing).thirds},
	{request.GivenMost, (*drawing).farWheels},
	{request.GivenMost, (*drawing).axlePlanes},
	{request.GivenMost, (*drawing).uprights},
	{request.GivenCounted, (*drawing).between},
	{request.GivenWheels, func(d *drawing) { d.levels(false) }},
	{request.GivenLevels, func(d *drawing) { d.wheelAndAxle(1) }},
	{request.GivenWheels, func(d *drawing) { d.wheelAndAxle(0) }},
	{request.GivenWheels, (*drawing).givenLevels},
}

// practice draws what a student is given at a level.
func (d *drawing) practice(given int) {
	d.noBody = true
	for _, p := range practiceParts {
		if given >= p.from {
			p.draw(d)
		}
	}
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
	d.axes(i)
	d.axle(i)
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
		d.spaceLine("heights", l.id, l.k, from, to)
		end := corners[0]
		if d.camera.Spec.Turn < 0 {
			end, from = corners[1], to
		}
		end.Y = l.y
		d.spaceLine("heights", l.id+"-end", l.k, end, from)
	}
}
