// Package side draws the sheets of a vehicle from the side: full, trace, steps, demonstration, practice and answer.
package side

import (
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// Sheets are the sheets of one vehicle from the side, a page for each kind.
type Sheets struct {
	request.Request
	Plan layout.Plan
}

// Largest returns the largest wheel on the canvas that the sheets may have room for.
func (s Sheets) Largest(c draft.Canvas) geom.MM {
	d := s.unplaced()
	switch {
	case s.isLabelled():
		var largest geom.MM
		for _, d.Labels = range counting.LabelLayouts(s.Request, isUpright(c)) {
			d.Tiled = d.Labels.ValuesOnly
			largest = max(largest, d.roomOf(s.Setting.Labels, c.Space).LargestWheel(c.Space))
		}
		return largest
	case s.HasBlanks():
		return d.roomForPractice(c.Space, s.Setting.GivenLevel()).LargestWheel(c.Space)
	}
	return d.roomForTrace().LargestWheel(c.Space)
}

// unplaced returns a drawing that has no place yet, to measure room by.
func (s Sheets) unplaced() drawing {
	return drawing{&counting.Drawing{Plan: s.Plan, Guides: s.Setting.Guides, Checks: s.Setting.Checks, Units: s.Setting.Units,
		OnScreen: s.OnScreen}}
}

// isUpright reports whether a page is higher than wide.
func isUpright(c draft.Canvas) bool { return c.Space.Height() > c.Space.Width() }

// isLabelled reports whether there is a sheet with words in the drawing, which decides the place of all others.
func (s Sheets) isLabelled() bool { return s.Has(request.Full) || s.Has(request.Answer) }

// labelled are the drawings that decide the place of the others.
type labelled struct{ full, answer *counting.Drawing }

// Draw draws every kind of sheet with the wheel at a size on paper. The labelled sheets decide the place, so that the others of the same
// request register with them.
func (s Sheets) Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error) {
	var on labelled
	var err error
	switch {
	case s.isLabelled():
		on, err = s.label(c, c.FromPaper(wheel))
	case s.HasBlanks():
		on.full, err = s.practicePlace(c, c.FromPaper(wheel))
	}
	if err != nil {
		return nil, err
	}
	return counting.Pages{Request: s.Request, Plan: s.Plan, Wheel: wheel}.Each(c, number, func(o counting.Page) (render.Page, error) {
		figure, err := s.page(o, on)
		if err != nil {
			return render.Page{}, err
		}
		return o.Finish(fmt.Sprintf("%s, %s", s.Plan.Profile.Title, o.Kind), figure.Surface, o.Fixed, s.Setting.Facing), nil
	})
}

// TitleOf returns the words of the title block of a kind of sheet, with the wheel at a size on paper.
func (s Sheets) TitleOf(_ draft.Canvas, kind request.Kind, wheel geom.MM) (draft.Caption, [][]draft.Fact) {
	columns, title := counting.Facts(s.Plan, wheel, s.Setting.Units), counting.Caption(s.Request, s.Plan, "side view")
	if s.Setting.Checks || slices.Contains(s.Setting.Guides, "checks") { // no other view draws the angles
		title.Remark = "angles are an aid to sketching, never an approval"
	}
	switch kind {
	case request.Practice: // the brief would give away the answers
		return draft.Caption{Heading: title.Heading, Sub: "practice, " + s.facing()}, counting.WithoutAnswers(columns)
	case request.Trace:
		if words := s.Plan.Summary(); words != "" {
			title.Heading += ", " + words
		}
		return draft.Caption{Heading: title.Heading, Sub: s.facing(), Remark: title.Remark}, columns[:3] // it has no lengths and no counts
	}
	return title, columns
}

// facing says which way the vehicle faces.
func (s Sheets) facing() string { return "facing " + string(s.Setting.Facing) }

// page draws the title block of one sheet and returns its figure.
func (s Sheets) page(o counting.Page, on labelled) (*counting.Drawing, error) {
	title, columns := s.TitleOf(o.Canvas, o.Kind, o.Wheel)
	switch o.Kind {
	case request.Full:
		o.TitleBlock(o.Fixed, title, columns, o.Number)
		on.full.WriteTable(o.Fixed)
		return on.full, nil
	case request.Practice:
		d := drawing{counting.NewDrawing(s.Request, o.Canvas, o.Plan, request.Practice)}
		d.Place = on.full.Place
		d.practice(s.Setting.GivenLevel())
		draft.Form{Heading: "Practice", Sentence: d.givenText(s.Setting.GivenLevel()),
			Blanks: d.Blanks(d.gives(s.Setting.GivenLevel()))}.Write(o.Fixed)
		o.TitleBlock(o.Fixed, title, columns, o.Number)
		return d.Drawing, nil
	case request.Answer:
		sentence := counting.AnswerSentence(s.Setting.Units, "")
		d := drawing{on.answer}
		draft.Form{Heading: "Answer", Sentence: sentence, Filled: true, Blanks: d.Blanks(d.gives(s.Setting.GivenLevel()))}.Write(o.Fixed)
		o.TitleBlock(o.Fixed, title, columns, o.Number)
		on.answer.WriteTable(o.Fixed)
		return on.answer, nil
	case request.Steps:
		return s.steps(o)
	case request.Demonstration:
		return s.demonstration(o)
	case request.Trace:
		d, err := s.trace(o, on.full)
		o.TraceTitle(s.Request, counting.WheelFact(o.Wheel), title.Remark)
		return d, err
	}
	panic("side: no kind " + string(o.Kind))
}

// trace draws a trace sheet: on the full sheet's place if there is one, else in the middle of its own page.
func (s Sheets) trace(o counting.Page, full *counting.Drawing) (*counting.Drawing, error) {
	d := drawing{counting.NewDrawing(s.Request, o.Canvas, o.Plan, request.Trace)}
	outline := s.Setting.Outline == request.OutlineOn
	r := d.roomForTrace()
	r.TitleBlock = o.BlockHeight(r.TitleBlock)
	var err error
	if full != nil {
		d.Place = full.Place
	} else if d.Place, err = r.Place(o.Space, o.FromPaper(o.Wheel), 0); err != nil {
		return nil, err
	}
	from, to := d.X(r.From), d.X(r.To)
	if full != nil {
		from, to = full.RoadStart(), full.LevelsEnd
	}
	d.LevelsEnd = d.X(d.Plan.Tail()) // the paper beside the vehicle stays empty
	DrawTrace(d.Drawing, outline, from, to)
	return d.Drawing, nil
}

// practicePlace returns an empty drawing on the place of a practice sheet that no answer lies on.
func (s Sheets) practicePlace(c draft.Canvas, wheel geom.MM) (*counting.Drawing, error) {
	d := drawing{counting.NewDrawing(s.Request, c, s.Plan, request.Practice)}
	var err error
	r := d.roomForPractice(c.Space, s.Setting.GivenLevel())
	r.TitleBlock = c.BlockHeight(r.TitleBlock)
	d.Place, err = r.Place(c.Space, wheel, 0)
	_, to := d.GuideExtent()
	d.LevelsEnd = d.X(to)
	return d.Drawing, err
}

// label draws the full sheet, and the figure of the answer sheet where there are blanks, in the best style in which the words of both find
// room on one place.
func (s Sheets) label(c draft.Canvas, wheel geom.MM) (on labelled, err error) {
	for _, style := range counting.LabelLayouts(s.Request, isUpright(c)) {
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
func (s Sheets) labelAs(c draft.Canvas, wheel geom.MM, kind request.Kind, style counting.LabelLayout) (*counting.Drawing, error) {
	d := drawing{counting.NewDrawing(s.Request, c, s.Plan, kind)}
	d.Labels, d.Tiled = style, d.Tiled || style.ValuesOnly
	r := d.roomOf(s.Setting.Labels, c.Space)
	r.TitleBlock = c.BlockHeight(r.TitleBlock)
	if s.HasBlanks() {
		r.Blanks = draft.NewBlankGrid(d.Blanks(d.gives(s.Setting.GivenLevel())), c.Space).Height()
	}
	var err error
	if d.Place, err = r.Place(c.Space, wheel, c.FromPaper(c.Paper.Width)); err != nil {
		return nil, err
	}
	d.Space.Min.Y += r.Blanks
	// Where it is not printed it only keeps the place of the others, which a brief without it has to find again.
	outline := s.Setting.Outline != request.OutlineOff || !s.Has(request.Full)
	if kind == request.Answer {
		outline = s.Setting.Outline == request.OutlineOn
	}
	if d.Labels.Keyed {
		c.Space.Max.Y -= counting.KeyedHeight(d.words(), c.Space) + 4
	}
	bottom := c.Space.Max.Y - c.BlockHeight(draft.TitleBlockHeight)
	if err = d.full(s.Setting.Labels, outline, bottom); err == nil && s.Setting.Legend && kind == request.Full {
		err = d.Legend(c, counting.LegendEntries())
	}
	return d.Drawing, err
}

// FullPlace returns where the full sheet of a plan has its front axle with a wheel on the canvas.
func FullPlace(r request.Request, p layout.Plan, c draft.Canvas, wheel geom.MM) (counting.Place, error) {
	on, err := Sheets{r, p}.label(c, wheel)
	if err != nil {
		return counting.Place{}, err
	}
	return on.full.Place, nil
}

// LargestTraceWheel returns the largest wheel on the canvas that the vehicle alone has room for.
func LargestTraceWheel(c draft.Canvas, p layout.Plan) geom.MM {
	return drawing{&counting.Drawing{Plan: p}}.roomForTrace().LargestWheel(c.Space)
}
