package render_test

import (
	"hubrule/internal/geom"
	"hubrule/render"
)

// sample is a page with one mark of every kind, arcs both ways, turned words, every weight and awkward letters.
func sample() render.Page {
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
		Guides: []render.Guide{{Name: "ground", Title: "Ground line"}, {Name: "wheels", Title: "Wheels"}, {Name: "belt", Title: "Belt line"},
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
