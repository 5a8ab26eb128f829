package sheet

import (
	"hubrule/internal/geom"
	"hubrule/render/draft"
)

// roomForTrace measures what a trace sheet alone needs: no lanes, no counted wheels, only the vehicle.
func (d sideView) roomForTrace() room {
	const beyond = .25 // of a wheel of road before the nose and behind the tail
	return room{above: 4, below: 4, strip: draft.FootHeight, from: d.plan.Nose() - beyond, to: d.plan.Tail() + beyond, top: d.plan.Height() + .1}
}

// trace draws the sheet to draw over. The count has done its work once the tyres stand: counted wheels,
// ghosts, band, rules and words go; level lines end at the tail, so that the paper beside the vehicle is empty.
func (d sideView) trace(outline bool, from, to geom.MM) {
	d.reach = d.x(d.plan.Tail())
	d.draw(outline, []step{
		{"pillar", func() { d.pillar(false) }},
		{"checks", d.angles},
		{"overhangs", d.ends}, {"arches", d.arches}, {"lamps", d.lamps}, {"glass", d.glassEnd},
		{"wheels", func() { d.tyres(); d.crosses() }},
		{"ground", func() { d.ground(from, to) }},
	})
}
