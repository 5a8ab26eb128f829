package sheet

import (
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// The room between and round the views of an arrangement, in mm.
const (
	viewsApart     geom.MM = 16
	symbolHigh     geom.MM = 16 // with the word under it
	arrangedAround geom.MM = 8
)

// roomOfArrangement measures what four views need. The ground lies under side, front and rear; the view from above hangs over them in
// the third angle and under the ground in the first.
func (f flatView) roomOfArrangement(d *drawing) room {
	p := d.plan
	r := room{
		above: symbolHigh, below: 9, strip: draft.StripHeight, nose: arrangedAround, tail: arrangedAround + 2*viewsApart,
		to: p.Length() + 2*widthOf(p), top: p.Height() + widthOf(p),
	}
	if !slices.Contains(f.Kinds, request.Full) {
		r.strip = draft.FootHeight
	}
	r.above += viewsApart
	return r
}

// arranged is the four views of one vehicle on a page.
type arranged struct {
	*drawing    // the side view
	third       bool
	front, rear endView
	above       topView
}

// arrangement draws side, front, rear and top with lines carried from view to view. On a sheet that faces right everything is mirrored,
// the order of the views too: the view of the nose stays on the nose's side in the third angle and beyond the tail in the first, so that
// the angle stays what it is called; only its symbol is never mirrored.
func (f flatView) arrangement(o onePage) (render.Page, error) {
	d := f.empty(o.Canvas, o.kind)
	stand, err := f.roomOfArrangement(d).stand(o.Space, o.Real(o.wheel), 0)
	if err != nil {
		return render.Page{}, err
	}
	a := arrange(d, stand, f.Setting.Angle != request.FirstAngle)
	a.draw(f.Setting, o.kind)
	if o.kind == request.Full {
		a.carry()
		if f.isWritten() {
			a.write()
		}
	}
	a.symbol(o.fixed, f.isWritten() && o.kind == request.Full)
	f.strip(o)
	return o.Finish(fmt.Sprintf("%s, %s, %s", o.plan.Profile.Title, viewWords(f.views), o.kind), d.Board, o.fixed, f.Setting.Facing), nil
}

// arrange places the views: stand is the ground's left end and height if the view from above hangs over the others.
func arrange(d *drawing, stand place, third bool) arranged {
	p, solid := d.plan, newSubject(d.plan)
	half := stand.long(widthOf(p) / 2)
	if !third {
		stand.origin.Y -= stand.long(widthOf(p)) + viewsApart
	}
	left, side := stand, stand
	left.origin.X += half
	side.origin.X += 2*half + viewsApart - stand.long(p.Nose())
	right := stand
	right.origin.X = side.x(p.Tail()) + viewsApart + half
	above := side
	above.origin.Y = stand.y(p.Height()) - viewsApart - half
	front, rear := left, right
	if !third {
		front, rear = right, left
		above.origin.Y = stand.origin.Y + viewsApart + half
	}
	d.place = side
	return arranged{d, third, newEnd(d, solid, front, true), newEnd(d, solid, rear, false), newTop(d, solid, above)}
}

// newEnd places the vehicle seen from front or rear.
func newEnd(d *drawing, solid subject, at place, front bool) endView {
	moved := *d
	moved.place = at
	e := endView{flatFigure: flatFigure{drawing: &moved, solid: solid}, front: front, half: widthOf(d.plan) / 2}
	e.scene = view.NewScene(solid.Solid, e.camera())
	return e
}

// draw draws the four views; ids of front, rear and top begin with p2-, p3- and p4-.
func (a arranged) draw(s request.Setting, kind request.Kind) {
	if a.wants("ground") {
		a.Line("ground", "ground", groundLine(), draft.Point{X: min(a.front.x(-a.front.half), a.rear.x(-a.rear.half)) - 5, Y: a.y(0)},
			draft.Point{X: max(a.front.x(a.front.half), a.rear.x(a.rear.half)) + 5, Y: a.y(0)})
	}
	a.side(s, kind)
	for i, e := range []endView{a.front, a.rear} {
		a.Prefix = fmt.Sprintf("p%d-", i+2)
		e.drawBare(s, kind)
	}
	a.Prefix = "p4-"
	a.above.draw(s, kind)
	a.Prefix = ""
}

// side draws the side view as plainly as the others.
func (a arranged) side(s request.Setting, kind request.Kind) {
	p := a.plan
	if s.Outline != request.Off && a.wants("outline") {
		a.outline()
	}
	if a.wants("pillar") {
		a.pillar(false)
	}
	if a.wants("between") && kind == request.Full {
		a.between()
	}
	if a.wants("wheels") {
		a.tyres()
		a.level("wheels", "axle-line", axleLine(), .5, a.x(p.Nose())-3, a.x(p.Tail())+3)
		a.upright("wheels", "axle-front", axleLine(), 0, -.06, 1.2)
		a.upright("wheels", "axle-rear", axleLine(), p.Wheelbase(), -.06, 1.2)
	}
}

// write numbers the counted wheels and names the views.
func (a arranged) write() {
	if a.wants("between") {
		for k := 1; k <= wholeWheels(a.plan.WheelsBetween()); k++ {
			a.countIn(k, atPlan(geom.Wheels(k), .5), search{wanted: spot{0, .2}, within: .4, wide: 8})
		}
		a.front.counts()
		a.rear.counts()
		a.above.counts()
	}
	y := a.y(0) + 3.5
	if !a.third {
		y = a.y(a.plan.Height()) - 8
	}
	middle := (a.x(a.plan.Nose()) + a.x(a.plan.Tail())) / 2
	for _, v := range []struct {
		what string
		x    geom.MM
	}{{"front", a.front.x(0)}, {"rear", a.rear.x(0)}, {"side", middle}} {
		viewTitle(a.drawing, v.what, v.x, y)
	}
	l := draft.NewLabel([]draft.Word{draft.Note("top")})
	a.drawing.Write("labels", l, a.x(a.plan.Tail())+6, a.above.y(0)-l.Lift(), render.Start)
}

// viewTitle names a view, beside its middle where lines stand there.
func viewTitle(d *drawing, what string, x, y geom.MM) {
	l := draft.NewLabel([]draft.Word{draft.Note(what)})
	for i := range 40 {
		off := geom.MM((i + 1) / 2)
		if i%2 == 1 {
			off = -off
		}
		if b := l.Box(x+off, y, render.Middle); d.Space.Contains(b) && d.Free(b, .8) {
			d.Write("labels", l, x+off, y, render.Middle)
			return
		}
	}
}
