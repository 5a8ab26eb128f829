package photo

import (
	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// millimetres writes a length in millimetres: on the sheet under a sketch, else on the vehicle; "" where the tyre is not known.
func (s Sheet) millimetres(f segments.Figure, v float64) string {
	unit, decimals, wheel := f.Info().Unit, 0, float64(s.Reading.Wheel.Diameter)
	if on := s.Reading.Picture.WheelOnSheet(); on > 0 {
		decimals, wheel = 1, float64(on)
	}
	if wheel == 0 || unit != segments.InWheels && unit != segments.AsCount {
		return ""
	}
	return draft.FormatFixed(v*wheel, decimals)
}

// number writes a figure's value: "2.21", "29.1°".
func number(f segments.Figure, v float64) string {
	if f.Info().Unit == segments.InDegrees {
		return draft.FormatFixed(v, 1) + "°"
	}
	return draft.FormatFixed(v, 2)
}

// amount writes a figure and its ±: "2.21 ± 0.01", "29.1° ± 0.4°".
func amount(f segments.Figure, v reading.Value) string {
	least := .01
	if f.Info().Unit == segments.InDegrees {
		least = .1
	}
	return number(f, v.Value) + " ± " + number(f, max(v.PM, least))
}

// words writes the figures: lengths under the picture, the A-pillar and the glass over it, heights at its side; or on paper what to move.
func (d *drawing) words() {
	if d.Against != nil && d.lanes == nil { // a page lists them itself, and its figures stay where they are
		d.differences()
		return
	}
	d.lengths()
	d.callouts()
	d.heights()
}

// inLane is a label and where its leader begins.
type inLane struct {
	label draft.Label
	from  draft.Point
}

// row writes labels in a row whose tops lie at y, each near its anchor, with leaders from the picture: the page has room for a few.
func (d *drawing) row(items []inLane, y geom.MM, below bool) {
	lane := draft.Lane{Lo: d.Space.Min.X, Hi: d.box.Max.X, Gap: 4}
	if d.lanes != nil {
		lane.Hi = d.Space.Max.X
	}
	width := func(i inLane) (geom.MM, geom.MM) { return i.from.X, i.label.Width }
	_, centres := draft.Distribute(items, lane, width)
	if centres == nil && d.lanes != nil {
		items = slice.Map(items, func(i inLane) inLane { return inLane{i.label.Short(), i.from} })
		_, centres = draft.Distribute(items, lane, width)
	}
	for i, x := range centres {
		l := items[i].label.TopAt(x, y, render.Middle)
		end := draft.Pt(x, l.Box().Max.Y+.6)
		if below {
			end = draft.Pt(x, y-.6)
		}
		d.Leader(items[i].from, end)
		d.Write("labels", l)
	}
}

// lengths writes the lengths along the ground under the picture, wheelbase and length as dimensions from end to end.
func (d *drawing) lengths() {
	var items []inLane
	for _, b := range d.bracketsRead() {
		middle := d.at((b.from+b.to)/2, -bracketDrop, 0)
		middle.Y = min(middle.Y, d.box.Max.Y)
		middle = d.within(middle)
		items = append(items, inLane{draft.OneLine(d.figureWords(b.name, b.figure)...), middle})
	}
	y := d.foot() + 3
	d.row(items, y, true)
	d.dimension(bracket{segments.Wheelbase, "wheelbase", 0, d.base}, y+7.6)
	front, one := d.length(segments.FrontOverhangAxle)
	rear, two := d.length(segments.RearOverhangAxle)
	if one && two {
		d.dimension(bracket{segments.Length, "length", -front, d.base + rear}, y+13)
	}
}

// figureWords is a figure's name, its value with the ±, and its millimetres.
func (d *drawing) figureWords(name string, f segments.Figure) []draft.Word {
	v, _ := d.read(f)
	words := []draft.Word{draft.Name(name + " "), figureValue(f, v)}
	if mm := d.millimetres(f, v.Value); mm != "" {
		words = append(words, draft.Note("  "+mm+" mm"))
	}
	return words
}

// dimension draws a length along the ground at the page's height y, broken for its words.
func (d *drawing) dimension(m bracket, y geom.MM) {
	if _, ok := d.read(m.figure); !ok {
		return
	}
	a, b := d.at(m.from, -bracketDrop, 0).X, d.at(m.to, -bracketDrop, 0).X
	ends := [2]geom.MM{a, b}
	a, b = d.within(draft.Pt(a, 0)).X, d.within(draft.Pt(b, 0)).X
	l := draft.OneLine(d.figureWords(m.name, m.figure)...)
	middle := (a + b) / 2
	if d.lanes != nil { // under part of a picture
		middle = min(max(middle, d.Space.Min.X+l.Width/2), d.Space.Max.X-l.Width/2)
	}
	placed := l.MiddleAt(middle, y, render.Middle)
	d.Write("labels", placed)
	clear := 1.5 + .075*l.Width // a face that is wider must not touch the line
	if d.lanes != nil && b-a < l.Width+2*clear {
		return
	}
	for i, half := range [][2]geom.MM{{a, placed.Box().Min.X - clear}, {b, placed.Box().Max.X + clear}} {
		d.Line(draft.TickLine().For("ticks", ""), draft.Pt(half[0], y), draft.Pt(half[1], y))
		if half[0] == ends[i] {
			d.Tick(draft.TickLine().For("ticks", ""), draft.Pt(half[0], y), draft.Pt(0, 1.5))
		}
	}
}

// callouts writes what leans: the A-pillar, and where the side glass ends, over the picture.
func (d *drawing) callouts() {
	var items []inLane
	if rake, ok := d.read(segments.PillarRake); ok {
		aim, _ := d.read(segments.PillarAim)
		high, _ := d.picture.Mark(reading.APillar, 1)
		rakeWords := []draft.Word{draft.Name("A-pillar "), figureValue(segments.PillarRake, rake)}
		aimWords := []draft.Word{draft.Name("aim "), figureValue(segments.PillarAim, aim)}
		if d.lanes != nil { // a word a figure
			items = append(items, inLane{draft.OneLine(aimWords...), d.within(d.at(0, geom.Wheels(aim.Value), 0))})
		} else {
			rakeWords = append(rakeWords, draft.Name(", aim "), aimWords[1])
		}
		items = append(items, inLane{draft.OneLine(rakeWords...), d.within(d.onPage(high))})
	}
	if end, ok := d.read(segments.GlassEnd); ok {
		top, _ := d.length(segments.Height)
		at := d.at(d.base+d.q/2+geom.Wheels(end.Value), max(top, 1)+.1, d.picture.DepthOf(reading.GlassEnd, 0))
		at.Y = max(at.Y, d.box.Min.Y)
		items = append(items, inLane{draft.OneLine(draft.Name("glass end "), figureValue(segments.GlassEnd, end)), d.within(at)})
	}
	d.row(items, max(d.Space.Min.Y, d.box.Min.Y-7), false)
}

// heights writes the levels beside the picture, each with a leader from its line.
func (d *drawing) heights() {
	end, side := d.laneSide()
	var items []inLane
	for _, l := range levelsRead() {
		v, ok := d.read(l.figure)
		if !ok {
			continue
		}
		at := d.at(end, geom.Wheels(v.Value)+d.rise(l.figure, end), d.picture.DepthOf(l.mark, 0))
		at.X = side.inner(at.X)
		items = append(items, inLane{draft.OneLine(d.figureWords(l.name, l.figure)...), d.within(at)})
	}
	lane := draft.Lane{Lo: d.box.Min.Y, Hi: max(d.box.Max.Y, d.box.Min.Y+leastLane), Gap: 1.2}
	_, centres := draft.Distribute(items, lane, func(i inLane) (geom.MM, geom.MM) { return i.from.Y, i.label.Height })
	for i, y := range centres {
		x := side.beside(7)
		d.Leader(items[i].from, draft.Pt(side.beside(2), items[i].from.Y), draft.Pt(side.beside(6), y))
		d.Write("labels", items[i].label.MiddleAt(x, y, side.anchor))
	}
}

// leastLane is how high the lane of the levels is, that of a picture that is a strip too: it holds all of them.
const leastLane geom.MM = 30

// side is an edge of the picture with a lane beside it.
type side struct {
	edge, way geom.MM // way is 1 where the lane lies on the right
	anchor    render.Anchor
}

// beside returns the x so far out of the picture.
func (s side) beside(by geom.MM) geom.MM { return s.edge + s.way*by }

// inner returns x, or the picture's edge where x lies beyond.
func (s side) inner(x geom.MM) geom.MM { return s.way * min(s.way*x, s.way*s.edge) }

// laneSide returns where along the vehicle the levels end at which their lane stands, and its side.
func (d *drawing) laneSide() (geom.Wheels, side) {
	from, to := d.extent()
	if d.lanes != nil && d.picture.FacesRight {
		return from, side{d.box.Min.X, -1, render.End}
	}
	return to, side{d.box.Max.X, 1, render.Start}
}

// figureValue writes a figure's value with its ±.
func figureValue(f segments.Figure, v reading.Value) draft.Word {
	return draft.Value(amount(f, v)).For(f.String())
}
