package side

import (
	"slices"

	"hubrule/render/counting"
	"hubrule/render/request"
)

// givenFrom names the guides that a practice sheet gives before the highest level, and from which level.
var givenFrom = map[request.Guide]int{
	"wheels": request.GivenWheels, "ground": request.GivenWheels,
	"roof": request.GivenLevels, "belt": request.GivenLevels, "sill": request.GivenLevels, "clearance": request.GivenLevels,
	"between": request.GivenCounted, "stack": request.GivenCounted, "overhangs": request.GivenCounted,
}

// gives returns a function that reports whether a practice sheet of a level draws a guide.
func (d drawing) gives(level int) func(request.Guide) bool {
	left, _ := d.leftOut()
	return func(g request.Guide) bool {
		if level == request.GivenMost {
			return d.Wants(g) && g != left
		}
		from, early := givenFrom[g]
		return d.Wants(g) && early && level >= from
	}
}

// practice draws what a practice sheet gives.
func (d drawing) practice(level int) {
	_, to := d.GuideExtent()
	d.LevelsEnd = d.X(to)
	gives := d.gives(level)
	given := *d.Drawing
	given.Guides = append(slices.DeleteFunc(request.Guides(), func(g request.Guide) bool { return !gives(g) }),
		"") // never nil, which is all
	d = drawing{&given}
	if level == request.GivenMost {
		d.figure(false)
		return
	}
	d.EndsUnknown = level >= request.GivenLevels
	d.DrawLevels()
	d.DrawSteps(counting.Step{Guide: "between", Draw: d.Between},
		counting.Step{Guide: "stack", Draw: d.Stack}, counting.Step{Guide: "overhangs", Draw: d.Ghosts},
		counting.Step{Guide: "wheels", Draw: func() { d.Tyres(); d.Crosses() }},
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
