// Package flat draws a vehicle in parallel projection from other sides than the side: front, rear, top, and all of them arranged.
package flat

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// Sheets is what one sheet of each kind shows of a vehicle in parallel projection: front and rear, the top, or all with the side.
type Sheets struct {
	request.Request
	Plan  layout.Plan
	Views request.ViewSet
}

// sheet is how one set of views is drawn.
type sheet struct {
	name  string // for messages
	title string // for the title block
	room  func(d *counting.Drawing) counting.Room
	draw  func(o counting.Page) (render.Page, error)
	facts func(last []draft.Fact) []draft.Fact // the last column of the title block
}

// sheet returns how the views of the sheets are drawn.
func (f Sheets) sheet() sheet {
	fact := func(name string, l geom.Wheels) draft.Fact {
		return draft.Fact{Name: name, Value: counting.FormatOnVehicle(f.Plan, l, f.Setting.Units)}
	}
	width := fact("width", counting.WidthOf(f.Plan))
	switch {
	case f.Views.Has(request.ArrangementView):
		return sheet{"arrangement", "side, front, rear and top", f.arrangementRoom, f.arrangement,
			func(last []draft.Fact) []draft.Fact { return append(last, width) }}
	case f.Views.Has(request.TopView):
		return sheet{"top view", "view from above", f.topRoom, f.top,
			func([]draft.Fact) []draft.Fact { return []draft.Fact{fact("length", f.Plan.Length()), width} }}
	}
	name := string(f.Views[0]) + " view"
	if len(f.Views) == 2 {
		name = "front and rear view"
	}
	return sheet{name, name, f.endRoom, f.ends,
		func([]draft.Fact) []draft.Fact { return []draft.Fact{fact("height", f.Plan.Height()), width} }}
}

// Name names the views.
func (f Sheets) Name() string { return f.sheet().name }

// Largest returns the largest wheel on the canvas that the views have room for.
func (f Sheets) Largest(c draft.Canvas) geom.MM {
	return f.sheet().room(f.empty(c, request.Full)).LargestWheel(c.Space)
}

// Draw draws every kind of sheet with the wheel at a size on paper.
func (f Sheets) Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error) {
	return counting.Pages{Request: f.Request, Plan: f.Plan, Wheel: wheel}.Each(c, number, f.sheet().draw)
}

// finish writes the title block of a sheet and returns its page.
func (f Sheets) finish(o counting.Page, d *counting.Drawing) render.Page {
	v := f.sheet()
	title := counting.Caption(f.Request, o.Plan, v.title)
	if o.Kind == request.Trace {
		title.Sub = "trace"
		o.TitleLine(o.Fixed, title, "wheel on paper "+draft.FormatMM(o.Wheel), "facing "+string(f.Setting.Facing))
	} else {
		columns := counting.Facts(o.Plan, o.Wheel, f.Setting.Units)
		columns[2] = v.facts(columns[2])
		o.TitleBlock(o.Fixed, title, columns, o.Number)
	}
	return o.Finish(fmt.Sprintf("%s, %s, %s", o.Plan.Profile.Title, v.title, o.Kind), d.Surface, o.Fixed, f.Setting.Facing)
}
