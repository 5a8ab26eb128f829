// Package flat draws a vehicle in parallel projection from other sides than the side: front, rear, top, and all of them arranged.
package flat

import (
	"errors"
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// Sheets is what one sheet of each kind shows of a vehicle in parallel projection: front and rear, the top, or all with the side.
type Sheets struct {
	request.Request
	Vehicle *Vehicle
	Views   request.ViewSet
}

// sheet is how one set of views is drawn.
type sheet struct {
	name  string // for messages
	title string // for the title block
	room  func(d *counting.Drawing) counting.Room
	draw  func(o counting.Page, d *counting.Drawing) error // d has the place of the room
	sizes []segments.Figure                                // for the title block
}

// sheet returns how the views of the sheets are drawn.
func (f Sheets) sheet() sheet {
	switch {
	case f.Views.Has(request.ArrangementView):
		return sheet{"arrangement", "side, front, rear and top", f.arrangementRoom, f.arrangement,
			[]segments.Figure{segments.Height, segments.Length, segments.Width}}
	case f.Views.Has(request.TopView):
		return sheet{"top view", "view from above", f.topRoom, f.top, []segments.Figure{segments.Length, segments.Width}}
	}
	name := string(f.Views[0]) + " view"
	if len(f.Views) == 2 {
		name = "front and rear view"
	}
	return sheet{name, name, f.endRoom, f.ends, []segments.Figure{segments.Height, segments.Width}}
}

// Name names the views.
func (f Sheets) Name() string { return f.sheet().name }

// Largest returns the largest wheel on the canvas that the views have room for.
func (f Sheets) Largest(c draft.Canvas) geom.MM {
	return f.sheet().room(f.empty(c, request.Full)).LargestWheel(c.Space)
}

// Draw draws every kind of sheet with the wheel at a size on paper.
func (f Sheets) Draw(c draft.Canvas, wheel geom.MM, number func(i int) string) ([]render.Page, error) {
	return counting.Pages{Request: f.Request, Plan: f.Vehicle.Plan, Wheel: wheel}.Each(c, number, f.page)
}

// page draws one sheet.
func (f Sheets) page(o counting.Page) (render.Page, error) {
	v := f.sheet()
	d, err := f.figure(o, v, false)
	if errors.Is(err, errCounts) { // all counts of a sheet have one size
		d, err = f.figure(o, v, true)
	}
	if err != nil {
		return render.Page{}, err
	}
	if f.Setting.Legend && o.Kind == request.Full {
		if err := f.legend(o, d); err != nil {
			return render.Page{}, err
		}
	}
	title := counting.Caption(f.Request, o.Plan, v.title)
	if o.Kind == request.Trace {
		o.TraceTitle(f.Request, counting.WheelFact(o.Wheel), "")
	} else {
		columns := counting.Facts(o.Plan, o.Wheel, f.Setting.Units)
		columns[2] = nil
		for _, figure := range v.sizes {
			l := geom.Wheels(f.Vehicle.Plan.Value(figure))
			columns[2] = append(columns[2],
				draft.Fact{Name: figure.String(), Value: counting.FormatOnVehicle(f.Vehicle.Plan, l, f.Setting.Units)})
		}
		o.TitleBlock(o.Fixed, title, columns, o.Number)
	}
	return o.Finish(fmt.Sprintf("%s, %s, %s", o.Plan.Profile.Title, v.title, o.Kind), d.Surface, o.Fixed, f.Setting.Facing), nil
}

// errCounts is the error when a count finds no room in the larger lettering.
var errCounts = counting.NoRoom("the counts")

// figure draws a sheet's views in their place.
func (f Sheets) figure(o counting.Page, v sheet, smallCounts bool) (*counting.Drawing, error) {
	d := f.empty(o.Canvas, o.Kind)
	d.Labels.SmallCounts = smallCounts
	var err error
	if d.Place, err = v.room(d).Place(o.Space, o.FromPaper(o.Wheel), 0); err != nil {
		return nil, err
	}
	return d, v.draw(o, d)
}

// drawsBody reports whether a drawing shows more of the body than its features.
func drawsBody(d *counting.Drawing, s request.Setting) bool {
	return s.Outline != request.OutlineOff && d.Wants("outline")
}

// counted is errCounts where the larger lettering found no room. There is none smaller than the smaller.
func counted(d *counting.Drawing, fits bool) error {
	if fits || d.Labels.SmallCounts {
		return nil
	}
	return errCounts
}

// legend explains the kinds of line of a sheet, clear of what is not mirrored with it.
func (f Sheets) legend(o counting.Page, d *counting.Drawing) error {
	fixed := *o.Fixed
	if f.Setting.Facing == request.Right { // the page is mirrored at the end
		fixed = o.Fixed.Mirrored((o.Space.Min.X + o.Space.Max.X) / 2)
	}
	entries := append(counting.LegendEntries(),
		draft.LegendEntry{Name: "hidden tyre", Style: hiddenTyreLine(), Guides: []request.Guide{"wheels"}},
		draft.LegendEntry{Name: "projection line", Style: projectionLine(), Guides: []request.Guide{"carried"}})
	return d.Legend(o.Canvas, entries, &fixed)
}

// hasLabels reports whether the job's flat views carry words: then trace sheets keep their place.
func (f Sheets) hasLabels() bool {
	return slices.Contains(f.Kinds, request.Full) && f.Setting.Labels != request.NoLabels
}

// empty is an empty drawing for one kind of sheet of a flat view.
func (f Sheets) empty(c draft.Canvas, kind request.Kind) *counting.Drawing {
	d := counting.NewDrawing(f.Request, c, f.Vehicle.Plan, kind)
	narrow := f.Views.Has(request.TopView) && c.Space.Height() > c.Space.Width()
	d.Labels = counting.LabelLayout{Near: true, Notes: f.Setting.Labels == request.FullLabels && !narrow}
	d.Checks = false
	return d
}
