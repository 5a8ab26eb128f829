// Package compare draws several vehicles on one page: laid over each other, as ranges, or as small underlays.
package compare

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/outline"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/side"
)

// Overlay draws plans over each other on one front axle, with a table of the figures that differ. Shared lines are drawn once; the
// base's own are dashed, those of the others heavy.
type Overlay struct {
	request.Request
	Plans []layout.Plan
}

// Largest returns the largest wheel on the canvas, in mm, at which each vehicle fits by itself.
func (s Overlay) Largest(c draft.Canvas) geom.MM {
	least := geom.MM(math.Inf(1))
	for _, p := range s.Plans {
		least = min(least, side.LargestTraceWheel(c, p))
	}
	return least
}

// Draw draws the sheet; wheel is the size of a wheel on paper, in mm. It fails where the vehicles and the table find no room.
func (s Overlay) Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error) {
	fixed := c.FixedSurface(s.Ink(request.Overlay))
	o := &overlayPage{Request: s.Request, plans: s.titled(), canvas: c, wheel: c.FromPaper(wheel)}
	o.nose, o.tail = s.Plans[0].Nose(), s.Plans[0].Tail()
	for _, p := range s.Plans {
		o.nose, o.tail = min(o.nose, p.Nose()), max(o.tail, p.Tail())
	}
	const column = 22 // mm, of a name at the head of a table's column
	o.keys = keys(o.plans, min(column, c.Space.Width()/8))
	heads := o.keys
	if o.names = o.keys; o.keys == nil {
		o.names, heads = shortNames(o.plans, c.Space.Width()/8), shortNames(o.plans, column)
	}
	compared := comparison{o.plans, heads, s.Setting.Units, wheel}
	changes := compared.table(c.Space.Width(), false)
	at, err := o.place(changes.Height())
	if err != nil && o.wheel < o.smallOverlay() {
		changes = compared.table(c.Space.Width(), true)
		at, err = o.place(changes.Height())
	}
	if err != nil {
		return nil, err
	}
	figure, err := o.figure(at)
	if err != nil {
		return nil, err
	}
	o.key(fixed)
	changes.Draw(fixed, c.Space.Min.X, at.Origin.Y+overTable)
	title, columns := o.titleBlock(wheel)
	c.TitleBlock(fixed, title, columns, number(0))
	return []render.Page{c.Finish(title.Heading+", "+string(request.Overlay), figure, fixed, s.Setting.Facing)}, nil
}

// titled returns the plans. Where the request has one vehicle, the sheet's title is that vehicle's.
func (s Overlay) titled() []layout.Plan {
	plans := slices.Clone(s.Plans)
	if len(s.Request.Plans) == 1 && s.Setting.Title != "" {
		own := 0
		if len(s.Against) == 0 {
			own = 1 // over its segment's typical plan
		}
		plans[own].Brief.Title = s.Setting.Title
	}
	return plans
}

// smallOverlay is the wheel on the canvas below which the table is shortened rather than the drawing made smaller: lines of more than two
// vehicles need more room to be told apart.
func (o *overlayPage) smallOverlay() geom.MM {
	if len(o.plans) > 2 {
		return 26
	}
	return 20
}

// overlayPage is one overlay being drawn.
type overlayPage struct {
	request.Request
	plans      []layout.Plan
	names      []string // in labels
	keys       []string // the same, where they stand for longer names; else nil
	canvas     draft.Canvas
	wheel      geom.MM     // on the canvas
	nose, tail geom.Wheels // the foremost and the rearmost
}

// Distances on an overlay: the ground to the table, a line of the key to the next, the outlines to the upright rule.
const (
	overTable geom.MM = 6
	keyPitch  geom.MM = 4.6
	keyLong   geom.MM = 16 // of a sample of a line
	toRule    geom.MM = 6
)

// place puts the common front axle where the full sheet of the base has it, so that both register; in the middle where that leaves
// too little room.
func (o *overlayPage) place(tableHeight geom.MM) (counting.Place, error) {
	first := o.plans[0]
	r := counting.Room{
		Above: keyPitch*geom.MM(len(o.plans)+1) + 5, Below: overTable + tableHeight, TitleBlock: draft.TitleBlockHeight,
		Nose: counting.RoadAhead, Tail: toRule + counting.LadderAt,
	}
	r.From, r.To = o.nose, o.tail
	if o.Setting.Labels != request.NoLabels {
		for _, g := range o.levelLabels(o.drawing(first, counting.Place{Wheel: o.wheel})) {
			r.Tail = max(r.Tail, toRule+counting.LadderAt+g.Label.Width)
		}
	}
	for _, p := range o.plans {
		r.Top = max(r.Top, p.Height()+.1)
	}
	own, err := r.Place(o.canvas.Space, o.wheel, 0)
	if err != nil || !o.Has(request.Full) {
		return own, err
	}
	at, err := side.FullPlace(o.Request, first, o.canvas, o.wheel)
	if err != nil {
		return own, nil
	}
	s := o.canvas.Space
	if at.X(r.From)-r.Nose < s.Min.X || at.X(r.To)+r.Tail > s.Max.X ||
		at.Y(r.Top)-r.Above < s.Min.Y || at.Y(0)+r.Below+3 > s.Max.Y-draft.TitleBlockHeight {
		return own, nil
	}
	return at, nil
}

func (o *overlayPage) drawing(p layout.Plan, at counting.Place) *counting.Drawing {
	d := counting.NewDrawing(o.Request, o.canvas, p, request.Overlay)
	d.Place, d.Checks = at, false
	if d.Guides == nil {
		d.Guides = []request.Guide{"outline", "pillar", "roof", "belt", "sill", "overhangs", "wheels", "ground"}
	}
	d.Guides = slices.DeleteFunc(slices.Clone(d.Guides), func(g request.Guide) bool { return g == "checks" }) // they are not compared
	return d
}

// figure draws every plan on a surface of its own, then all on one.
func (o *overlayPage) figure(at counting.Place) (*draft.Surface, error) {
	var surfaces []*draft.Surface
	for _, p := range o.plans {
		d := o.drawing(p, at)
		d.LevelsEnd = d.X(o.tail) + toRule - 1
		if o.Setting.Outline != request.OutlineOff && d.Wants("outline") {
			bodyAndGlass(d)
		}
		side.DrawTrace(d, false, d.X(o.nose)-counting.RoadAhead, d.LevelsEnd)
		surfaces = append(surfaces, d.Surface)
	}
	all := o.drawing(o.plans[0], at)
	newMerger(surfaces).draw(all.Surface, overlayPen)
	if o.Setting.Labels == request.NoLabels {
		return all.Surface, nil
	}
	all.RuleX = all.X(o.tail) + toRule
	if err := all.WriteLadder(o.levelLabels(all)); err != nil {
		return nil, err
	}
	o.pillars(all)
	return all.Surface, nil
}

// bodyAndGlass draws those lines of the outline that an overlay compares.
func bodyAndGlass(d *counting.Drawing) {
	for _, l := range outline.Of(d.Plan).Lines {
		switch l.Kind {
		case outline.Body:
			d.Curve(counting.OutlineLine().For("outline", "outline"), d.Path(l.Path), 8)
		case outline.Glass:
			d.Curve(counting.OutlineLine().For("outline", "outline-"+l.Name), d.Path(l.Path), 8)
		}
	}
}

// overlayPen returns the style of a line: shared lines continuous, the base's dashed, those of the others heavy, each with its own dashes.
func overlayPen(owner int, m render.Tagged, was draft.LineStyle) draft.LineStyle {
	switch {
	case owner == shared:
		was.Dash = nil
		if was.Width == draft.Wide {
			was.Role = draft.Strong
		}
		if m.Guide == "pillar" {
			was.Width = draft.Narrow
		}
		return was
	case owner == 0:
		k := variantLine(0)
		k.Width = min(was.Width, k.Width)
		return k
	}
	k := variantLine(owner)
	if m.Guide != "outline" && m.ID != "pillar" {
		k.Width = min(was.Width, draft.Narrow)
	}
	return k
}

// variantLine is the line of plan k; 0 is the base.
func variantLine(k int) draft.LineStyle {
	switch k {
	case 0:
		return draft.NewLineStyle(draft.Narrow, draft.Plain, 4, 2)
	case 1:
		return draft.NewLineStyle(draft.Wide, draft.Accent)
	case 2:
		return draft.NewLineStyle(draft.Wide, draft.Accent, 8, 3)
	}
	return draft.NewLineStyle(draft.Wide, draft.Accent, 1.5, 2)
}
