package sheet

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// labelled draws the full sheet, and the figure of the answer sheet where there are blanks, in the best way that the words of both
// find room on one place.
func (job driver) labelled(c draft.Canvas, p layout.Plan, wheel geom.MM) (full, answer *drawing, err error) {
	for _, w := range ways(job.Setting.Labels) {
		full, err = job.labelledAs(c, p, labelling{request.Full, w, wheel})
		if err == nil && job.HasBlanks() {
			answer, err = job.labelledAs(c, p, labelling{request.Answer, w, wheel})
		}
		if err == nil {
			return full, answer, nil
		}
	}
	return nil, nil, err
}

// labelling is one attempt to write the words of a sheet.
type labelling struct {
	kind  request.Kind
	way   way
	wheel geom.MM
}

func (job driver) labelledAs(c draft.Canvas, p layout.Plan, l labelling) (*drawing, error) {
	d := job.drawing(c, p, l.kind)
	d.way = l.way
	r := d.roomOf(job.Setting.Labels)
	if job.HasBlanks() {
		r.blanks = d.blankGrid(c.Space).Height()
	}
	var err error
	if d.place, err = r.stand(c.Space, l.wheel, c.Real(c.Paper.Width)); err != nil {
		return nil, err
	}
	d.Space.Min.Y += r.blanks
	outline := job.Setting.Outline != request.Off
	if l.kind == request.Answer {
		outline = job.Setting.Outline == request.On
	}
	return d, d.full(job.Setting.Labels, outline, c.Space.Max.Y-draft.StripHeight)
}

// practised draws a practice sheet's figure on the full sheet's place.
func (job driver) practised(c draft.Canvas, p layout.Plan, full *drawing) *drawing {
	d := job.drawing(c, p, request.Practice)
	d.place = full.place
	d.practice(job.Setting.GivenLevel())
	return d
}
