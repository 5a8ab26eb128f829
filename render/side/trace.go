package side

import (
	"hubrule/internal/geom"
	"hubrule/render/counting"
	"hubrule/render/draft"
)

// roomForTrace measures what a trace sheet alone needs: no lanes, no counted wheels, only the vehicle.
func (d drawing) roomForTrace() counting.Room {
	const beyond = .25 // of a wheel of road before the nose and behind the tail
	return counting.Room{Above: 4, Below: 4, TitleBlock: draft.TitleLineHeight,
		From: d.Plan.Nose() - beyond, To: d.Plan.Tail() + beyond, Top: d.Plan.Height() + .1}
}

// trace draws the sheet to draw over. Once the tyres stand the count is done: counted wheels,
// ghosts, band, rules and words go; level lines end at the tail, so that the paper beside the vehicle is empty.
func (d drawing) trace(outline bool, from, to geom.MM) {
	d.LevelsEnd = d.X(d.Plan.Tail())
	d.DrawSteps(outline, []counting.Step{
		{Guide: "pillar", Draw: func() { d.Pillar(false) }},
		{Guide: "checks", Draw: d.Angles},
		{Guide: "overhangs", Draw: d.Ends}, {Guide: "arches", Draw: d.Arches},
		{Guide: "lamps", Draw: d.Lamps}, {Guide: "glass", Draw: d.GlassEnd},
		{Guide: "wheels", Draw: func() { d.Tyres(); d.Crosses() }},
		{Guide: "ground", Draw: func() { d.Ground(from, to) }},
	})
}

// DrawTrace draws what a trace sheet has on a drawing that stands on its place; the road reaches from one x of the page to another.
func DrawTrace(d *counting.Drawing, outline bool, from, to geom.MM) {
	drawing{d}.trace(outline, from, to)
}
