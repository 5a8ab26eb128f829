package draft

import (
	"slices"
	"sort"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/request"
)

// The title block at the foot of a page names the sheet and carries the bar to check the print with.
const (
	TitleBlockHeight geom.MM = 18
	TitleLineHeight  geom.MM = 9 // of a trace sheet: one line and a bar
	BarLength        geom.MM = 100
)

// Unit is the name of the fact with the unit of lengths, which is never left out.
const Unit = "unit"

// Fact is one line of the title block: a name and its value.
type Fact struct{ Name, Value string }

// Caption is a sheet's name, what it shows, and a remark that is never left out.
type Caption struct{ Heading, Sub, Remark string }

// TitleBlock draws the title block of a labelled sheet: the name, columns of facts as wide as their words, the check bar.
// A column that does not fit is left out, the least needed last. A sheet that is cut into tiles has none.
func (c Canvas) TitleBlock(b *Surface, title Caption, columns [][]Fact, sheet string) {
	if c.Tiled {
		return
	}
	left, top := c.Space.Min.X, c.Space.Max.Y-TitleBlockHeight
	b.Line(TitleBlockLine().For("strip", ""), Pt(left, top), Pt(c.Space.Max.X, top))
	bar := c.Space.Max.X - c.FromPaper(BarLength)
	room := bar - 6 - left
	l, kept := captionBesideFacts(title, columns, room)
	if kept == nil {
		l = captionOverFacts(title, columns, room)
	}
	x := left + l.Width + captionGap
	b.Write("strip", l.TopAt(left, top+2.6, render.Start))
	for _, column := range kept {
		l := factsLabel(column)
		b.Write("strip", l.TopAt(x, top+2.9, render.Start))
		x += l.Width + betweenFacts
	}
	c.blockBar(b, bar, top+9, sheet)
}

// The distances in a title block, in mm.
const (
	captionGap   geom.MM = 9 // between the name and the facts
	betweenFacts geom.MM = 8 // between columns
)

// captionOverFacts is the name over the wheel on paper and the unit, which are never left out, for where no column fits beside the name.
func captionOverFacts(title Caption, columns [][]Fact, room geom.MM) Label {
	l, first := HeadingLabel(title.Heading, title.Sub, room), columns[0][0]
	under := []Word{Note(first.Name + " "), Value(first.Value)}
	facts := slices.Concat(columns...)
	if i := slices.IndexFunc(facts, isUnit); i >= 0 && !isUnit(first) {
		unit := []Word{Note(Unit + " "), Value(facts[i].Value)}
		if both := slices.Concat(under, []Word{Note("  ")}, unit); NewLabel(both).Width <= room {
			under = both
		} else { // on the narrowest papers the unit stands where the view is named
			l.Lines[1] = unit
		}
	}
	if title.Remark != "" {
		under = append(under, Truncated(Note("  "+title.Remark), room-NewLabel(under).Width))
	}
	return NewLabel(append(l.Lines, under)...)
}

func isUnit(f Fact) bool { return f.Name == Unit }

// fitting returns the first columns that the room holds, or nil. The unit is in them: under the facts of the first, if not in its own.
func fitting(columns [][]Fact, room geom.MM) [][]Fact {
	for n := len(columns); n > 0; n-- {
		out := slices.Clone(columns[:n])
		rest := slices.Concat(columns[n:]...)
		if i := slices.IndexFunc(rest, isUnit); i >= 0 {
			out[0] = append(slices.Clip(out[0]), rest[i])
		}
		width := betweenFacts * geom.MM(n-1)
		for _, column := range out {
			width += factsLabel(column).Width
		}
		if width <= room {
			return out
		}
	}
	return nil
}

// captionBesideFacts is the name over what the sheet shows, and the columns beside it; nil where none fits. What is too long beside the
// first column is broken into two lines.
func captionBesideFacts(title Caption, columns [][]Fact, room geom.MM) (Label, [][]Fact) {
	l := HeadingLabel(title.Heading, title.Sub, room)
	ways := []Label{l}
	if title.Remark != "" {
		ways[0] = NewLabel(append(l.Lines, []Word{Truncated(Note(title.Remark), room)})...)
	} else if sub := Wrapped(Note(title.Sub), room-captionGap-factsLabel(columns[0]).Width); len(sub) == 2 {
		ways = append(ways, NewLabel(append(l.Lines[:1:1], sub...)...))
	}
	for _, l := range ways {
		if kept := fitting(columns, room-captionGap-l.Width); kept != nil {
			return l, kept
		}
	}
	return l, nil
}

// OverTitleBlock returns the drawing space without the title block.
func (c Canvas) OverTitleBlock() Box {
	space := c.Space
	space.Max.Y -= TitleBlockHeight + 2
	return space
}

// blockBar draws the check bar of a labelled sheet, with the sheet's number below its end.
func (c Canvas) blockBar(b *Surface, bar, y geom.MM, sheet string) {
	page := OneLine(Note(sheet))
	c.CheckBar(b, "strip", Pt(bar, y))
	b.Write("strip", c.Advice(page.Width+4).TopAt(bar, y+2.2, render.Start))
	if sheet != "" {
		b.Write("strip", page.TopAt(bar+c.FromPaper(BarLength), y+2.2, render.End))
	}
}

// Advice is what stands under a check bar, where less than its whole length is free.
func (c Canvas) Advice(taken geom.MM) Label {
	full := OneLine(Value("100 mm"), Note("  print at 100 %, then measure"))
	if full.Width+taken > c.FromPaper(BarLength) {
		return OneLine(Value("100 mm"), Note("  print at 100 %"))
	}
	return full
}

func factsLabel(column []Fact) Label {
	lines := slice.Map(column, func(f Fact) []Word { return []Word{Note(f.Name + " "), Value(f.Value)} })
	return NewLabel(lines...)
}

// CheckBar draws the line that is 100 mm long on a true print, from at to the right, with ticks at equal distances. Without heights of
// ticks there is one a centimetre.
func (c Canvas) CheckBar(b *Surface, guide request.Guide, at Point, ticks ...geom.MM) {
	if ticks == nil {
		ticks = []geom.MM{4, 1.8, 1.8, 1.8, 1.8, 3, 1.8, 1.8, 1.8, 1.8, 4}
	}
	length := c.FromPaper(BarLength)
	b.Line(RuleLine().For(guide, "check-bar"), at, at.Add(Point{X: length}))
	for i, height := range ticks {
		foot := at.Add(Point{X: length / geom.MM(len(ticks)-1) * geom.MM(i)})
		b.Line(TickLine().For(guide, ""), foot, foot.Sub(Point{Y: height}))
	}
}

// TitleLine draws a title block of one line, broken in two where it is too long, and a three-tick bar. The caption's Sub is the kind of
// sheet.
func (c Canvas) TitleLine(b *Surface, title Caption, wheel, facing string) {
	if c.Tiled {
		return
	}
	heading := title.Heading
	bar, y := c.Space.Max.X-c.FromPaper(BarLength), c.Space.Max.Y-TitleLineHeight
	c.CheckBar(b, "strip", Pt(bar, y), 3, 3, 3)
	b.Write("strip", OneLine(Value("100 mm"), Note("  print at 100 %")).TopAt(bar, y+1.8, render.Start))
	room := bar - 6 - c.Space.Min.X
	short := title.Sub + ", " + wheel
	rest := ", " + short + ", " + facing
	l := OneLine(Name(heading + rest))
	if fonts.HasRTL(heading) { // a word of its own, so that the rest is not put in order with it
		l = OneLine(Name(heading), Name(rest))
	}
	for _, what := range []string{short + ", " + facing, short, wheel} {
		if l.Width > room {
			l = NewLabel([]Word{Truncated(Name(heading), room)}, []Word{Name(what)})
		}
	}
	if title.Remark != "" {
		// The wheel on paper is never cut.
		rest := Name(", " + short + ", " + facing)
		if NewLabel([]Word{Name(heading), rest}).Width > room {
			rest = Name(", " + short)
		}
		first := Truncated(Name(heading), room-rest.Width())
		l = NewLabel([]Word{first, rest}, []Word{Truncated(Note(title.Remark), room)})
	}
	b.Write("strip", l.TopAt(c.Space.Min.X, y+1.8, render.Start))
}

// HeadingLabel is the sheet's name over what it shows, in the largest lettering that fits the room; a name that
// is too long even in small letters is cut and ends in dots.
func HeadingLabel(heading, sub string, room geom.MM) Label {
	for _, height := range []geom.MM{Large, Medium} {
		if l := NewLabel([]Word{Heading(heading, height)}, []Word{Truncated(Note(sub), room)}); l.Width <= room {
			return l
		}
	}
	return NewLabel([]Word{Truncated(Heading(heading, Small), room)}, []Word{Truncated(Note(sub), room)})
}

// Truncated returns w, cut at the end until it is no wider than room. A reader of the file still finds the whole text.
func Truncated(w Word, room geom.MM) Word {
	tooWide := func(text string) bool { return fonts.Width(text, w.Height, w.Weight) > room }
	letters := []rune(w.Text)
	if !tooWide(w.Text) || len(letters) < 2 {
		return w
	}
	first := func(n int) string { return string(letters[:n]) + "…" }
	fit := sort.Search(len(letters)-1, func(n int) bool { return tooWide(first(n + 1)) }) // longer words are wider
	w.Text, w.whole = first(max(fit, 1)), w.Text
	return w
}
