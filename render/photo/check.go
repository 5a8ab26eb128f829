package photo

import (
	"fmt"
	"image"
	"strconv"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments/reading"
)

// Check draws the marks that are set over their picture, each with the number of its name; the names stand at the side. Nothing is read:
// it is for looking at marks that make no reading yet.
func Check(m *reading.Marks, pixels *image.RGBA, r request.Setting, number string) render.Page {
	c := draft.NewCanvas(r)
	b, fixed := draft.NewSurface(c.OverTitleBlock(), draft.InksOf(request.Dark)), c.FixedSurface(request.Dark)
	room := b.Space
	room.Max.X -= roomRight
	scale := min(room.Width()/geom.MM(m.Width), room.Height()/geom.MM(m.Height))
	box := draft.Box{Min: room.Min, Max: room.Min.Add(draft.Pt(scale*geom.MM(m.Width), scale*geom.MM(m.Height)))}
	if pixels != nil {
		picture := &render.Picture{Box: box, Pixels: pixels, Fade: fade}
		picture.Guide, picture.ID = "photo", "photo"
		b.Marks = append(b.Marks, picture)
	} else {
		b.Curve(draft.LeaderLine().For("photo", ""), draft.Outline(box), 1)
	}
	var lines [][]draft.Word
	write := func(name string, points ...reading.Point) {
		key := strconv.Itoa(len(lines) + 1)
		lines = append(lines, []draft.Word{draft.Value(key), draft.Name("  " + name), draft.Note(countOf(len(points)))})
		for _, p := range points {
			writeMark(b, box.Min.Add(draft.Pt(scale*geom.MM(p.X), scale*geom.MM(p.Y))), key)
		}
	}
	if m.Sheet != nil {
		for i, side := range [4]string{"left", "top", "right", "bottom"} {
			write(side+" of the sheet", m.Sheet.Ends[i])
		}
	}
	for _, n := range reading.Names() {
		if marks := m.Points[n]; len(marks) > 0 {
			write(n.String(), slice.Map(marks, func(k reading.Mark) reading.Point { return k.At })...)
		}
	}
	b.Write("labels", draft.NewLabel(lines...).TopAt(box.Max.X+5, box.Min.Y, render.Start))
	size := fmt.Sprintf("%.0f × %.0f pixels", float64(m.Width), float64(m.Height))
	c.TitleBlock(fixed, draft.Caption{Heading: m.Name, Sub: "marks on " + m.Source()}, [][]draft.Fact{{{Name: "picture", Value: size}}}, number)
	return c.Finish(m.Name+", marks", b, fixed, request.Left)
}

// countOf says how many marks a name has, if there are several.
func countOf(n int) string {
	if n == 1 {
		return ""
	}
	return fmt.Sprintf("  %d points", n)
}

// writeMark draws a cross and a number beside it, where there is room, both on white, since the picture may be dark.
func writeMark(b *draft.Surface, at draft.Point, number string) {
	const arm, edge geom.MM = 1.6, .4
	white := render.Colour{R: 255, G: 255, B: 255}
	style := draft.LeaderLine()
	style.Role, style.Width = draft.Accent, draft.Fine
	arms := [2]draft.Point{draft.Pt(arm, 0), draft.Pt(0, arm)}
	for _, half := range arms {
		b.Fill("labels", "", &white, draft.Outline(draft.Box{Min: at.Sub(half), Max: at.Add(half)}.Grow(edge)))
	}
	for _, half := range arms {
		b.Line(style.For("labels", ""), at.Sub(half), at.Add(half))
	}
	word := draft.Value(number)
	word.Role = draft.Accent
	l := draft.OneLine(word)
	for _, place := range []draft.PlacedLabel{
		l.BaselineAt(at.X+1, at.Y-.8, render.Start), l.BaselineAt(at.X-1, at.Y-.8, render.End),
		l.TopAt(at.X+1, at.Y+.3, render.Start), l.TopAt(at.X-1, at.Y+.3, render.End),
	} {
		if b.Free(place.Box(), .1) && b.Space.Contains(place.Box()) {
			b.Fill("labels", "", &white, draft.Outline(place.Box().Grow(.2)))
			b.Write("labels", place)
			return
		}
	}
}
