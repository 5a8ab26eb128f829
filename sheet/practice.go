package sheet

import (
	"hubrule/internal/geom"
	"hubrule/render/request"
)

// practice draws what a practice sheet gives.
func (d sideView) practice(given int) {
	from, to := reachOf(d.plan)
	d.reach = d.x(to)
	if given == request.GivenMost {
		left := d.leftOut()
		d.drawGuides(func(guide request.Guide) bool { return guide != left })
		return
	}
	if given >= request.GivenLevels {
		d.givenLevels(d.x(from), d.x(to))
	}
	if given >= request.GivenGhosts {
		for _, s := range []step{{"between", d.between}, {"stack", d.stack}, {"overhangs", d.ghosts}} {
			if d.wants(s.guide) {
				s.draw()
			}
		}
	}
	if d.wants("wheels") {
		d.tyres()
		d.crosses()
	}
	if d.wants("ground") {
		d.ground(d.roadFrom(), d.reach)
	}
}

// drawGuides draws the guides of a full sheet that keep says, without outline, rules and words.
func (d sideView) drawGuides(keep func(guide request.Guide) bool) {
	var some []request.Guide
	for _, g := range request.Guides() {
		if d.wants(g) && keep(g) {
			some = append(some, g)
		}
	}
	cut := *d.drawing
	cut.guides = append(some, "")
	sideView{&cut}.figure(false)
}

// givenLevels draws the levels from end to end of the road: where nose and tail are is for the pupil to find.
func (d sideView) givenLevels(from, to geom.MM) {
	p := d.plan
	if d.wants("roof") {
		d.level("roof", "roof", roofLine(), p.Height(), from, to)
	}
	if d.wants("belt") {
		lo, hi := reachOf(p)
		d.rule("belt", "belt", guideLine(), atPlan(lo, p.BeltAt(lo)), atPlan(hi, p.BeltAt(hi)))
	}
	if d.wants("sill") {
		front, rear := chord(.5, .5-p.Sill()), chord(p.RearRadius(), p.RearRadius()-p.Sill())
		d.level("sill", "sill-front", sillLine(), p.Sill(), from, d.x(-front))
		d.level("sill", "sill", sillLine(), p.Sill(), d.x(front), d.x(p.Wheelbase()-rear))
		d.level("sill", "sill-rear", sillLine(), p.Sill(), d.x(p.Wheelbase()+rear), to)
	}
	if d.wants("clearance") {
		d.level("clearance", "clearance", clearanceLine(), p.Clearance(), d.x(.5), d.x(p.Wheelbase()-p.RearRadius()))
	}
}

// leftOut names the guide that the highest level leaves to the pupil: the A-pillar, or what of the others is drawn at all.
func (d sideView) leftOut() request.Guide {
	for _, g := range []request.Guide{"pillar", "belt", "glass", "lamps", "arches", "roof", "sill"} {
		if d.wants(g) {
			return g
		}
	}
	return ""
}

// givenWords says what a practice sheet gives and what is left to do.
func (d sideView) givenWords(given int) string {
	const task = " Draw the missing guides, then write what you count, "
	in := "in " + unitName(d.units) + "."
	switch given {
	case request.GivenWheels:
		return "Given: ground line and wheels." + task + in
	case request.GivenLevels:
		return "Given: ground line, wheels and levels." + task + in
	case request.GivenGhosts:
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
	panic("sheet: a practice sheet gives 1 to 4")
}

// answerWords says how an answer sheet is read.
func (d sideView) answerWords() string {
	return "Anything inside the range is right. Lengths in " + unitName(d.units) + "."
}
