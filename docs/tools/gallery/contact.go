package main

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/outline"
	"hubrule/render"
	"hubrule/segments"
)

// The contact sheet shows every outline at one wheel size, three a row.
const (
	columns            = 3
	cellWidth  geom.MM = 132
	cellHeight geom.MM = 60
	border     geom.MM = 12
	wheel      geom.MM = 16
	roadBelow  geom.MM = 48 // of a cell's top
)

var (
	ink   = render.Colour{R: 0x1f, G: 0x25, B: 0x2b}
	quiet = render.Colour{R: 0x56, G: 0x5f, B: 0x67}
	body  = render.Colour{R: 0xf1, G: 0xf2, B: 0xf4}
	glass = render.Colour{R: 0xd7, G: 0xdd, B: 0xe2}
)

// contactSheet draws the outlines of the whole catalogue with their names.
func contactSheet() (render.Page, error) {
	page := contactPage(fmt.Sprintf("The %d segments, wheel by wheel", len(segments.Names())))
	for i, name := range segments.Names() {
		profile, err := segments.Find(name)
		if err != nil {
			return page, err
		}
		corner := cornerOf(i)
		p := layout.Typical(profile)
		page.Marks = append(page.Marks, cell(p, corner)...)
		page.Marks = append(page.Marks, caption(corner, name, fmt.Sprintf("  %.2f between, %.2f high", p.WheelsBetween(), p.Height())))
	}
	return page, nil
}

// contactPage is a page with a cell for each segment.
func contactPage(title string) render.Page {
	rows := (len(segments.Names()) + columns - 1) / columns
	return render.Page{
		Width: 2*border + columns*cellWidth, Height: 2*border + geom.MM(rows)*cellHeight, Title: title,
		Guides: []render.Guide{{Name: "outline", Title: "Outlines"}, {Name: "labels", Title: "Names"}},
	}
}

// cornerOf returns the upper left corner of cell i.
func cornerOf(i int) render.Point {
	return render.Point{X: border + cellWidth*geom.MM(i%columns), Y: border + cellHeight*geom.MM(i/columns)}
}

// standing returns how the plan stands in the cell with this upper left corner: in the middle, the origin of its plan below its
// front axle.
func standing(p layout.Plan, corner render.Point) geom.Similarity[geom.Wheels, geom.MM] {
	origin := render.Point{X: corner.X + cellWidth/2 - geom.MM((p.Nose()+p.Tail())/2)*wheel, Y: corner.Y + roadBelow}
	at := func(q layout.Point) render.Point {
		return render.Point{X: origin.X + geom.MM(q.X)*wheel, Y: origin.Y - geom.MM(q.Y)*wheel}
	}
	return geom.Similarity[geom.Wheels, geom.MM]{At: at, Scale: float64(wheel), Mirror: true}
}

// cell draws one vehicle in the cell with this upper left corner.
func cell(p layout.Plan, corner render.Point) []render.Mark {
	lines := render.Tagged{Guide: "outline"}
	place, road := standing(p, corner), corner.Y+roadBelow
	at := place.At
	stroke := func(path render.Path, width geom.MM, dash ...float64) render.Mark {
		return &render.Stroke{Tagged: lines, Path: path, Pen: render.Pen{Width: width, Dash: dash, Ink: ink}}
	}
	var marks []render.Mark
	for _, l := range outline.Of(p).Lines {
		path := geom.Transform(l.Path, place)
		switch l.Kind {
		case outline.Body:
			marks = append(marks, &render.Fill{Tagged: lines, Path: path, Ink: body}, stroke(path, .35))
		case outline.Glass:
			marks = append(marks, &render.Fill{Tagged: lines, Path: path, Ink: glass}, stroke(path, .18))
		case outline.Lamp, outline.Hairline:
			marks = append(marks, stroke(path, .18))
		case outline.Dashed:
			marks = append(marks, stroke(path, .18, 12, 6))
		default:
			panic(fmt.Sprintf("gallery: no kind of line %d", l.Kind))
		}
	}
	for _, tyre := range []struct {
		x, r geom.Wheels
		rim  float64
	}{{0, .5, p.Rim()}, {p.Wheelbase(), p.RearRadius(), p.RearRim()}} {
		centre, r := at(layout.Point{X: tyre.x, Y: tyre.r}), geom.MM(tyre.r)*wheel
		marks = append(marks,
			&render.Circle{Tagged: lines, Centre: centre, R: r, Pen: render.Pen{Width: .35, Ink: ink}, Fill: &glass},
			&render.Circle{Tagged: lines, Centre: centre, R: r * geom.MM(tyre.rim), Pen: render.Pen{Width: .18, Ink: ink}, Fill: &body})
	}
	line := render.Path{}.Move(render.Point{X: corner.X + 3, Y: road}).Line(render.Point{X: corner.X + cellWidth - 3, Y: road})
	return append(marks, stroke(line, .25))
}

// ghost draws the body of a plan and its tyres in fine red over a cell in which another plan stands: front axle on front axle.
func ghost(p, on layout.Plan, corner render.Point) []render.Mark {
	lines := render.Tagged{Guide: "outline"}
	pen := render.Pen{Width: .18, Ink: render.Colour{R: 0xb2, G: 0x3c, B: 0x22}}
	place := standing(on, corner)
	marks := []render.Mark{&render.Stroke{Tagged: lines, Path: geom.Transform(outline.Of(p).Line("body"), place), Pen: pen}}
	if glass := outline.Of(p).Line("glass"); glass != nil {
		marks = append(marks, &render.Stroke{Tagged: lines, Path: geom.Transform(glass, place), Pen: pen})
	}
	rear := layout.Point{X: p.Wheelbase(), Y: p.RearRadius()}
	return append(marks, &render.Circle{Tagged: lines, Centre: place.At(rear), R: geom.MM(p.RearRadius()) * wheel, Pen: pen})
}

// caption writes a name and something about it under the road of a cell.
func caption(corner render.Point, name, more string) render.Mark {
	at := render.Point{X: corner.X + cellWidth/2, Y: corner.Y + roadBelow + 5.5}
	return &render.Text{Tagged: render.Tagged{Guide: "labels"}, At: at, Anchor: render.Middle, Spans: []render.Span{
		{Text: name, Height: 3, Weight: render.SemiBold, Ink: ink},
		{Text: more, Height: 2.5, Weight: render.Regular, Ink: quiet},
	}}
}
