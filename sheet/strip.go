package sheet

import (
	"fmt"
	"slices"
	"sort"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/request"
)

// The strip at the foot of a page says what the sheet is and carries the bar to check the print with.
const (
	stripHeight geom.MM = 18
	footHeight  geom.MM = 9 // of a trace sheet: one line and a bar
	barLong     geom.MM = 100
)

// lengthsIn names the fact that tells the unit of lengths, which is never left out.
const lengthsIn = "lengths in"

// fact is one line of the strip: a name and its value.
type fact struct{ name, value string }

// caption is what a sheet is called: its name, what it shows, and a remark that must not be lost.
type caption struct{ heading, sub, remark string }

// strip draws the strip of a labelled sheet: the name, columns of facts as wide as their words, the check bar.
// A column that does not fit is left out, the least needed last.
func (c canvas) strip(b *board, title caption, columns [][]fact, sheet string) {
	remark := title.remark
	foot := c.space.Max
	top := foot.Y - stripHeight
	b.line("strip", "", stripLine(), point{X: c.space.Min.X, Y: top}, point{X: foot.X, Y: top})
	bar := foot.X - c.real(barLong)
	l := headingLabel(title.heading, title.sub, bar-6-c.space.Min.X)
	x := c.space.Min.X + l.width + 9
	var under []word
	if first := columns[0]; x+factsLabel(first).width > bar-6 {
		// The wheel on paper and the unit are never left out: where no column fits they stand under the name.
		under = []word{note(first[0].name + " "), value(first[0].value)}
		if unit := unitFact(columns); unit != nil {
			under = append(under, note("  "+unit.name+" "), value(unit.value))
		}
		columns = nil
	}
	if remark != "" {
		if under != nil {
			remark = "  " + remark
		}
		under = append(under, note(remark))
	}
	if room := bar - 6 - c.space.Min.X; newLabel(under).width > room && remark != "" {
		under[len(under)-1] = shortened(under[len(under)-1], room-newLabel(under[:len(under)-1]).width)
	}
	l = newLabel(append(l.lines, under)...)
	x = max(x, c.space.Min.X+l.width+9)
	b.write("strip", l, c.space.Min.X, top+2.6, render.Start)
	for _, column := range columns {
		l := factsLabel(column)
		if x+l.width > bar-6 {
			break
		}
		b.write("strip", l, x, top+2.9, render.Start)
		x += l.width + 8
	}
	c.stripBar(b, bar, top+9, sheet)
}

// stripBar draws the check bar of a labelled sheet, with the sheet's number below its end.
func (c canvas) stripBar(b *board, bar, y geom.MM, sheet string) {
	page := newLabel([]word{note(sheet)})
	if !c.tiled {
		c.checkBar(b, bar, y)
		c.barTicks(b, bar, y)
		b.write("strip", c.advice(page.width+4), bar, y+2.2, render.Start)
	}
	if sheet != "" {
		b.write("strip", page, bar+c.real(barLong), y+2.2, render.End)
	}
}

// advice is what stands under a check bar, where less than its whole length is free.
func (c canvas) advice(taken geom.MM) label {
	full := newLabel([]word{value("100 mm"), note("  print at 100 %, then measure")})
	if full.width+taken > c.real(barLong) {
		return newLabel([]word{value("100 mm"), note("  print at 100 %")})
	}
	return full
}

// unitFact returns the fact that tells the unit of lengths, nil where none does.
func unitFact(columns [][]fact) *fact {
	for _, column := range columns {
		for _, f := range column {
			if f.name == lengthsIn {
				return &f
			}
		}
	}
	return nil
}

func factsLabel(column []fact) label {
	var lines [][]word
	for _, f := range column {
		lines = append(lines, []word{note(f.name + " "), value(f.value)})
	}
	return newLabel(lines...)
}

// barTicks draws the ticks of a labelled sheet's check bar, one a centimetre.
func (c canvas) barTicks(b *board, bar, y geom.MM) {
	for i := range 11 {
		at := point{X: bar + geom.MM(c.real(barLong)/10*geom.MM(i)), Y: y}
		long := geom.MM(1.8)
		switch {
		case i%10 == 0:
			long = 4
		case i == 5:
			long = 3
		}
		b.line("strip", "", tickLine(), at, at.Sub(point{Y: long}))
	}
}

// checkBar draws the line that is 100 mm long on a true print.
func (c canvas) checkBar(b *board, x, y geom.MM) {
	b.line("strip", "check-bar", ruleLine(), point{X: x, Y: y}, point{X: x + c.real(barLong), Y: y})
}

// foot draws the line of words of a trace sheet, broken in two where it is too long, and a three-tick bar.
func (c canvas) foot(b *board, title caption, wheel, facing string) {
	heading := title.heading
	bar, y := c.space.Max.X-c.real(barLong), c.space.Max.Y-footHeight
	if !c.tiled {
		c.checkBar(b, bar, y)
		for i := range 3 {
			at := point{X: bar + geom.MM(c.real(barLong)/2*geom.MM(i)), Y: y}
			b.line("strip", "", tickLine(), at, at.Sub(point{Y: 3}))
		}
		b.write("strip", newLabel([]word{value("100 mm"), note("  print at 100 %")}), bar, y+1.8, render.Start)
	}
	room := bar - 6 - c.space.Min.X
	l := newLabel(named(heading, ", trace, "+wheel+", "+facing))
	for _, what := range []string{"trace, " + wheel + ", " + facing, "trace, " + wheel, wheel} {
		if l.width > room {
			l = newLabel([]word{shortened(name(heading), room)}, []word{name(what)})
		}
	}
	if title.remark != "" {
		// The wheel on paper is never cut.
		rest := name(", trace, " + wheel)
		first := shortened(name(heading), room-fonts.Width(rest.text, rest.height, rest.weight))
		l = newLabel([]word{first, rest}, []word{shortened(note(title.remark), room)})
	}
	b.write("strip", l, c.space.Min.X, y+1.8, render.Start)
}

// named is a name and what follows it on one line. A name that runs from right to left is a word of its own, so that the
// rest is not put in order with it.
func named(heading, rest string) []word {
	if fonts.HasRTL(heading) {
		return []word{name(heading), name(rest)}
	}
	return []word{name(heading + rest)}
}

// headingLabel is the sheet's name over what it shows, in the largest lettering that fits the room; a name that
// is too long even in small letters is cut and ends in dots.
func headingLabel(heading, sub string, room geom.MM) label {
	var l label
	for _, height := range []geom.MM{large, medium, small} {
		l = newLabel([]word{{text: heading, height: height, weight: render.SemiBold, role: words}}, []word{shortened(note(sub), room)})
		if l.width <= room {
			return l
		}
	}
	return newLabel([]word{shortened(word{text: heading, height: small, weight: render.SemiBold, role: words}, room)}, []word{shortened(note(sub), room)})
}

// shortened returns w, cut at the end until it is no wider than room; it goes on to say the whole.
func shortened(w word, room geom.MM) word {
	tooWide := func(text string) bool { return fonts.Width(text, w.height, w.weight) > room }
	letters := []rune(w.text)
	if !tooWide(w.text) || len(letters) < 2 {
		return w
	}
	first := func(n int) string { return string(letters[:n]) + "…" }
	fit := sort.Search(len(letters)-1, func(n int) bool { return tooWide(first(n + 1)) }) // longer words are wider
	w.text, w.whole = first(max(fit, 1)), w.text
	return w
}

// facts lists the columns of the strip, the most needed first.
func facts(p layout.Plan, wheel geom.MM, units request.Units) [][]fact {
	tyre, diameter := p.Profile.Wheel.String(), fmt.Sprintf("%.0f mm", float64(p.OnVehicle(1)))
	sizes := fact{"wheel", diameter}
	if p.TyreRatio() != 1 {
		tyre += ", rear " + p.Profile.RearWheel.String()
		sizes.value += fmt.Sprintf(", rear %.0f mm", float64(p.OnVehicle(2*p.RearRadius())))
	}
	columns := [][]fact{
		{{"wheel on paper", onPaper(wheel)}, {"scale", reduction(float64(p.OnVehicle(1) / wheel))}},
		{{"tyre", tyre}, sizes},
		{{"height", real(p, p.Height(), units)}, {"length", real(p, p.Length(), units)}},
		{{lengthsIn, unitName(units)}, {"counts in", "wheels"}},
	}
	if p.TyreRatio() != 1 {
		columns[3][1].value = "front wheels"
	}
	return columns
}

// unsolved drops the facts that give an answer away: height and length.
func unsolved(columns [][]fact) [][]fact {
	return slices.DeleteFunc(columns, func(c []fact) bool { return c[0].name == "height" })
}

// real prints a length on the vehicle.
func real(p layout.Plan, w geom.Wheels, units request.Units) string {
	if units == request.Inches {
		return fmt.Sprintf("%.1f in", float64(p.OnVehicle(w))/25.4)
	}
	return fmt.Sprintf("%.0f mm", float64(p.OnVehicle(w)))
}

func unitName(u request.Units) string {
	switch u {
	case request.Wheels:
		return "wheels"
	case request.Millimetres:
		return "mm on the vehicle"
	case request.Inches:
		return "inches on the vehicle"
	}
	panic("sheet: no units " + string(u))
}
