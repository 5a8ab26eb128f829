package side

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// The lanes above the figure, by label layout, and below the ground: rule, intervals and two dimension lines.
func (d drawing) above() geom.MM {
	w := d.Labels
	switch {
	case d.OnScreen && !w.ValuesOnly:
		return 14
	case w.Near:
		return 10
	case w.Notes:
		return 17.5
	}
	return 13
}

// drawing is the side view of a vehicle being drawn.
type drawing struct{ *counting.Drawing }

// roomOf measures what a full sheet of d's plan needs.
func (d drawing) roomOf(labels request.Labels, space draft.Box) counting.Room {
	r := counting.Room{Above: d.above(), Below: counting.BelowGround, TitleBlock: draft.TitleBlockHeight,
		Top: d.GuideTop(), Tail: d.TailGap() + 8, Nose: counting.RoadAhead}
	r.From, r.To = d.reach()
	if d.Tiled {
		r.Top, r.Below = d.Plan.Height(), r.Below-4 // what stands over the roof is in the lane above
	}
	if labels == request.NoLabels {
		r.Below = counting.RuleGap + 6
		return r
	}
	for _, e := range d.LadderEntries() {
		r.Tail = max(r.Tail, d.TailGap()+d.LadderGap()+d.SizeOf(e.Label).Width)
	}
	r.WordsFrom = d.Plan.Nose()
	for _, e := range d.noseEntries() {
		r.Words = max(r.Words, noseWords+d.SizeOf(e.Label).Width)
	}
	if d.Labels.Keyed {
		r.Below += counting.KeyedHeight(d.words(), space) + 4
	}
	return r
}

// words lists every label that a table may explain.
func (d drawing) words() []draft.Label {
	var out []draft.Label
	for _, e := range slices.Concat(d.LadderEntries(), d.noseEntries()) {
		out = append(out, e.Label)
	}
	for _, f := range d.callouts() {
		out = append(out, f.label)
	}
	if d.Wants("pillar") {
		out = append(out, d.pillarLabel())
	}
	return out
}

// full draws the labelled sheet: every guide, then the words where they find room. It fails when some do not.
func (d drawing) full(labels request.Labels, outline bool, bottom geom.MM) error {
	_, to := d.GuideExtent()
	d.RuleX = d.X(to) + d.TailGap()
	d.LevelsEnd = d.X(to)
	d.figure(outline)
	if d.Wants("ticks") {
		if !d.Labels.ValuesOnly {
			d.UprightRule(labels != request.NoLabels)
		}
		d.GroundRule(d.Intervals(), "rule-along", "tick-nose", "tick-tail")
	}
	if d.Wants("ratio") && !d.Labels.ValuesOnly {
		d.Brackets()
	}
	if labels == request.NoLabels {
		return nil
	}
	return d.label(bottom)
}

// figure draws the guides of a full sheet.
func (d drawing) figure(outline bool) {
	d.DrawFigure(outline, []counting.Step{
		{Guide: "pillar", Draw: func() { d.Pillar(true) }},
		{Guide: "checks", Draw: d.Angles},
		{Guide: "between", Draw: d.Between}, {Guide: "stack", Draw: d.Stack}, {Guide: "overhangs", Draw: d.Overhangs},
		{Guide: "arches", Draw: d.Arches}, {Guide: "lamps", Draw: d.Lamps}, {Guide: "glass", Draw: d.GlassEnd},
		{Guide: "wheels", Draw: func() { d.Axles(); d.Tyres() }},
		{Guide: "ground", Draw: func() { d.Ground(d.RoadStart(), d.LevelsEnd) }},
	}...)
}

// label writes every word of a full sheet, the fixed lanes first, then those that look for a place.
func (d drawing) label(bottom geom.MM) error {
	writers := []func() error{
		func() error { return d.WriteLadder(d.LadderEntries()) }, func() error { return d.belowGround(bottom - 2) }, d.noseLabels,
	}
	if d.Labels.Near {
		writers = append(writers, d.Numerals, d.placeCallouts)
	} else {
		writers = append(writers, d.calloutRow, d.Numerals)
	}
	for _, write := range writers {
		if err := write(); err != nil && !d.Labels.Loose {
			return err
		}
	}
	if d.Labels.Near && !d.Labels.Keyed && d.Wants("clearance") {
		d.clearanceLabel(bottom - 1)
	}
	return nil
}

// belowGround writes the intervals and the lengths under the ground.
func (d drawing) belowGround(bottom geom.MM) error {
	if !d.Wants("ticks") {
		return nil
	}
	end, err := d.WriteIntervals(d.Intervals(), d.Middles(d.Intervals()))
	if err == nil && d.Lengths(end) > bottom {
		return counting.NoRoom("the lengths under the ground")
	}
	return err
}

// roomForTrace measures what a trace sheet alone needs: no lanes, no counted wheels, only the vehicle.
func (d drawing) roomForTrace() counting.Room {
	const beyond = .15 // of a wheel of road before the nose and behind the tail
	r := counting.Room{Above: 4, Below: 4, TitleBlock: draft.TitleLineHeight,
		From: d.Plan.Nose() - beyond, To: d.Plan.Tail() + beyond, Top: d.Plan.Height() + .1}
	if d.Tiled {
		r.Above, r.Nose, r.Tail = 2*r.Above, counting.RoadAhead, counting.RoadAhead
		r.From, r.To, r.Top = d.Plan.Nose(), d.Plan.Tail(), d.Plan.Height()
	}
	if d.Wants("checks") {
		front, rear := d.AngleEnds()
		r.From, r.To = min(r.From, front.X), max(r.To, rear.X)
	}
	return r
}

// roomForPractice measures what a practice sheet alone needs: the guides that the student draws, and no words of an answer.
func (d drawing) roomForPractice(space draft.Box, given int) counting.Room {
	r := counting.Room{Above: 4, Below: 6, TitleBlock: draft.TitleBlockHeight, Nose: counting.RoadAhead, Tail: counting.RoadAhead,
		Top: d.GuideTop(), Blanks: draft.NewBlankGrid(d.Blanks(d.gives(given)), space).Height()}
	r.From, r.To = d.reach()
	return r
}

// reach returns how far the guides reach along the ground, with the ground angles if they are drawn.
func (d drawing) reach() (from, to geom.Wheels) {
	from, to = d.GuideExtent()
	if d.Wants("checks") {
		front, rear := d.AngleEnds()
		from, to = min(from, front.X), max(to, rear.X)
	}
	return from, to
}

// DrawTrace draws the sheet to draw over on a drawing that has its place; the road reaches from one x of the page to another. Once the
// tyres stand the count is done: counted wheels, ghosts, band, rules and words go.
func DrawTrace(d *counting.Drawing, outline bool, from, to geom.MM) {
	d.DrawFigure(outline, []counting.Step{
		{Guide: "pillar", Draw: func() { d.Pillar(false) }},
		{Guide: "checks", Draw: d.Angles},
		{Guide: "overhangs", Draw: d.Ends}, {Guide: "arches", Draw: d.Arches},
		{Guide: "lamps", Draw: d.Lamps}, {Guide: "glass", Draw: d.GlassEnd},
		{Guide: "wheels", Draw: func() { d.Tyres(); d.Crosses() }},
		{Guide: "ground", Draw: func() { d.Ground(from, to) }},
	}...)
}
