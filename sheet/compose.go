// Package sheet puts plans on paper: it chooses the scale, draws the guides, finds a place for every
// word, and hands finished pages to render. It is where wheels and millimetres of paper meet.
package sheet

import (
	"fmt"
	jobs "hubrule/internal/job"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// The smallest wheel on paper that is drawn at all, and the smallest that can be traced by hand with comfort.
const (
	leastWheel      geom.MM = 10
	leastTraceWheel geom.MM = 35
)

// driver fits, numbers and places the sheets of a request.
type driver struct {
	request.Request
	more int     // sheets of other views, which are numbered with these
	most geom.MM // the largest wheel that other views have room for; 0: any
}

// Compose lays out every page of a job: by plan as named, then by kind as named, all at one wheel size
// unless the scale is a reduction. It returns what the user should be told, and fails when a sheet does
// not fit its paper; the error then says which scale would.
func Compose(r request.Request) (render.Document, request.Messages, error) {
	job := driver{Request: r}
	if job.Setting.Tile {
		return job.composeTiles()
	}
	if !slices.Equal(job.Setting.Seen(), []request.View{request.SideView}) {
		return job.composeViews()
	}
	sets, shared, err := job.allSets()
	if err != nil {
		return render.Document{}, request.Messages{}, err
	}
	doc := render.Document{Title: job.Title(), About: job.about()}
	var told request.Messages
	for i, s := range sets {
		doc.Pages = append(doc.Pages, s.pages...)
		told.Warnings = append(told.Warnings, job.tooFine(job.Plans[i].Profile.Name, s.wheel)...)
	}
	doc.Pages = append(doc.Pages, shared...)
	return doc, told, nil
}

// about is what the job's files say of themselves.
func (job driver) about() render.About {
	return render.About{Author: job.Setting.Author, Job: jobs.Written(job.Request, nil)}
}

// set is all sheets of one plan, and the wheel they are drawn at.
type set struct {
	wheel geom.MM
	pages []render.Page
}

// sets draws the sheets of every plan at the scale asked for; a fitting one has a wheel of at most limit if that is not 0.
func (job driver) sets(limit geom.MM) ([]set, error) {
	out := make([]set, len(job.Plans))
	if !job.Setting.Scale.Fits() {
		for i, p := range job.Plans {
			wheel := job.Setting.Scale.WheelOf(p)
			if wheel < leastWheel {
				return nil, fmt.Errorf("%s: a wheel of %s on paper is too small to draw; want at least %s", p.Profile.Name, draft.OnPaper(wheel), draft.OnPaper(leastWheel))
			}
			pages, err := job.pages(i, wheel)
			if err != nil {
				return nil, job.misfit(i, wheel)
			}
			out[i] = set{wheel, pages}
		}
		return out, nil
	}
	return out, job.fitAll(out, limit)
}

// fitAll draws every plan at the largest wheel that fits them all, at most common if that is not 0.
func (job driver) fitAll(out []set, common geom.MM) error {
	// A plan that needs a smaller wheel sends those before it round once more.
	for settled := 0; settled < len(out); {
		i := settled
		if out[i].wheel != common || common == 0 {
			out[i] = job.fit(i, common)
		}
		switch {
		case out[i].wheel == 0:
			return fmt.Errorf("%s does not fit on %s%s: not even with a wheel of %s; use larger paper%s",
				job.Plans[i].Profile.Name, job.Setting.Paper.Name, job.besideOthers(), draft.OnPaper(leastWheel), job.orFewerWords())
		case out[i].wheel == common || i == 0:
			settled++
		default:
			settled = 0
		}
		common = out[i].wheel
	}
	return nil
}

// besideOthers is the part of a message that says that a plan is not alone.
func (job driver) besideOthers() string {
	if len(job.Plans) > 1 {
		return " beside the others of this command"
	}
	return ""
}

// orFewerWords is the part of a message that names another way out, where there is one.
func (job driver) orFewerWords() string {
	if job.Setting.Labels == request.NoLabels || !slices.Contains(job.Kinds, request.Full) {
		return ""
	}
	return " or --labels none"
}

// fit draws plan i at the largest even wheel, at most limit if that is not 0, at which every sheet of it fits;
// the set's wheel is 0 if none does.
func (job driver) fit(i int, limit geom.MM) set {
	c := draft.NewCanvas(job.Setting)
	d := c.EvenBelow(job.roomFor(job.Plans[i]).largest(c.Space))
	if limit > 0 {
		d = min(d, limit)
	}
	for ; d >= leastWheel; d -= 2 {
		if pages, err := job.pages(i, d); err == nil {
			return set{d, pages}
		}
	}
	return set{}
}

// roomFor measures the least room that the sheets of p need.
func (job driver) roomFor(p layout.Plan) room {
	d := &drawing{plan: p, guides: job.Setting.Guides, checks: job.Setting.Checks, units: job.Setting.Units, way: way{near: true}}
	if job.isLabelled() {
		return d.roomOf(job.Setting.Labels)
	}
	return d.roomForTrace()
}

// misfit is the error when plan i does not fit at the wheel asked for; it says which scale would.
func (job driver) misfit(i int, asked geom.MM) error {
	p := job.Plans[i]
	what := fmt.Sprintf("%s does not fit on %s with a wheel of %s", p.Profile.Name, job.Setting.Paper.Name, draft.OnPaper(asked))
	fitting := job
	fitting.Setting.Scale = request.Scale{}
	together := make([]set, len(job.Plans))
	if fitting.fitAll(together, 0) != nil {
		return fmt.Errorf("%s, nor at any other scale; use larger paper", what)
	}
	best := together[0].wheel
	if best > asked {
		return fmt.Errorf("%s: its words need more room; --scale wheel=%gmm fits, or --labels none", what, float64(best))
	}
	n := 0. // each plan has its own wheel at a reduction: the one that needs most decides
	for k, q := range job.Plans {
		n = max(n, float64(q.OnVehicle(1)/fitting.fit(k, 0).wheel))
	}
	return fmt.Errorf("%s; --scale wheel=%gmm (1:%s) fits%s", what, float64(best), draft.Trimmed(n+.05, 1), job.orTiles())
}

// isLabelled reports whether the job has a sheet that decides the place of all others: a full sheet, or one with blanks.
func (job driver) isLabelled() bool {
	return slices.Contains(job.Kinds, request.Full) || job.HasBlanks()
}

// pages draws every kind of sheet of plan i with the wheel at size d. The labelled sheets decide the place, so
// that the others of the same command register with them.
func (job driver) pages(i int, d geom.MM) ([]render.Page, error) {
	p, s := job.Plans[i], job.Setting
	c := draft.NewCanvas(s)
	wheel := c.Real(d)
	var full, answer *drawing
	if job.isLabelled() {
		var err error
		if full, answer, err = job.labelled(c, p, wheel); err != nil {
			return nil, err
		}
	}
	var out []render.Page
	each := job.Each()
	for _, kind := range each {
		fixed := &draft.Board{Space: c.Space, Inks: draft.InksOf(job.Ink(kind))}
		c.Centring(fixed)
		page := onePage{Canvas: c, plan: p, kind: kind, wheel: d, full: full, answer: answer, fixed: fixed,
			number: job.sheetNumber(i*len(each) + len(out) + 1)}
		figure, err := job.draw(page)
		if err != nil {
			return nil, err
		}
		title := fmt.Sprintf("%s, %s", p.Profile.Title, kind)
		out = append(out, c.Finish(title, figure.Board, fixed, s.Facing))
	}
	return out, nil
}

// onePage is one sheet of one plan in the making.
type onePage struct {
	draft.Canvas
	plan         layout.Plan
	kind         request.Kind
	wheel        geom.MM      // on paper
	full, answer *drawing     // the labelled sheets, where the job has any
	fixed        *draft.Board // what is not mirrored: strip, blanks, centring marks
	number       string       // which sheet of how many
	roll         *roll        // of a perspective: what was taken for another kind of the same sheet
}

// draw draws a page's strip and returns its figure.
func (job driver) draw(o onePage) (*drawing, error) {
	p, s := o.plan, job.Setting
	columns := facts(p, o.wheel, s.Units)
	switch o.kind {
	case request.Full:
		o.Strip(o.fixed, job.caption(p), columns, o.number)
		return o.full, nil
	case request.Practice:
		figure := job.practised(o.Canvas, p, o.full)
		figure.writeBlanks(o.fixed, "Practice", figure.givenWords(s.GivenLevel()), false)
		// What was asked for would tell what is to be found.
		title := draft.Caption{Heading: job.caption(p).Heading, Sub: "practice, facing " + string(s.Facing)}
		o.Strip(o.fixed, title, unsolved(columns), o.number)
		return figure, nil
	case request.Steps:
		return job.steps(o.Canvas, p, o.fixed, o.number)
	case request.Answer:
		o.answer.writeBlanks(o.fixed, "Answer", o.answer.answerWords(), true)
		o.Strip(o.fixed, job.caption(p), columns, o.number)
		return o.answer, nil
	case request.Trace:
		figure, err := job.traced(o.Canvas, p, o.Real(o.wheel), o.full)
		if err != nil {
			return nil, err
		}
		title := job.caption(p)
		if words := p.Brief.Summary(); words != "" {
			title.Heading += ", " + words
		}
		o.Foot(o.fixed, title, "wheel on paper "+draft.OnPaper(o.wheel), "facing "+string(s.Facing))
		return figure, nil
	}
	panic("sheet: no kind " + string(o.kind))
}

// traced draws a trace sheet: on the full sheet's place if there is one, else in the middle of its own page.
func (job driver) traced(c draft.Canvas, p layout.Plan, wheel geom.MM, full *drawing) (*drawing, error) {
	d := job.drawing(c, p, request.Trace)
	outline := job.Setting.Outline == request.On
	if full != nil {
		d.place = full.place
		d.trace(outline, full.roadFrom(), full.reach)
		return d, nil
	}
	r := d.roomForTrace()
	var err error
	if d.place, err = r.stand(c.Space, wheel, 0); err != nil {
		return nil, err
	}
	d.trace(outline, d.x(r.from), d.x(r.to))
	return d, nil
}

func (job driver) drawing(c draft.Canvas, p layout.Plan, kind request.Kind) *drawing {
	return &drawing{
		Board: draft.NewBoard(c.Space, draft.InksOf(job.Ink(kind))), plan: p,
		guides: job.Setting.Guides, checks: job.Setting.Checks, units: job.Setting.Units,
	}
}

// caption returns the strip's name and the line under it: what was asked for, and what came of it.
func (job driver) caption(p layout.Plan) draft.Caption {
	c := job.captionOf(p, "side view")
	if job.Setting.Checks || slices.Contains(job.Setting.Guides, "checks") { // no other view draws the angles
		c.Remark = "angles are an aid to sketching, never an approval"
	}
	return c
}

// captionOf is the caption of a sheet that shows what is seen.
func (job driver) captionOf(p layout.Plan, seen string) draft.Caption {
	c := draft.Caption{Heading: p.Profile.Title, Sub: seen + ", typical figures"}
	if p.Varied {
		c.Sub = seen + ", varied inside the segment's ranges"
	}
	if words := p.Brief.Summary(); words != "" {
		c.Sub = words + "; " + p.ReadsAs(job.Among).Short
		if p.Varied {
			c.Sub = words + ", varied"
		}
	}
	if job.Setting.Title != "" {
		c.Heading, c.Sub = job.Setting.Title, p.Profile.Title+", "+c.Sub
	}
	return c
}
