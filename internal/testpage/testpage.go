// Package testpage holds pages for tests of the writers, and a disk that is full.
package testpage

import (
	"errors"
	"fmt"
	"hubrule/internal/geom"
	"hubrule/render"
	"slices"
)

// Sample is a page with one mark of every kind, arcs both ways, turned words, every weight and awkward letters.
func Sample() render.Page {
	dark, red := render.Colour{R: 0x1f, G: 0x25, B: 0x2b}, render.Colour{R: 0xb2, G: 0x3c, B: 0x22}
	wide, narrow := render.Pen{Width: 0.5, Ink: dark}, render.Pen{Width: 0.25, Ink: red}
	dashed := render.Pen{Width: 0.25, Dash: []float64{24, 3, 2, 3}, Ink: dark}
	wash := render.Colour{R: 0xf7, G: 0xe8, B: 0xe3}
	tag := func(guide, id string) render.Tagged { return render.Tagged{Guide: guide, ID: id} }
	pt := func(x, y geom.MM) render.Point { return render.Point{X: x, Y: y} }
	span := func(text string, h geom.MM, w render.Weight) render.Span {
		return render.Span{Text: text, Height: h, Weight: w, Ink: dark}
	}
	ring := render.Path{}.Move(pt(250, 60)).Line(pt(300, 60)).Line(pt(300, 100)).Line(pt(250, 100)).Close().
		Move(pt(260, 70)).Line(pt(290, 70)).Line(pt(290, 90)).Line(pt(260, 90)).Close()
	blob := render.Path{}.Move(pt(250, 150)).Curve(pt(260, 120), pt(300, 120), pt(310, 150)).
		Arc(30, false, true, pt(280, 180)).Arc(25, true, false, pt(250, 150)).Close()
	return render.Page{
		Width: 420, Height: 297, Title: "Sample & <page>",
		Guides: []render.Guide{{Name: "ground", Title: "Ground line"}, {Name: "wheels", Title: "Wheels"}, {Name: "belt",
			Title: "Belt line"},
			{Name: "glass", Title: "Nothing here"}, {Name: "labels", Title: "Words"}},
		Marks: []render.Mark{
			&render.Stroke{Tagged: tag("ground", "ground"), Path: render.Path{}.Move(pt(20, 200)).Line(pt(410, 200)), Pen: wide},
			&render.Circle{Tagged: tag("wheels", "wheel-front"), Centre: pt(100, 177), R: 23, Pen: wide},
			&render.Circle{Tagged: tag("wheels", "wheel-rear"), Centre: pt(284, 177), R: 23, Pen: dashed, Fill: &wash},
			&render.Circle{Tagged: tag("wheels", ""), Centre: pt(60, 60), R: 5, Fill: &red},
			&render.Fill{Tagged: tag("belt", ""), Path: ring, Ink: wash},
			&render.Stroke{Tagged: tag("belt", "outline"), Path: blob, Pen: narrow},
			&render.Stroke{Tagged: tag("belt", "axle-line"), Path: render.Path{}.Move(pt(20, 33.3333)).Line(pt(410, 41.0004)), Pen: dashed},
			&render.Text{Tagged: tag("labels", ""), At: pt(30, 30), Spans: []render.Span{
				span("belt ", 2.5, render.Regular), span("1.69", 2.5, render.Medium), span("  AV To. office fjord", 3.5, render.SemiBold)}},
			&render.Text{Tagged: tag("labels", ""), At: pt(210, 100), Anchor: render.Middle, Spans: []render.Span{
				span("print at 100 % <&> \"then\" (measure) \\ 34° 0.5 × 2", 5, render.Regular)}},
			&render.Text{Tagged: tag("labels", ""), At: pt(400, 120), Anchor: render.End, Angle: 90, Spans: []render.Span{
				span("turned words", 3.5, render.Medium)}},
			&render.Text{Tagged: tag("labels", ""), At: pt(350, 240), Anchor: render.Middle, Angle: -30, Spans: []render.Span{
				span("Wave ", 5, render.SemiBold), span("Type", 5, render.Regular)}},
		},
	}
}

// Busy is a page with about as many marks as a full sheet: 150 lines, 12 circles, 60 labels, a long path.
func Busy() render.Page {
	ink := render.Colour{R: 0x49, G: 0x52, B: 0x5a}
	pen := render.Pen{Width: 0.25, Ink: ink}
	p := render.Page{Width: 420, Height: 297, Title: "busy", Guides: []render.Guide{{Name: "outline", Title: "Lines"}, {Name: "labels",
		Title: "Words"}}}
	lines, labels := render.Tagged{Guide: "outline"}, render.Tagged{Guide: "labels"}
	for i := range 150 {
		y := 20 + 1.613*geom.MM(i)
		p.Marks = append(p.Marks, &render.Stroke{Tagged: lines, Pen: pen, Path: render.Path{}.Move(render.Point{X: 20,
			Y: y}).Line(render.Point{X: 410, Y: y + 3})})
	}
	for i := range 12 {
		p.Marks = append(p.Marks, &render.Circle{Tagged: lines, Centre: render.Point{X: 60 + 25*geom.MM(i), Y: 177}, R: 23, Pen: pen})
	}
	for i := range 60 {
		p.Marks = append(p.Marks, &render.Text{Tagged: labels, At: render.Point{X: 100, Y: 20 + 4*geom.MM(i)}, Spans: []render.Span{
			{Text: "rear lamp, one lamp higher ", Height: 2.5, Weight: render.Regular, Ink: ink},
			{Text: fmt.Sprintf("%.2f", float64(i)/7), Height: 2.5, Weight: render.Medium, Ink: ink}}})
	}
	long := render.Path{}.Move(render.Point{X: 50, Y: 150})
	for i := range 40 {
		x := 50 + 7*geom.MM(i)
		long = long.Curve(render.Point{X: x + 2, Y: 140}, render.Point{X: x + 5, Y: 160}, render.Point{X: x + 7, Y: 150})
	}
	p.Marks = append(p.Marks, &render.Stroke{Tagged: lines, Path: long, Pen: pen})
	return p
}

// Hard is a page of what rasterisers get wrong: sharp corners under thick pens, ways back along themselves, curves
// as tight as the pen, dashes round corners, areas that cross themselves, hairs, and marks over the paper's edge.
func Hard() render.Page {
	ink := render.Colour{R: 0x20, G: 0x30, B: 0x90}
	tag := render.Tagged{Guide: "hard"}
	pt := func(x, y geom.MM) render.Point { return render.Point{X: x, Y: y} }
	thick := render.Pen{Width: 4, Ink: ink}
	dashed := render.Pen{Width: 2, Dash: []float64{3, 1, 0.5, 1}, Ink: ink}
	star := render.Path{}.Move(pt(60, 100))
	for _, p := range []render.Point{pt(78, 155), pt(31, 121), pt(89, 121), pt(42, 155)} {
		star = star.Line(p)
	}
	twice := render.Path{}.Move(pt(150, 100)).Line(pt(200, 100)).Line(pt(200, 150)).Line(pt(150, 150)).Line(pt(150, 110)).
		Line(pt(190, 110)).Line(pt(190, 140)).Line(pt(140, 140)).Line(pt(140, 100)).Close()
	page := render.Page{Width: 297, Height: 210, Title: "hard", Guides: []render.Guide{{Name: "hard", Title: "Hard"}}}
	stroke := func(pen render.Pen, p render.Path) {
		page.Marks = append(page.Marks, &render.Stroke{Tagged: tag, Path: p, Pen: pen})
	}
	stroke(thick, render.Path{}.Move(pt(20, 20)).Line(pt(40, 60)).Line(pt(45, 20)).Line(pt(50, 60)).Line(pt(90, 20)).Close())
	stroke(thick, render.Path{}.Move(pt(100, 30)).Line(pt(140, 30)).Line(pt(115, 30.2)))
	stroke(thick, render.Path{}.Move(pt(100, 55)).Curve(pt(160, 40), pt(80, 40), pt(140, 55)))
	stroke(thick, render.Path{}.Move(pt(160, 30)).Arc(2.2, true, true, pt(162, 32)).Line(pt(190, 60)))
	stroke(dashed, render.Path{}.Move(pt(200, 20)).Line(pt(227, 20)).Line(pt(227, 50)).Line(pt(201, 22)))
	stroke(dashed, render.Path{}.Move(pt(250, 30)).Curve(pt(250, 5), pt(290, 5), pt(280, 40)).Arc(12, false, false, pt(260, 50)))
	stroke(render.Pen{Width: 0.02, Ink: ink}, render.Path{}.Move(pt(-20, 70)).Line(pt(500, 95)))
	stroke(thick, render.Path{}.Move(pt(-3000, 200)).Line(pt(5000, 190)))
	page.Marks = append(page.Marks,
		&render.Fill{Tagged: tag, Path: star, Ink: ink},
		&render.Fill{Tagged: tag, Path: twice, Ink: ink},
		&render.Circle{Tagged: tag, Centre: pt(290, 120), R: 40, Pen: dashed, Fill: &render.Colour{R: 0xe0, G: 0xf0, B: 0xe8}},
		&render.Circle{Tagged: tag, Centre: pt(110, 125), R: 0.8, Pen: render.Pen{Width: 1.5, Ink: ink}},
		&render.Text{Tagged: tag, At: pt(100, 180), Angle: 7, Spans: []render.Span{{Text: "Å&@§ %8B ½ gjy", Height: 12,
			Weight: render.SemiBold, Ink: ink}}})
	return page
}

// Doubled returns p on paper twice as wide and high, with everything twice as large.
func Doubled(p render.Page) render.Page {
	out := render.Page{Width: 2 * p.Width, Height: 2 * p.Height, Title: p.Title, Guides: p.Guides}
	twice := geom.Similarity[geom.MM, geom.MM]{At: func(q render.Point) render.Point { return q.Times(2) }, Scale: 2}
	pen := func(p render.Pen) render.Pen { p.Width *= 2; return p }
	for _, m := range p.Marks {
		switch m := m.(type) {
		case *render.Stroke:
			out.Marks = append(out.Marks, &render.Stroke{Tagged: m.Tagged, Path: geom.Transform(m.Path, twice), Pen: pen(m.Pen)})
		case *render.Fill:
			out.Marks = append(out.Marks, &render.Fill{Tagged: m.Tagged, Path: geom.Transform(m.Path, twice), Ink: m.Ink})
		case *render.Circle:
			out.Marks = append(out.Marks, &render.Circle{Tagged: m.Tagged, Centre: m.Centre.Times(2), R: 2 * m.R, Pen: pen(m.Pen),
				Fill: m.Fill})
		case *render.Text:
			spans := slices.Clone(m.Spans)
			for i := range spans {
				spans[i].Height *= 2
			}
			out.Marks = append(out.Marks, &render.Text{Tagged: m.Tagged, At: m.At.Times(2), Anchor: m.Anchor, Spans: spans, Angle: m.Angle})
		}
	}
	return out
}

// FullDisk takes some bytes and then fails, as a full disk does.
type FullDisk struct{ Room int }

var ErrFull = errors.New("no space left on device")

func (d *FullDisk) Write(data []byte) (int, error) {
	if len(data) > d.Room {
		n := d.Room
		d.Room = 0
		return n, ErrFull
	}
	d.Room -= len(data)
	return len(data), nil
}
