package side

import (
	"slices"

	"hubrule/render/counting"
	"hubrule/render/request"
)

// practice draws what a practice sheet gives.
func (d drawing) practice(given int) {
	_, to := counting.GuideExtent(d.Plan)
	d.LevelsEnd = d.X(to)
	if given == request.GivenMost {
		left, _ := d.leftOut()
		cut := *d.Drawing
		cut.Guides = append(slices.DeleteFunc(request.Guides(), func(g request.Guide) bool { return g == left || !d.Wants(g) }), "")
		drawing{&cut}.figure(false)
		return
	}
	if given >= request.GivenLevels {
		d.EndsUnknown = true
		d.DrawLevels()
	}
	if given >= request.GivenCounted {
		d.DrawSteps(counting.Step{Guide: "between", Draw: d.Between},
			counting.Step{Guide: "stack", Draw: d.Stack}, counting.Step{Guide: "overhangs", Draw: d.Ghosts})
	}
	d.DrawSteps(counting.Step{Guide: "wheels", Draw: func() { d.Tyres(); d.Crosses() }},
		counting.Step{Guide: "ground", Draw: func() { d.Ground(d.RoadStart(), d.LevelsEnd) }})
}

// leftOut names the guide that the highest level leaves to the student, and how a sentence calls it: the A-pillar, or the first other
// guide that is drawn.
func (d drawing) leftOut() (guide request.Guide, name string) {
	for _, g := range []struct {
		guide request.Guide
		name  string
	}{
		{"pillar", "the A-pillar"}, {"belt", "the belt line"}, {"glass", "the end of the side glass"}, {"lamps", "the lamps"},
		{"arches", "the wheel arches"}, {"roof", "the roof"}, {"sill", "the sill"},
	} {
		if d.Wants(g.guide) {
			return g.guide, g.name
		}
	}
	return "", ""
}

// givenText describes what a practice sheet gives and what is left to do.
func (d drawing) givenText(given int) string {
	write := "write what you count, in " + counting.UnitName(d.Units) + "."
	switch _, left := d.leftOut(); {
	case given < request.GivenMost:
		return "Given: ground line" + [...]string{
			request.GivenWheels:  " and wheels",
			request.GivenLevels:  ", wheels and levels",
			request.GivenCounted: ", wheels, levels and counted wheels",
		}[given] + ". Draw the missing guides, then " + write
	case left == "":
		return "Given: all guides. W" + write[1:]
	default:
		return "Given: all guides but " + left + ". Draw it, then " + write
	}
}
