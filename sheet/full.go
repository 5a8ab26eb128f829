package sheet

import (
	"hubrule/internal/geom"
	"hubrule/layout/outline"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// tight says which words found no room.
type tight string

func (t tight) Error() string { return "no room for " + string(t) }

// room is what a kind of sheet needs round the figure, in mm on the canvas.
type room struct {
	nose, tail   geom.MM // lanes beside the figure
	above, below geom.MM // above the guides, and below the ground
	strip        geom.MM
	blanks       geom.MM     // kept free at the page's top
	from, to     geom.Wheels // reach of the guides along the ground
	top          geom.Wheels
}

// The lanes above the figure, by way of labelling, and below the ground: rule, chain and two dimension lines.
func (w way) above() geom.MM {
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
	// reserve is the least room over the figure that sheets with blanks need; every sheet keeps it where
	// the page is wide enough for three columns of blanks, so that all sheets of a segment register.
	reserve     geom.MM = 51
	reserveFrom geom.MM = 330
)

// roomOf measures what a full sheet of d's plan needs.
func (d *drawing) roomOf(labels request.Labels) room {
	r := room{above: d.way.above(), below: belowGround, strip: draft.StripHeight, top: topOf(d.plan), tail: 8 + ruleGap, nose: roadAhead}
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

// largest returns the widest wheel, in mm on the canvas, that leaves the room r.
func (r room) largest(space draft.Box) geom.MM {
	across := (space.Width() - r.nose - r.tail) / geom.MM(r.to-r.from)
	up := (space.Height() - r.strip - 3 - r.above - r.below) / geom.MM(r.top)
	return min(across, up)
}

// stand places the plan in space with room r: in the middle across, and at a little over half of what is left upwards.
func (r room) stand(space draft.Box, wheel, paperWidth geom.MM) (place, error) {
	slack := space.Width() - r.nose - r.tail - geom.MM(geom.MM(r.to-r.from)*wheel)
	const rounding = 1e-9
	if slack < -rounding {
		return place{}, tight("the width of the figure")
	}
	need := r.above + geom.MM(geom.MM(r.top)*wheel)
	lowest := space.Max.Y - r.strip - 3 - r.below
	left := lowest + 3 - space.Min.Y - need
	over := geom.MM(.55) * left
	if paperWidth > reserveFrom {
		over = max(over, reserve)
	}
	over = max(over, r.blanks)
	y := min(space.Min.Y+need+over, lowest)
	if y < space.Min.Y+need+r.blanks-rounding {
		return place{}, tight("the height of the figure")
	}
	x := space.Min.X + slack/2 + r.nose - geom.MM(geom.MM(r.from)*wheel)
	return place{origin: draft.Point{X: x, Y: y}, wheel: wheel}, nil
}

// full draws the labelled sheet: every guide, then the words where they find room. It fails when some do not.
func (d *drawing) full(labels request.Labels, outline bool, bottom geom.MM) error {
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

// roadAhead is how far the ground line runs on ahead of the outermost guide at the nose.
const roadAhead geom.MM = 6

// roadFrom returns the x of the page where the ground line of a full sheet begins.
func (d *drawing) roadFrom() geom.MM {
	from, _ := reachOf(d.plan)
	return d.x(from) - roadAhead
}

// figure draws the guides of a full sheet.
func (d *drawing) figure(outline bool) {
	d.draw(outline, []step{
		{"pillar", func() { d.pillar(true) }},
		{"checks", d.angles},
		{"between", d.between}, {"stack", d.stack}, {"overhangs", d.overhangs},
		{"arches", d.arches}, {"lamps", d.lamps}, {"glass", d.glassEnd},
		{"wheels", func() { d.axles(); d.tyres() }},
		{"ground", func() { d.ground(d.roadFrom(), d.reach) }},
	})
}

// step draws one guide.
type step struct {
	guide request.Guide
	draw  func()
}

// draw draws outline, levels and the steps, as far as their guides are wanted.
func (d *drawing) draw(outline bool, steps []step) {
	if outline && d.wants("outline") {
		d.outline()
	}
	d.levels()
	for _, s := range steps {
		if d.wants(s.guide) {
			s.draw()
		}
	}
}

// label writes every word of a full sheet, the fixed lanes first, then those that look for a place.
func (d *drawing) label(bottom geom.MM) error {
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

// outline draws the body over the guides: fills first, hair lines inside.
func (d *drawing) outline() {
	for _, l := range outline.Of(d.plan).Lines {
		id := l.Name
		if l.Kind == outline.Body {
			id = "outline"
		} else {
			id = "outline-" + id
		}
		path := d.carry(l.Path)
		switch l.Kind {
		case outline.Body:
			d.Fill("outline", "", d.Inks.Body, path)
			d.Curve("outline", id, outlineLine(), path, 8)
		case outline.Glass:
			d.Fill("outline", "", d.Inks.Side, path)
			d.Curve("outline", id, outlineLine(), path, 8)
		case outline.Lamp:
			d.Fill("outline", "", d.Inks.Side, path)
			d.Curve("outline", id, detailLine(), path, 4)
		case outline.Hairline:
			d.Curve("outline", id, detailLine(), path, 4)
		case outline.Dashed:
			d.Curve("outline", id, dashedLine(), path, 8)
		}
	}
}
