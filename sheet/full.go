package sheet

import (
	"hubrule/internal/geom"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// The lanes above the figure, by way of labelling, and below the ground: rule, chain and two dimension lines.
func above(w way) geom.MM {
	switch {
	case w.near:
		return 10
	case w.notes:
		return 17.5
	}
	return 13
}

const (
	belowGround geom.MM = 37
)

// sideView is the side view of a vehicle being drawn.
type sideView struct{ *drawing }

// roomOf measures what a full sheet of d's plan needs.
func (d sideView) roomOf(labels request.Labels) room {
	r := room{above: above(d.way), below: belowGround, strip: draft.StripHeight, top: topOf(d.plan), tail: 8 + ruleGap, nose: roadAhead}
	r.from, r.to = reachOf(d.plan)
	if labels == request.NoLabels {
		r.below = ruleGap + 6
		return r
	}
	for _, rung := range d.rungs() {
		r.tail = max(r.tail, ruleGap+ladderAt+rung.label.Width)
	}
	r.nose = 4 + draft.NewLabel([]draft.Word{draft.Name("axle "), draft.Value(d.length(.5))}).Width
	return r
}

// full draws the labelled sheet: every guide, then the words where they find room. It fails when some do not.
func (d sideView) full(labels request.Labels, outline bool, bottom geom.MM) error {
	_, to := reachOf(d.plan)
	d.rail = d.x(to) + ruleGap
	d.reach = d.rail - ruleGap
	d.figure(outline)
	if d.wants("ticks") {
		d.uprightRule(labels != request.NoLabels)
		d.groundRule()
	}
	if d.wants("ratio") {
		d.brackets()
	}
	if labels == request.NoLabels {
		return nil
	}
	return d.label(bottom)
}

// figure draws the guides of a full sheet.
func (d sideView) figure(outline bool) {
	d.draw(outline, []step{
		{"pillar", func() { d.pillar(true) }},
		{"checks", d.angles},
		{"between", d.between}, {"stack", d.stack}, {"overhangs", d.overhangs},
		{"arches", d.arches}, {"lamps", d.lamps}, {"glass", d.glassEnd},
		{"wheels", func() { d.axles(); d.tyres() }},
		{"ground", func() { d.ground(d.roadFrom(), d.reach) }},
	})
}

// label writes every word of a full sheet, the fixed lanes first, then those that look for a place.
func (d sideView) label(bottom geom.MM) error {
	if err := d.ladder(); err != nil {
		return err
	}
	if d.wants("ticks") {
		end, err := d.chainWords()
		if err != nil {
			return err
		}
		if d.lengths(end) > bottom-2 {
			return tight("the lengths under the ground")
		}
	}
	if err := d.noseWords(); err != nil {
		return err
	}
	if !d.way.near {
		if err := d.topLane(); err != nil {
			return err
		}
		return d.numerals()
	}
	if err := d.numerals(); err != nil {
		return err
	}
	if err := d.raiseFlags(); err != nil {
		return err
	}
	if d.wants("clearance") {
		d.clearanceWords(bottom - 1)
	}
	return nil
}
