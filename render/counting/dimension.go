package counting

import (
	"strings"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/segments"
)

// Dimension is a length along the ground of a view, between two x of the plan.
type Dimension struct {
	Name     string
	From, To geom.Wheels
	Meaning  string // of the length, for a note; may be empty
	Key      string // names the length
}

// LengthDimensions returns wheelbase and length.
func (d *Drawing) LengthDimensions() [2]Dimension {
	return [2]Dimension{{"wheelbase", 0, d.Plan.Wheelbase(), "axle to axle", segments.Wheelbase.String()},
		{"length", d.Plan.Nose(), d.Plan.Tail(), "nose to tail", segments.Length.String()}}
}

// words is the dimension's name and length.
func (d *Drawing) words(m Dimension) []draft.Word {
	return []draft.Word{draft.Name(m.Name + " "), draft.Value(d.FormatLength(m.To - m.From)).For(m.Key)}
}

// dimension draws a dimension line of a full sheet; its words stay inside it where the long ones fit.
func (d *Drawing) dimension(m Dimension, y geom.MM) {
	a, b := d.X(m.From), d.X(m.To)
	short := d.words(m)
	l := draft.NewLabel(append(short, draft.Note("  "+m.Meaning+", "+d.FormatSecondary(m.To-m.From))))
	if !d.Labels.Notes || l.Width+2*clearOf(l) > b-a-5 {
		l = draft.NewLabel(short)
	}
	placed := d.OffSeams(l.MiddleAt((a+b)/2, y, render.Middle))
	words := placed.Box()
	d.Write("labels", placed)
	for _, half := range [][2]geom.MM{{a, words.Min.X - clearOf(l)}, {b, words.Max.X + clearOf(l)}} {
		d.Line(draft.TickLine().For("labels", ""), draft.Pt(half[0], y), draft.Pt(half[1], y))
		d.Tick(draft.TickLine().For("labels", ""), draft.Pt(half[0], y), draft.Pt(0, 1.5))
	}
}

// clearOf returns how far a dimension line ends from the words that break it: room for a face that is 15 % wider, in programs that do not
// read the embedded one.
func clearOf(l draft.Label) geom.MM { return max(1.5, .8+.075*l.Width) }

// BrokenDimensions draws two dimensions under a view whose labels end at y.
func (d *Drawing) BrokenDimensions(y geom.MM, m [2]Dimension) {
	d.BrokenDimension(m[0], y+4.2)
	d.BrokenDimension(m[1], y+10.2)
}

// BrokenDimension draws a dimension at the page's height y, broken for its words: with meaning and length in the other unit, or shorter.
// Where none finds room the line stays whole.
func (d *Drawing) BrokenDimension(m Dimension, y geom.MM) {
	a, b := draft.Pt(d.X(m.From), y), draft.Pt(d.X(m.To), y)
	short := d.words(m)
	labels := []draft.Label{draft.NewLabel(short), draft.NewLabel(short[1:])}
	if d.Labels.Notes {
		note := "  " + d.FormatSecondary(m.To-m.From)
		if m.Meaning != "" {
			note += ", " + m.Meaning
		}
		labels = append([]draft.Label{draft.NewLabel(append(short[:2:2], draft.Note(note)))}, labels...)
	}
	path := render.Path{}.Move(a).Line(b)
	for _, l := range labels {
		placed := l.MiddleAt((a.X+b.X)/2, y, render.Middle)
		words := placed.Box()
		from, to := words.Min.X-clearOf(l), words.Max.X+clearOf(l)
		if from < a.X+2 || to > b.X-2 {
			continue
		}
		d.Write("labels", placed)
		path = render.Path{}.Move(a).Line(draft.Pt(from, y)).Move(draft.Pt(to, y)).Line(b)
		break
	}
	d.Curve(draft.TickLine().For("widths", strings.ReplaceAll(m.Name, " ", "-")), path, 1)
	for _, end := range []draft.Point{a, b} {
		d.Tick(draft.TickLine().For("widths", ""), end, draft.Pt(0, 1.5))
	}
}
