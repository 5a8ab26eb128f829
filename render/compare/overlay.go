// Package compare draws several vehicles on one page: laid over each other, as ranges, or as small underlays.
package compare

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
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

// Largest returns the largest wheel of the base on the canvas, in mm, at which each vehicle fits by itself.
func (s Overlay) Largest(c draft.Canvas) geom.MM {
	least := geom.MM(math.Inf(1))
	for _, p := range s.Plans {
		least = min(least, side.LargestTraceWheel(c, p)/s.Setting.Scale.WheelBeside(s.Plans[0], 1, p))
	}
	return least
}

// Draw draws the sheet; wheel is the size of the base's wheel on paper, in mm. It fails where the vehicles and the table find no room.
func (s Overlay) Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error) {
	o := s.newPage(c, wheel)
	changes, at, err := o.layOut()
	if err != nil {
		return nil, err
	}
	figure, fixed := o.figure(at), c.FixedSurface(s.Ink(request.Overlay))
	rakes := false
	if o.Setting.Labels != request.NoLabels {
		if err := figure.WriteLadder(o.levelLabels(figure)); err != nil {
			return nil, err
		}
		rakes = !o.pillars(figure)
	}
	o.key(fixed, rakes)
	changes.Draw(fixed, c.Space.Min.X, at.Origin.Y+overTable)
	title, columns := o.titleBlock()
	c.TitleBlock(fixed, title, columns, number(0))
	return []render.Page{c.Finish(o.title()+", "+string(request.Overlay), figure.Surface, fixed, s.Setting.Facing)}, nil
}

// TitleOf returns the words of the title block.
func (s Overlay) TitleOf(c draft.Canvas, _ request.Kind, wheel geom.MM) (draft.Caption, [][]draft.Fact) {
	return s.newPage(c, wheel).titleBlock()
}

// newPage prepares a page: the names of the vehicles and their wheels.
func (s Overlay) newPage(c draft.Canvas, wheel geom.MM) *overlayPage {
	o := &overlayPage{Request: s.Request, plans: s.titled(), canvas: c}
	for _, p := range s.Plans {
		w := s.Setting.Scale.WheelBeside(s.Plans[0], wheel, p)
		o.onPaper, o.sizes = append(o.onPaper, w), append(o.sizes, geom.Wheels(w/wheel))
		size := o.sizes[len(o.sizes)-1]
		o.nose, o.tail, o.top = min(o.nose, p.Nose()*size), max(o.tail, p.Tail()*size), max(o.top, (p.Height()+.1)*size)
	}
	o.wheel = c.FromPaper(wheel)
	column := geom.MM(22) // of a name at the head of a table's column
	if o.several() {
		column = 28 // over two columns
	}
	o.keys = keys(o.plans, min(column, c.Space.Width()/8))
	o.heads = o.keys
	if o.names = o.keys; o.keys == nil {
		o.names, o.heads = shortNames(o.plans, c.Space.Width()/8), shortNames(o.plans, column)
	}
	return o
}

// printed returns the wheel of each plan on paper: where the page is for a screen, on the paper that it stands for.
func (o *overlayPage) printed() []geom.MM {
	if o.Printed == 0 {
		return o.onPaper
	}
	return slice.Map(o.sizes, func(size geom.Wheels) geom.MM { return o.Printed * geom.MM(size) })
}

// several reports whether there are more vehicles than two.
func (o *overlayPage) several() bool { return len(o.plans) > 2 }

// layOut places the vehicles over the table. Below some wheel the table is shortened rather than the drawing made smaller: of several
// vehicles to the largest changes on paper that there is room for, else to the figures that the full sheet names, on the smallest papers to
// the first of these.
func (o *overlayPage) layOut() (draft.Table, counting.Place, error) {
	compared := comparison{o.plans, o.heads, o.Setting.Units, o.printed()}
	changes := compared.changes()
	try := func(kept []change) (draft.Table, counting.Place, error) {
		t := compared.table(o.canvas.Space.Width(), kept, len(changes)-len(kept))
		at, err := o.place(t.Height())
		return t, at, err
	}
	t, at, err := try(changes)
	kept, small, tiny := changes, geom.MM(26), geom.MM(26) // more lines need more room to be told apart
	if !o.several() {
		kept = slices.DeleteFunc(slices.Clone(changes), func(ch change) bool { return !mainFigure(ch.figure) })
		small, tiny = 20, 14
	}
	if err != nil && o.wheel < small {
		t, at, err = try(kept)
	}
	const least = 6
	for n := len(kept) - 1; err != nil && o.wheel < tiny && n >= least; n-- {
		t, at, err = try(kept[:n])
	}
	return t, at, err
}

// titled returns the plans. Where the request has one vehicle, the sheet's title is that vehicle's.
func (s Overlay) titled() []layout.Plan {
	plans := slices.Clone(s.Plans)
	if len(s.Request.Plans) == 1 && s.Setting.Title != "" {
		plans[s.Subject()].Brief.Title = s.Setting.Title
	}
	return plans
}

// overlayPage is one overlay being drawn.
type overlayPage struct {
	request.Request
	plans      []layout.Plan
	names      []string // in labels
	heads      []string // at the heads of the table's columns
	keys       []string // the names where they are letters that stand for longer ones; else nil
	canvas     draft.Canvas
	wheel      geom.MM       // of the base, on the canvas
	onPaper    []geom.MM     // the wheel of each plan
	sizes      []geom.Wheels // the wheel of each plan, in wheels of the base
	nose, tail geom.Wheels   // the foremost and the rearmost, in wheels of the base
	top        geom.Wheels   // over the highest
}

// Distances on an overlay: the ground to the table, the outlines to the upright rule.
const (
	overTable geom.MM = 6
	toRule    geom.MM = 6
)

// place puts the common front axle where the full sheet of the base has it, so that both register; in the middle where that leaves
// too little room.
func (o *overlayPage) place(tableHeight geom.MM) (counting.Place, error) {
	r := counting.Room{
		Above: o.newKey(true).height() + 5, Below: overTable + tableHeight, TitleBlock: o.canvas.BlockHeight(draft.TitleBlockHeight),
		Nose: counting.RoadAhead, Tail: toRule + counting.LadderAt, From: o.nose, To: o.tail, Top: o.top,
	}
	if o.Setting.Labels != request.NoLabels {
		for _, g := range o.levelLabels(o.drawing(0, counting.Place{Wheel: o.wheel})) {
			r.Tail = max(r.Tail, toRule+counting.LadderAt+g.Label.Width)
		}
	}
	own, err := r.Place(o.canvas.Space, o.wheel, 0)
	if err != nil || !o.Has(request.Full) {
		return own, err
	}
	at, err := side.FullPlace(o.Request, o.plans[0], o.canvas, o.wheel)
	if err != nil {
		return own, nil
	}
	s := o.canvas.Space
	if at.X(r.From)-r.Nose < s.Min.X || at.X(r.To)+r.Tail > s.Max.X ||
		at.Y(r.Top)-r.Above < s.Min.Y || at.Y(0)+r.Below+3 > s.Max.Y-o.canvas.BlockHeight(draft.TitleBlockHeight) {
		return own, nil
	}
	return at, nil
}

// drawing is an empty drawing of plan k, given where the base stands.
func (o *overlayPage) drawing(k int, base counting.Place) *counting.Drawing {
	d := counting.NewDrawing(o.Request, o.canvas, o.plans[k], request.Overlay)
	d.Place, d.Checks = base, false
	d.Wheel = base.MM(o.sizes[k])
	if d.Guides == nil {
		d.Guides = request.Overlay.Guides()
	}
	d.Guides = slices.DeleteFunc(slices.Clone(d.Guides), func(g request.Guide) bool { return g == "checks" }) // they are not compared
	return d
}

// figure draws every plan on a surface of its own, then all on that of the base, which it returns.
func (o *overlayPage) figure(at counting.Place) *counting.Drawing {
	all := o.drawing(0, at)
	all.RuleX = all.X(o.tail) + toRule
	var surfaces []*draft.Surface
	for k := range o.plans {
		d := o.drawing(k, at)
		d.LevelsEnd = all.RuleX - 1
		if o.Setting.Outline != request.OutlineOff && d.Wants("outline") {
			bodyAndGlass(d)
		}
		side.DrawTrace(d, false, all.X(o.nose)-counting.RoadAhead, d.LevelsEnd)
		surfaces = append(surfaces, d.Surface)
	}
	newMerger(surfaces).draw(all.Surface, overlayPen)
	return all
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
