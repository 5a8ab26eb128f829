package sheet

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/outline"
	"hubrule/render"
	"hubrule/render/request"
)

// overlay draws plans over each other on one front axle: what all share once, the first dashed, the others heavy, and a table of what changed.
func (job driver) overlay(plans []layout.Plan, wheel geom.MM, number string) (render.Page, error) {
	c := newCanvas(job.Setting)
	fixed := &board{space: c.space, inks: inks(job.Ink(request.Overlay))}
	c.centring(fixed)
	o := &overlayPage{job: job, plans: plans, names: callings(plans, c.space.Width()/8), canvas: c, wheel: c.real(wheel)}
	changes := job.changes(plans, wheel, c.space.Width(), everyFigure)
	at, err := o.stand(changes.height())
	if err != nil && o.wheel < smallOverlay {
		changes = job.changes(plans, wheel, c.space.Width(), mainFigure)
		at, err = o.stand(changes.height())
	}
	if err != nil {
		return render.Page{}, err
	}
	figure, err := o.figure(at)
	if err != nil {
		return render.Page{}, err
	}
	o.key(fixed)
	changes.draw(fixed, c.space.Min.X, at.origin.Y+overTable)
	heading, sub, columns := o.strip(wheel)
	c.strip(fixed, caption{heading: heading, sub: sub}, columns, number)
	return c.finish(heading+", "+string(request.Overlay), figure, fixed, job.Setting.Facing), nil
}

// smallOverlay is the wheel on the canvas below which rows of the table give way before the drawing does.
const smallOverlay geom.MM = 20

// overlayPage is one overlay being drawn.
type overlayPage struct {
	job    driver
	plans  []layout.Plan
	names  []string
	canvas canvas
	wheel  geom.MM // on the canvas
}

// Distances on an overlay: the ground to the table, a line of the key to the next, the outlines to the ladder's rail.
const (
	overTable geom.MM = 6
	keyPitch  geom.MM = 4.6
	keyLong   geom.MM = 16 // of a sample of a line
	toRail    geom.MM = 6
)

// stand places the common front axle: where the full sheet of the base has it, if all fits there, so that both register; else in the middle.
func (o *overlayPage) stand(tableHeight geom.MM) (place, error) {
	first := o.plans[0]
	r := room{above: keyPitch*geom.MM(len(o.plans)+1) + 5, below: overTable + tableHeight, strip: stripHeight, from: first.Nose(), to: first.Tail(), nose: roadAhead, tail: toRail + ladderAt}
	if o.job.Setting.Labels != request.NoLabels {
		for _, g := range o.rungs(o.drawing(first, place{wheel: o.wheel})) {
			r.tail = max(r.tail, toRail+ladderAt+g.label.width)
		}
	}
	for _, p := range o.plans {
		r.from, r.to, r.top = min(r.from, p.Nose()), max(r.to, p.Tail()), max(r.top, p.Height()+.1)
	}
	own, err := r.stand(o.canvas.space, o.wheel, 0)
	if err != nil || !o.job.Has(request.Full) {
		return own, err
	}
	full, _, err := o.job.labelled(o.canvas, first, o.wheel)
	if err != nil {
		return own, nil
	}
	s, at := o.canvas.space, full.place
	if at.x(r.from)-r.nose < s.Min.X || at.x(r.to)+r.tail > s.Max.X || at.y(r.top)-r.above < s.Min.Y || at.y(0)+r.below+3 > s.Max.Y-stripHeight {
		return own, nil
	}
	return at, nil
}

func (o *overlayPage) drawing(p layout.Plan, at place) *drawing {
	d := o.job.drawing(o.canvas, p, request.Overlay)
	d.place = at
	if d.guides == nil {
		d.guides = []request.Guide{"outline", "pillar", "roof", "belt", "sill", "overhangs", "wheels", "ground"}
	}
	return d
}

// figure draws every plan on a board of its own, then all on one.
func (o *overlayPage) figure(at place) (*board, error) {
	from, to := o.plans[0].Nose(), o.plans[0].Tail()
	for _, p := range o.plans {
		from, to = min(from, p.Nose()), max(to, p.Tail())
	}
	var boards []*board
	for _, p := range o.plans {
		d := o.drawing(p, at)
		d.reach = d.x(to) + toRail - 1
		d.overlaid(o.job.Setting.Outline != request.Off, d.x(from)-roadAhead)
		boards = append(boards, d.board)
	}
	all := o.drawing(o.plans[0], at)
	overlayOf(boards).onto(all.board, overlayPen)
	if o.job.Setting.Labels == request.NoLabels {
		return all.board, nil
	}
	all.rail = all.x(to) + toRail
	if err := all.climb(o.rungs(all)); err != nil {
		return nil, err
	}
	o.pillars(all)
	return all.board, nil
}

// overlaid draws the lines of a plan that are worth comparing.
func (d *drawing) overlaid(withOutline bool, from geom.MM) {
	if withOutline && d.wants("outline") {
		for _, l := range outline.Of(d.plan).Lines {
			switch l.Kind {
			case outline.Body:
				d.curve("outline", "outline", outlineLine(), d.carry(l.Path), 8)
			case outline.Glass:
				d.curve("outline", "outline-"+l.Name, outlineLine(), d.carry(l.Path), 8)
			}
		}
	}
	d.levels()
	for _, s := range []step{
		{"pillar", func() { d.pillar(false) }},
		{"overhangs", d.ends}, {"arches", d.arches}, {"lamps", d.lamps}, {"glass", d.glassEnd},
		{"wheels", func() { d.tyres(); d.crosses() }},
		{"ground", func() { d.ground(from, d.reach) }},
	} {
		if d.wants(s.guide) {
			s.draw()
		}
	}
}

// overlayPen says how a line is drawn: shared lines continuous, the base dashed, the others heavy, each with a dash of its own.
func overlayPen(owner int, m render.Tagged, was lineKind) lineKind {
	switch {
	case owner == ofAll:
		was.dash = nil
		if was.width == wide {
			was.role = strong
		}
		if m.Guide == "pillar" {
			was.width = narrow
		}
		return was
	case owner == 0:
		return lineKind{min(was.width, narrow), []float64{4, 2}, plain}
	}
	k := variantLine(owner)
	if m.Guide != "outline" && m.ID != "pillar" {
		k.width = min(was.width, narrow)
	}
	return k
}

// variantLine is the line of plan k, 1 for the second.
func variantLine(k int) lineKind {
	return lineKind{wide, [][]float64{nil, {8, 3}, {1.5, 2}}[k-1], accent}
}
