package counting

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
)

// Demonstration is how the pages of a demonstration are divided, all alike, so that the figure stands still from one to the next: the
// step's sentence over the figure, the vehicle's name under it.
type Demonstration struct {
	Figure    draft.Box
	Wheel     geom.MM // on paper: the largest even one that the figure has room for
	sentences [PanelCount]string
	room      geom.MM // the width of a sentence
}

// The distances on the page of a demonstration.
const (
	stepNumber geom.MM = 8 // the width that a step's number takes
	footHeight geom.MM = 5
)

// NewDemonstration divides the canvas. largest returns the largest wheel on the canvas that a figure of some width and height has room for.
func NewDemonstration(c draft.Canvas, sentences [PanelCount]string, largest func(width, height geom.MM) geom.MM) (Demonstration, error) {
	d := Demonstration{Figure: c.Space, sentences: sentences, room: c.Space.Width() - stepNumber}
	var tallest geom.MM
	for i := range sentences {
		tallest = max(tallest, d.sentence(i).Height)
	}
	d.Figure.Min.Y += tallest + 2
	d.Figure.Max.Y -= footHeight
	if d.Wheel = c.FloorEven(largest(d.Figure.Width(), d.Figure.Height())); c.FromPaper(d.Wheel) < LeastWheel {
		return d, NoRoom("a step on each page")
	}
	return d, nil
}

// sentence returns the words of step i.
func (d Demonstration) sentence(i int) draft.Label {
	sentence := draft.Name(d.sentences[i])
	sentence.Height = draft.Medium
	return draft.NewLabel(draft.Wrapped(sentence, d.room)...)
}

// Write writes the words of a page: its step's number and sentence, and at the foot what vehicle it is, how to read the lines, and the
// page's number.
func (d Demonstration) Write(o Page, heading, sub string) {
	top, foot := o.Space.Min, o.Space.Max.Y-footHeight+1
	sentence := d.sentence(o.Step).TopAt(top.X+stepNumber, top.Y, render.Start)
	number := draft.OneLine(draft.Heading(fmt.Sprint(o.Step+1), draft.Large))
	o.Fixed.Write("strip", number.BaselineAt(top.X, sentence.Top+sentence.Baselines[0], render.Start))
	o.Fixed.Write("strip", sentence)
	page := draft.OneLine(draft.Note(o.Number)).TopAt(o.Space.Max.X, foot, render.End)
	room := page.Box().Min.X - 6 - o.Space.Min.X
	name := draft.Truncated(draft.Value(heading), room)
	rest := draft.Truncated(draft.Note("  "+sub), room-name.Width())
	if o.Number != "" {
		o.Fixed.Write("strip", page)
	}
	o.Fixed.Write("strip", draft.OneLine(name, rest).TopAt(o.Space.Min.X, foot, render.Start))
}
