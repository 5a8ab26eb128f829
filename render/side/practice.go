package side

import (
	"hubrule/internal/geom"
	"hubrule/render/counting"
	"hubrule/render/request"
)

// practice draws what a practice sheet gives.
func (d drawing) practice(given int) {
	from, to := counting.GuideExtent(d.Plan)
	d.LevelsEnd = d.X(to)
	if given == request.GivenMost {
		left := d.leftOut()
		d.drawGuides(func(guide request.Guide) bool { return guide != left })
		return
	}
	if given >= request.GivenLevels {
		d.givenLevels(d.X(from), d.X(to))
	}
	if given >= request.GivenCounted {
		for _, s := range []counting.Step{{Guide: "between", Draw: d.Between},
			{Guide: "stack", Draw: d.Stack}, {Guide: "overhangs", Draw: d.Ghosts}} {
			if d.Wants(s.Guide) {
				s.Draw()
			}
		}
	}
	if d.Wants("wheels") {
		d.Tyres()
		d.Crosses()
	}
	if d.Wants("ground") {
		d.Ground(d.RoadStart(), d.LevelsEnd)
	}
}

// drawGuides draws the guides of a full sheet that keep accepts, without outline, rules and words.
func (d drawing) drawGuides(keep func(guide request.Guide) bool) {
	var some []request.Guide
	for _, g := range request.SideView.Guides() {
		if d.Wants(g) && keep(g) {
			some = append(some, g)
		}
	}
	cut := *d.Drawing
	cut.Guides = append(some, "")
	drawing{&cut}.figure(false)
}

// givenLevels draws the levels from end to end of the road: the student finds nose and tail.
func (d drawing) givenLevels(from, to geom.MM) {
	p := d.Plan
	if d.Wants("roof") {
		d.Level(counting.RoofLine().For("roof", "roof"), p.Height(), from, to)
	}
	if d.Wants("belt") {
		lo, hi := counting.GuideExtent(p)
		d.Rule(counting.GuideLine().For("belt", "belt"), counting.PlanPt(lo, p.BeltAt(lo)), counting.PlanPt(hi, p.BeltAt(hi)))
	}
	if d.Wants("sill") {
		front, rear := counting.HalfChord(.5, .5-p.Sill()), counting.HalfChord(p.RearRadius(), p.RearRadius()-p.Sill())
		d.Level(counting.SillLine().For("sill", "sill-front"), p.Sill(), from, d.X(-front))
		d.Level(counting.SillLine().For("sill", "sill"), p.Sill(), d.X(front), d.X(p.Wheelbase()-rear))
		d.Level(counting.SillLine().For("sill", "sill-rear"), p.Sill(), d.X(p.Wheelbase()+rear), to)
	}
	if d.Wants("clearance") {
		d.Level(counting.ClearanceLine().For("clearance", "clearance"), p.Clearance(), d.X(.5), d.X(p.Wheelbase()-p.RearRadius()))
	}
}

// leftOut names the guide that the highest level leaves to the student: the A-pillar, or the first other guide that is drawn.
func (d drawing) leftOut() request.Guide {
	for _, g := range []request.Guide{"pillar", "belt", "glass", "lamps", "arches", "roof", "sill"} {
		if d.Wants(g) {
			return g
		}
	}
	return ""
}

// givenText describes what a practice sheet gives and what is left to do.
func (d drawing) givenText(given int) string {
	const task = " Draw the missing guides, then write what you count, "
	in := "in " + counting.UnitName(d.Units) + "."
	switch given {
	case request.GivenWheels:
		return "Given: ground line and wheels." + task + in
	case request.GivenLevels:
		return "Given: ground line, wheels and levels." + task + in
	case request.GivenCounted:
		return "Given: ground line, wheels, levels and counted wheels." + task + in
	case request.GivenMost:
		const write = " Draw it, then write what you count, "
		switch d.leftOut() {
		case "pillar":
			return "Given: all guides but the A-pillar." + write + in
		case "":
			return "Given: all guides. Write what you count, " + in
		case "belt":
			return "Given: all guides but the belt line." + write + in
		case "glass":
			return "Given: all guides but the end of the side glass." + write + in
		case "lamps":
			return "Given: all guides but the lamps." + write + in
		case "arches":
			return "Given: all guides but the wheel arches." + write + in
		case "roof":
			return "Given: all guides but the roof." + write + in
		case "sill":
			return "Given: all guides but the sill." + write + in
		}
	}
	panic("side: a practice sheet gives 1 to 4")
}

// answerText describes how an answer sheet is read.
func (d drawing) answerText() string {
	return "Anything inside the range is right. Lengths in " + counting.UnitName(d.Units) + "."
}
