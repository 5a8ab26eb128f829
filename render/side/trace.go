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

// DrawTrace draws the sheet to draw over on a drawing that has its place; the road reaches from one x of the page to another. Once the
// tyres stand the count is done: counted wheels, ghosts, band, rules and words go.
func DrawTrace(d *counting.Drawing, outline bool, from, to geom.MM) {
	if outline && d.Wants("outline") {
		d.Outline()
	}
	d.DrawLevels()
	d.DrawSteps([]counting.Step{
		{Guide: "pillar", Draw: func() { d.Pillar(false) }},
		{Guide: "checks", Draw: d.Angles},
		{Guide: "overhangs", Draw: d.Ends}, {Guide: "arches", Draw: d.Arches},
		{Guide: "lamps", Draw: d.Lamps}, {Guide: "glass", Draw: d.GlassEnd},
		{Guide: "wheels", Draw: func() { d.Tyres(); d.Crosses() }},
		{Guide: "ground", Draw: func() { d.Ground(from, to) }},
	}...)
}
