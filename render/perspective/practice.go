package perspective

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/render/counting"
	"hubrule/render/draft"
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

// practice draws what a student is given: the box with its levels, the horizon, and the near front wheel with its axle.
func (d *drawing) practice() {
	d.noBody = true
	d.horizon()
	d.enclosure()
	d.levels(false)
	d.nearWheel(0)
	d.axes(0)
	d.axle(0)
	d.givenLevels()
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
