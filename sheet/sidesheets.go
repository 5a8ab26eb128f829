package sheet

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// sideSheets are the sheets of one vehicle from the side, a page for each kind.
type sideSheets struct {
	request.Request
	plan layout.Plan
}

// Largest returns the largest wheel on the canvas that the sheets may have room for.
func (s sideSheets) Largest(c draft.Canvas) geom.MM {
	d := sideView{&drawing{plan: s.plan, guides: s.Setting.Guides, checks: s.Setting.Checks, units: s.Setting.Units, way: way{near: true}}}
	if s.isLabelled() {
		return d.roomOf(s.Setting.Labels).largest(c.Space)
	}
	return d.roomForTrace().largest(c.Space)
}

// isLabelled reports whether there is a sheet that decides the place of all others: a full sheet, or one with blanks.
func (s sideSheets) isLabelled() bool { return s.Has(request.Full) || s.HasBlanks() }

// labelled are the drawings that decide the place of the others.
type labelled struct{ full, answer *drawing }

// Draw draws every kind of sheet with the wheel at a size on paper. The labelled sheets decide the place, so that the others of the same
// request register with them.
func (s sideSheets) Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error) {
	var on labelled
	if s.isLabelled() {
		var err error
		if on, err = s.label(c, c.Real(wheel)); err != nil {
			return nil, err
		}
	}
	var out []render.Page
	for i, kind := range s.Each() {
		o := onePage{Canvas: c, plan: s.plan, kind: kind, wheel: wheel, number: number(i), fixed: c.Fixed(s.Ink(kind))}
		figure, err := s.page(o, on)
		if err != nil {
			return nil, err
		}
		out = append(out, c.Finish(fmt.Sprintf("%s, %s", s.plan.Profile.Title, kind), figure.Board, o.fixed, s.Setting.Facing))
	}
	return out, nil
}

// page draws the strip of one sheet and returns its figure.
func (s sideSheets) page(o onePage, on labelled) (*drawing, error) {
	columns, title := facts(o.plan, o.wheel, s.Setting.Units), caption(s.Request, o.plan, "side view")
	facing := "facing " + string(s.Setting.Facing)
	switch o.kind {
	case request.Full:
		o.Strip(o.fixed, title, columns, o.number)
		return on.full, nil
	case request.Practice:
		d := sideView{newDrawing(s.Request, o.Canvas, o.plan, request.Practice)}
		d.place = on.full.place
		d.practice(s.Setting.GivenLevel())
		d.writeBlanks(o.fixed, "Practice", d.givenWords(s.Setting.GivenLevel()), false)
		// What was asked for would give away what is to be found.
		o.Strip(o.fixed, draft.Caption{Heading: title.Heading, Sub: "practice, " + facing}, unsolved(columns), o.number)
		return d.drawing, nil
	case request.Answer:
		on.answer.writeBlanks(o.fixed, "Answer", sideView{on.answer}.answerWords(), true)
		o.Strip(o.fixed, title, columns, o.number)
		return on.answer, nil
	case request.Steps:
		return s.steps(o)
	case request.Trace:
		d, err := s.trace(o, on.full)
		if words := o.plan.Brief.Summary(); words != "" {
			title.Heading += ", " + words
		}
		o.Foot(o.fixed, title, "wheel on paper "+draft.OnPaper(o.wheel), facing)
		return d, err
	}
	panic("side: no kind " + string(o.kind))
}

// trace draws a trace sheet: on the full sheet's place if there is one, else in the middle of its own page.
func (s sideSheets) trace(o onePage, full *drawing) (*drawing, error) {
	d := sideView{newDrawing(s.Request, o.Canvas, o.plan, request.Trace)}
	outline := s.Setting.Outline == request.On
	if full != nil {
		d.place = full.place
		d.trace(outline, full.roadFrom(), full.reach)
		return d.drawing, nil
	}
	r := d.roomForTrace()
	var err error
	if d.place, err = r.stand(o.Space, o.Real(o.wheel), 0); err != nil {
		return nil, err
	}
	d.trace(outline, d.x(r.from), d.x(r.to))
	return d.drawing, nil
}

// label draws the full sheet, and the figure of the answer sheet where there are blanks, in the best style in which the words of both find
// room on one place.
func (s sideSheets) label(c draft.Canvas, wheel geom.MM) (on labelled, err error) {
	for _, style := range ways(s.Setting.Labels) {
		if on.full, err = s.labelAs(c, wheel, request.Full, style); err == nil && s.HasBlanks() {
			on.answer, err = s.labelAs(c, wheel, request.Answer, style)
		}
		if err == nil {
			return on, nil
		}
	}
	return labelled{}, err
}

// labelAs tries to write the words of a sheet in one style.
func (s sideSheets) labelAs(c draft.Canvas, wheel geom.MM, kind request.Kind, style way) (*drawing, error) {
	d := sideView{newDrawing(s.Request, c, s.plan, kind)}
	d.way = style
	r := d.roomOf(s.Setting.Labels)
	if s.HasBlanks() {
		r.blanks = d.blankGrid(c.Space).Height()
	}
	var err error
	if d.place, err = r.stand(c.Space, wheel, c.Real(c.Paper.Width)); err != nil {
		return nil, err
	}
	d.Space.Min.Y += r.blanks
	outline := s.Setting.Outline != request.Off
	if kind == request.Answer {
		outline = s.Setting.Outline == request.On
	}
	return d.drawing, d.full(s.Setting.Labels, outline, c.Space.Max.Y-draft.StripHeight)
}

// FullPlace returns where the full sheet of a plan has its front axle with a wheel on the canvas.
func FullPlace(r request.Request, p layout.Plan, c draft.Canvas, wheel geom.MM) (place, error) {
	on, err := sideSheets{r, p}.label(c, wheel)
	if err != nil {
		return place{}, err
	}
	return on.full.place, nil
}

// TraceRoom returns the largest wheel on the canvas that the vehicle alone has room for.
func TraceRoom(c draft.Canvas, p layout.Plan) geom.MM {
	return sideView{&drawing{plan: p}}.roomForTrace().largest(c.Space)
}
