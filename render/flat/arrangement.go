package flat

import (
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// The room between and around the views of an arrangement, in mm.
const (
	viewGap      geom.MM = 16
	symbolHeight geom.MM = 16 // with its caption
	viewMargin   geom.MM = 8
)

// arrangementRoom returns the room that four views need. Side, front and rear stand on the ground. The view from above lies over them in
// third angle and below the ground in first angle.
func (f Sheets) arrangementRoom(d *counting.Drawing) counting.Room {
	p := d.Plan
	r := counting.Room{
		Above: symbolHeight + viewGap, Below: 9, TitleBlock: draft.TitleBlockHeight, Nose: viewMargin, Tail: viewMargin + 2*viewGap,
		To: p.Length() + 2*counting.WidthOf(p), Top: p.Height() + counting.WidthOf(p),
	}
	if !slices.Contains(f.Kinds, request.Full) {
		r.TitleBlock = draft.TitleLineHeight
	}
	return r
}

// arrangement is the four views of one vehicle on a page.
type arrangement struct {
	*counting.Drawing // the side view
	third             bool
	front, rear       endView
	above             topView
}

// arrangement draws side, front, rear and top with projection lines between them. Facing right, all of it is mirrored, the order of the
// views too: the front view stays at the nose in third angle and beyond the tail in first angle. Only the symbol is never mirrored.
func (f Sheets) arrangement(o counting.Page, d *counting.Drawing) error {
	a := arrange(d, f.Setting.Angle != request.FirstAngle)
	a.draw(f.Setting, o.Kind)
	labelled := f.hasLabels() && o.Kind == request.Full
	if o.Kind == request.Full {
		a.projectionLines()
	}
	if labelled {
		a.labels()
	}
	a.symbol(o.Fixed, labelled)
	return nil
}

// arrange places the views; d stands at the left end of the ground in third angle.
func arrange(d *counting.Drawing, third bool) arrangement {
	p, solid, stand := d.Plan, newVehicle(d.Plan), d.Place
	half := stand.MM(counting.WidthOf(p) / 2)
	if !third {
		stand.Origin.Y -= stand.MM(counting.WidthOf(p)) + viewGap
	}
	left, side := stand, stand
	left.Origin.X += half
	side.Origin.X += 2*half + viewGap - stand.MM(p.Nose())
	right := stand
	right.Origin.X = side.X(p.Tail()) + viewGap + half
	above := side
	above.Origin.Y = stand.Y(p.Height()) - viewGap - half
	front, rear := left, right
	if !third {
		front, rear = right, left
		above.Origin.Y = stand.Origin.Y + viewGap + half
	}
	d.Place = side
	return arrangement{d, third, newEnd(d, solid, front, true), newEnd(d, solid, rear, false), topView{newFigure(d, solid, above, view.Top())}}
}

// draw draws the four views. Ids of front, rear and top begin with p2-, p3- and p4-.
func (a arrangement) draw(s request.Setting, kind request.Kind) {
	if a.Wants("ground") {
		a.Ground(min(a.front.X(-a.front.half), a.rear.X(-a.rear.half))-5, max(a.front.X(a.front.half), a.rear.X(a.rear.half))+5)
	}
	a.side(s, kind)
	for i, e := range []endView{a.front, a.rear} {
		a.Prefix = fmt.Sprintf("p%d-", i+2)
		e.drawVehicle(s, kind)
	}
	a.Prefix = "p4-"
	a.above.draw(s, kind)
	a.Prefix = ""
}

// side draws the side view as plain as the others.
func (a arrangement) side(s request.Setting, kind request.Kind) {
	p := a.Plan
	if s.Outline != request.OutlineOff && a.Wants("outline") {
		a.Outline()
	}
	if a.Wants("pillar") {
		a.Pillar(false)
	}
	if a.Wants("between") && kind == request.Full {
		a.Between()
	}
	if a.Wants("wheels") {
		a.Tyres()
		a.Level(counting.AxleLine().For("wheels", "axle-line"), .5, a.X(p.Nose())-3, a.X(p.Tail())+3)
		a.Upright(counting.AxleLine().For("wheels", "axle-front"), 0, -.06, 1.2)
		a.Upright(counting.AxleLine().For("wheels", "axle-rear"), p.Wheelbase(), -.06, 1.2)
	}
}

// labels numbers the counted wheels and names the views.
func (a arrangement) labels() {
	if a.Wants("between") {
		a.NumberRow(a.BetweenTyres(), counting.At(0, .2, .4))
		a.front.counts()
		a.rear.counts()
		a.above.counts()
	}
	y := a.Y(0) + 3.5
	if !a.third {
		y = a.Y(a.Plan.Height()) - 8
	}
	middle := (a.X(a.Plan.Nose()) + a.X(a.Plan.Tail())) / 2
	for _, v := range []struct {
		what string
		x    geom.MM
	}{{"front", a.front.X(0)}, {"rear", a.rear.X(0)}, {"side", middle}} {
		viewTitle(a.Drawing, v.what, v.x, y)
	}
	l := draft.OneLine(draft.Note("top"))
	a.Write("labels", l.MiddleAt(a.X(a.Plan.Tail())+6, a.above.Y(0), render.Start))
}

// viewTitle names a view under its middle, or beside that where it is taken.
func viewTitle(d *counting.Drawing, what string, x, y geom.MM) {
	l := draft.NewLabel([]draft.Word{draft.Note(what)})
	for i := range 40 {
		off := geom.MM((i + 1) / 2)
		if i%2 == 1 {
			off = -off
		}
		if d.PlaceLabel(l.TopAt(x+off, y, render.Middle), .8) {
			return
		}
	}
}
