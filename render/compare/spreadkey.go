package compare

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
)

// key explains the dots above the rows, and writes the column headings.
func (s *spreadPage) key() {
	x, y := s.Space.Min.X, s.Space.Min.Y+2
	write := func(i int, at geom.MM, w draft.Word) {
		s.Write("labels", draft.OneLine(draft.Truncated(w, s.Space.Max.X-at)).MiddleAt(at, y+keyPitch*geom.MM(i), render.Start))
	}
	const indent = 14
	for k := range s.plans {
		s.valueDot(k, "", draft.Pt(x+8, y+keyPitch*geom.MM(k)))
		write(k, x, draft.Note(fmt.Sprint(k+1)))
		write(k, x+indent, coloured(k, draft.Name(s.names[k]))[0])
	}
	last := len(s.plans)
	mid := y + keyPitch*geom.MM(last)
	s.Line(draft.RuleLine().For("ticks", ""), draft.Pt(x+3, mid), draft.Pt(x+11, mid))
	for _, at := range []geom.MM{3, 7, 11} {
		s.Tick(draft.RuleLine().For("ticks", ""), draft.Pt(x+at, mid), draft.Pt(0, .6))
	}
	text := "range, the typical value ticked; every row from its own least to its own greatest value"
	if s.alike {
		text = "range, the typical value ticked; every row in half-ranges: \u22121 its least value, 1 its greatest"
	}
	write(last, x+indent, draft.Note(text))
	s.heads(s.top - 4.2)
}

// heads writes the column headings. In half-ranges it also draws the scale of all rows: −1, 0 and 1, each with an upright through them.
func (s *spreadPage) heads(top geom.MM) {
	from, to := s.track()
	head := func(text string, x geom.MM, a render.Anchor) {
		s.Write("labels", draft.OneLine(draft.Note(text)).TopAt(x, top, a))
	}
	head("least", from-3, render.End)
	head("greatest", to+3+s.numbers, render.End)
	for k := range s.plans {
		head(fmt.Sprint(k+1), s.columnEnd(k), render.End)
	}
	s.Stroke(draft.RuleLine().For("ticks", ""), draft.Pt(s.Space.Min.X, s.top), draft.Pt(s.Space.Max.X, s.top))
	if !s.alike {
		return
	}
	f := s.figures[0]
	scale, r := s.axis(f), s.plans[0].Profile.Figures[f].Range
	for i, v := range []float64{r.Lo, (r.Lo + r.Hi) / 2, r.Hi} {
		x := s.place(scale, v)
		head(draft.FormatFixed(float64(i-1), 0), x, render.Middle)
		upright := draft.NewLineStyle(draft.Hair, draft.Muted, 8, 8).For("ticks", "")
		s.Stroke(upright, draft.Pt(x, s.top), draft.Pt(x, s.top+s.pitch()*geom.MM(len(s.figures))))
	}
}
