package flat

import (
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
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

// Where the axle lines of the side view end, and how far beyond the body those of the top view do.
const (
	axleFoot, axleTop geom.Wheels = -.06, 1.2
	axleBeyond        geom.MM     = 4
)

// arrangement is the four views of one vehicle on a page.
type arrangement struct {
	*counting.Drawing // the side view
	third             bool
	front, rear       endView
	above             topView
}

// arrangement draws side, front, rear and top with projection lines in the gaps between them. Facing right, all of it is mirrored, the
// order of the views too: the front view stays at the nose in third angle and beyond the tail in first angle. Only the symbol is never
// mirrored.
func (f Sheets) arrangement(o counting.Page, d *counting.Drawing) error {
	sides := []request.View{request.FrontView, request.RearView, request.TopView}
	look(drawsBody(d, f.Setting), slice.Map(sides, f.Vehicle.from)...)
	a := arrange(d, f.Vehicle, f.Setting.Angle != request.FirstAngle)
	a.draw(f.Setting, o.Kind)
	labelled := f.hasLabels() && o.Kind == request.Full
	if o.Kind == request.Full {
		a.projectLevels()
		a.projectLengths()
		a.projectWidths()
	}
	if labelled {
		if err := counted(d, a.labels()); err != nil {
			return err
		}
	}
	a.symbol(o.Fixed, labelled)
	return nil
}

// arrange places the views; d stands at the left end of the ground in third angle.
func arrange(d *counting.Drawing, v *Vehicle, third bool) arrangement {
	p, stand := d.Plan, d.Place
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
	return arrangement{d, third, newEnd(d, v, front, true), newEnd(d, v, rear, false), topView{figure: newFigure(d, v, above, v.from(request.TopView)())}}
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
	if drawsBody(a.Drawing, s) {
		a.Outline()
		mirror := render.Path{}.Lines(slice.Map(a.front.vehicle.MirrorFromSide(), a.OnPage)...).Close()
		a.Fill("outline", "", a.Inks.Body, mirror)
		a.Curve(counting.OutlineLine().For("outline", "mirror"), mirror, 1)
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
		a.Upright(counting.AxleLine().For("wheels", "axle-front"), 0, axleFoot, axleTop)
		a.Upright(counting.AxleLine().For("wheels", "axle-rear"), p.Wheelbase(), axleFoot, axleTop)
	}
}

// labels numbers the counted wheels, names the views, and reports whether all numbers found room.
func (a arrangement) labels() bool {
	fits := true
	if a.Wants("between") {
		fits = a.NumberRow(a.BetweenTyres(), counting.At(0, .2, .4))
		for _, counts := range []func() bool{a.front.counts, a.rear.counts, a.above.counts} {
			fits = counts() && fits
		}
	}
	a.title("front", a.front.X(0))
	a.title("rear", a.rear.X(0))
	a.title("side", (a.X(a.Plan.Nose())+a.X(a.Plan.Tail()))/2)
	l := draft.OneLine(draft.Note("top"))
	a.Write("labels", l.MiddleAt(a.X(a.Plan.Tail())+6, a.above.Y(0), render.Start))
	return fits
}

// title names a view under its middle in third angle, over it in first, or beside that where it is taken.
func (a arrangement) title(what string, x geom.MM) {
	y := a.Y(0) + 3.5
	if !a.third {
		y = a.Y(a.Plan.Height()) - 8
	}
	for i := range 40 {
		off := geom.MM((i + 1) / 2)
		if i%2 == 1 {
			off = -off
		}
		if a.PlaceLabel(draft.OneLine(draft.Note(what)).TopAt(x+off, y, render.Middle), .8) {
			return
		}
	}
}

// symbol draws the projection symbol of ISO 5456-2, a cone from the side and from its small end, at the upper right of the page.
func (a arrangement) symbol(fixed *draft.Surface, named bool) {
	const r, length geom.MM = 4, 9
	right, y := a.Space.Max.X-2, a.Space.Min.Y+r+1
	cone, rings := right-length, right-length-4-r
	if !a.third {
		cone, rings = right-2*r-4-length, right-r
	}
	for _, radius := range []geom.MM{r, r / 2} {
		fixed.Circle(draft.LeaderLine().For("carried", ""), draft.Circle{Centre: draft.Pt(rings, y), R: radius})
	}
	at := func(x, up geom.MM) draft.Point { return draft.Pt(cone+x, y-up) }
	outline := render.Path{}.Move(at(0, r/2)).Line(at(length, r)).Line(at(length, -r)).Line(at(0, -r/2)).Close()
	fixed.Curve(draft.LeaderLine().For("carried", "symbol"), outline, 1)
	axis := draft.NewLineStyle(draft.Hair, draft.Plain, 12, 3, 2, 3)
	fixed.Line(axis.For("carried", ""), draft.Pt(right-length-5-2*r, y), draft.Pt(right+1, y))
	if named {
		what := "third angle"
		if !a.third {
			what = "first angle"
		}
		fixed.Write("labels", draft.NewLabel([]draft.Word{draft.Note(what)}).TopAt(right, y+r+1, render.End))
	}
}
