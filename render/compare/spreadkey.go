package compare

import (
	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
)

// key explains the dots above the rows.
func (s *spreadPage) key() {
	x, y := s.Space.Min.X, s.Space.Min.Y+2
	write := func(i int, w draft.Word) {
		const indent = 11
		s.Write("labels", draft.OneLine(draft.Truncated(w, s.Space.Width()-indent)).MiddleAt(x+indent, y+keyPitch*geom.MM(i), render.Start))
	}
	for k := range s.plans {
		s.valueDot(k, "", draft.Pt(x+4, y+keyPitch*geom.MM(k)))
		write(k, coloured(k, draft.Name(s.names[k]))[0])
	}
	last := len(s.plans)
	mid := y + keyPitch*geom.MM(last)
	s.Line(draft.RuleLine().For("ticks", ""), draft.Pt(x, mid), draft.Pt(x+8, mid))
	for _, at := range []geom.MM{0, 4, 8} {
		s.Tick(draft.RuleLine().For("ticks", ""), draft.Pt(x+at, mid), draft.Pt(0, .6))
	}
	text := "range, the typical value ticked; under each row its own scale, marked at round values"
	if s.alike {
		text = "the segment's range, the typical value ticked; under each row its own scale, marked at round values"
	}
	write(last, draft.Note(text))
}

// heads writes the column headings of a block of rows. Where all ranges are drawn equally long, uprights run through their ends.
func (s *spreadPage) heads(top geom.MM, rows int) {
	from, to := s.track()
	head := func(w draft.Word, x geom.MM, a render.Anchor) {
		s.Write("labels", draft.OneLine(w).TopAt(x, top, a))
	}
	head(draft.Note("least"), from-3, render.End)
	head(draft.Note("greatest"), to+3+s.numbers, render.End)
	for k, name := range s.names {
		if s.named {
			head(coloured(k, draft.Name(name))[0], s.columnEnd(k), render.End)
		} else {
			s.valueDot(k, "", draft.Pt(s.columnEnd(k)-s.numbers/2, top+2))
		}
	}
	s.Stroke(draft.RuleLine().For("ticks", ""), draft.Pt(s.left, s.top), draft.Pt(s.right, s.top))
	if !s.alike {
		return
	}
	scale, r := s.axis(s.figures[0]), s.plans[0].Profile.Figures[s.figures[0]].Range
	for _, v := range []float64{r.Lo, r.Hi} {
		x := s.place(scale, v)
		upright := draft.NewLineStyle(draft.Hair, draft.Muted, 8, 8).For("ticks", "")
		s.Stroke(upright, draft.Pt(x, s.top), draft.Pt(x, s.top+s.pitch*geom.MM(rows)))
	}
}
