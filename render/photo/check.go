package photo

import (
	"fmt"
	"image"
	"math"
	"strconv"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments/reading"
)

// mark is one point of a name on the page.
type mark struct {
	at, from draft.Point // its number stands away from there
	number   string
}

// Check draws the marks that are set over their picture, each with the number of its name and of the point; the names stand at the side.
// Nothing is read: it is for looking at marks that make no reading yet.
func Check(m *reading.Marks, pixels *image.RGBA, r request.Setting, number string) render.Page {
	c := draft.NewCanvas(r)
	b, fixed := draft.NewSurface(c.OverTitleBlock(), draft.InksOf(request.Dark)), c.FixedSurface(request.Dark)
	room := b.Space
	room.Max.X -= roomRight
	shown := aroundMarks(m, float64(room.Height()/room.Width()))
	scale := min(room.Width()/geom.MM(shown.Width()), room.Height()/geom.MM(shown.Height()))
	box := draft.Box{Min: room.Min, Max: room.Min.Add(draft.Pt(scale*geom.MM(shown.Width()), scale*geom.MM(shown.Height())))}
	if pixels != nil {
		picture := &render.Picture{Box: box, Pixels: part(pixels, shown, reading.Point{X: m.Width, Y: m.Height}), Fade: fadeSketch}
		picture.Guide, picture.ID = "photo", "photo"
		b.Marks = append(b.Marks, picture)
	} else {
		b.Curve(draft.LeaderLine().For("photo", ""), draft.Outline(box), 1)
	}
	lines, marks := marksOf(m, func(p reading.Point) draft.Point {
		return box.Min.Add(draft.Pt(scale*geom.MM(p.X-shown.Min.X), scale*geom.MM(p.Y-shown.Min.Y)))
	})
	for _, k := range marks {
		writeCross(b, k.at)
	}
	for _, k := range marks {
		writeNumber(b, k)
	}
	b.Write("labels", draft.NewLabel(lines...).TopAt(box.Max.X+5, box.Min.Y, render.Start))
	size := fmt.Sprintf("%.0f × %.0f pixels", float64(m.Width), float64(m.Height))
	title := draft.Caption{Heading: m.Name, Sub: "marks on " + m.Source()}
	c.TitleBlock(fixed, title, [][]draft.Fact{{{Name: "picture", Value: size}}}, number)
	return c.Finish(m.Name+", marks", b, fixed, request.Left)
}

// bounds returns the box round all marks; without marks, the picture.
func bounds(m *reading.Marks) geom.Box[reading.Pixel] {
	var all []reading.Point
	for _, marks := range m.Points {
		all = append(all, slice.Map(marks, func(k reading.Mark) reading.Point { return k.At })...)
	}
	if m.Sheet != nil {
		all = append(all, m.Sheet.Ends[:]...)
	}
	if len(all) == 0 {
		all = []reading.Point{{}, {X: m.Width, Y: m.Height}}
	}
	return geom.BoxOf(all[0], all[1:]...)
}

// aroundMarks returns the part of the picture with the marks, and as much more on every side as the page has room of some height to its
// width.
func aroundMarks(m *reading.Marks, tall float64) geom.Box[reading.Pixel] {
	box := bounds(m)
	box = box.Grow(max(.08*box.Width(), .05*m.Width))
	if more := reading.Pixel(tall)*box.Width() - box.Height(); more > 0 {
		box.Min.Y, box.Max.Y = box.Min.Y-more/2, box.Max.Y+more/2
	}
	return geom.Box[reading.Pixel]{Min: reading.Point{X: max(box.Min.X, 0), Y: max(box.Min.Y, 0)},
		Max: reading.Point{X: min(box.Max.X, m.Width), Y: min(box.Max.Y, m.Height)}}
}

// marksOf lists the names with their numbers, and every mark: name 1 has the points 1.1, 1.2 and so on.
func marksOf(m *reading.Marks, onPage func(reading.Point) draft.Point) (lines [][]draft.Word, marks []mark) {
	several, shown := "", bounds(m)
	centre := onPage(shown.Min.Lerp(shown.Max, .5))
	list := func(name string, points ...reading.Point) {
		key := strconv.Itoa(len(lines) + 1)
		at := slice.Map(points, onPage)
		middle := centre
		if len(points) > 2 {
			round := geom.BoxOf(at[0], at[1:]...)
			middle = round.Min.Lerp(round.Max, .5)
		}
		note := ""
		for i, p := range at {
			k := mark{p, middle, key}
			if len(points) > 1 {
				k.number = fmt.Sprintf("%s.%d", key, i+1)
				note = fmt.Sprintf("  %s.1 to %s", key, k.number)
			}
			marks = append(marks, k)
		}
		if several == "" && note != "" {
			several = fmt.Sprintf("%s.2 is %s[2] in the marks file", key, name)
		}
		lines = append(lines, []draft.Word{draft.Value(key), draft.Name("  " + name), draft.Note(note)})
	}
	if m.Sheet != nil {
		for i, side := range [4]string{"left", "top", "right", "bottom"} {
			list(side+" of the sheet", m.Sheet.Ends[i])
		}
	}
	for _, n := range reading.Names() {
		if points := m.Points[n]; len(points) > 0 {
			list(n.String(), slice.Map(points, func(k reading.Mark) reading.Point { return k.At })...)
		}
	}
	return append(lines, []draft.Word{draft.Note(several)}), marks
}

var white = render.Colour{R: 255, G: 255, B: 255}

// writeCross draws a cross on white, since the picture may be dark. Its middle stays open, so that the edge under it shows.
func writeCross(b *draft.Surface, at draft.Point) {
	const gap, arm, edge geom.MM = .5, 1.9, .3
	style := draft.LeaderLine()
	style.Role, style.Width = draft.Accent, draft.Narrow
	for _, way := range []draft.Point{draft.Pt(1, 0), draft.Pt(0, 1), draft.Pt(-1, 0), draft.Pt(0, -1)} {
		from, to := at.Add(way.Times(float64(gap))), at.Add(way.Times(float64(arm)))
		b.Fill("labels", "", &white, draft.Outline(geom.BoxOf(from, to).Grow(edge)))
		b.Line(style.For("labels", ""), from, to)
	}
}

// writeNumber writes a mark's number with a white edge, off what the mark lies on: outside a tyre, outside the vehicle. Where it finds no
// room near, it stands farther off.
func writeNumber(b *draft.Surface, k mark) {
	word := draft.Value(k.number)
	word.Role, word.Height = draft.Accent, 2
	l := draft.OneLine(word)
	way := k.at.Sub(k.from).Unit()
	for _, far := range []geom.MM{.6, 1.6, 3, 5, 8} {
		for _, turn := range []float64{0, .4, -.4, .8, -.8, 1.2, -1.2, 1.6, -1.6, 2.4, -2.4, math.Pi} {
			sin, cos := math.Sincos(turn)
			to := draft.Pt(geom.MM(float64(way.X)*cos)-geom.MM(float64(way.Y)*sin), geom.MM(float64(way.X)*sin)+geom.MM(float64(way.Y)*cos))
			place := k.at.Add(draft.Pt(to.X*(far+1.2+l.Width/2), to.Y*(far+1.2+l.Height/2)))
			p := l.MiddleAt(place.X, place.Y, render.Middle)
			if b.Free(p.Box(), .3) && b.Space.Contains(p.Box()) {
				writeEdged(b, p)
				return
			}
		}
	}
}

// writeEdged writes a label with a white edge round its letters.
func writeEdged(b *draft.Surface, l draft.PlacedLabel) {
	own := draft.Surface{Space: b.Space, Inks: b.Inks}
	own.Write("labels", l)
	for _, m := range own.Marks {
		text, ok := m.(*render.Text)
		if !ok {
			continue
		}
		for _, letters := range text.Outlines() {
			b.Marks = append(b.Marks, &render.Stroke{Tagged: render.Tagged{Guide: "labels"}, Path: letters, Pen: render.Pen{Width: .8, Ink: white}})
		}
	}
	b.Write("labels", l)
}
