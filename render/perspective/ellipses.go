package perspective

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
)

// The turns of the wheel-ellipse sheet's columns, and the room of its cells in mm.
const (
	firstTurn, lastTurn, turnStep         = 10, 80, 10
	headHeight                    geom.MM = 16 // heading and sentence over the rows
	captionHeight                 geom.MM = 15 // under each wheel
	rowHeadHeight                 geom.MM = 10 // over each row
	tallestWheel                  geom.MM = 40 // the tallest wheel on the canvas
)

// tableRow is a row of the table: a camera but for its turn.
type tableRow struct {
	spec view.CameraSpec
	name string
}

// rows lists the rows: low, at eye level, from above, and the camera of the setting if it is another.
func (p Ellipses) rows() []tableRow {
	var out []tableRow
	own := p.Setting.Camera.Spec
	for _, name := range []string{"front-low", "front-quarter", "front-high"} {
		st, _ := view.FindPreset(name)
		out = append(out, tableRow{st, name})
		own.Turn, st.Turn, st.Name, st.Title = 0, 0, own.Name, own.Title
		if st == own {
			own = view.CameraSpec{}
		}
	}
	if own != (view.CameraSpec{}) {
		name := own.Name
		if _, preset := view.FindPreset(name); !preset || name == "front-quarter" {
			name = "this camera"
		}
		out = append(out, tableRow{own, name})
	}
	return out
}

// page draws the table.
func (p Ellipses) page(o counting.Page) (render.Page, error) {
	b := draft.NewSurface(o.Space, draft.InksOf(p.Ink(o.Kind)))
	rows := p.rows()
	columns := geom.MM((lastTurn-firstTurn)/turnStep + 1)
	cell := draft.Pt(o.Space.Width()/columns, (o.Space.Height()-draft.TitleBlockHeight-2-headHeight)/geom.MM(len(rows)))
	wheel := o.FloorEven(min(tallestWheel, cell.X-4, cell.Y-captionHeight-rowHeadHeight-1))
	if wheel < counting.LeastWheel {
		return render.Page{}, fmt.Errorf("the ellipses do not fit on %s: not even with a wheel of %s; use larger paper",
			o.Paper.Name, draft.FormatMM(counting.LeastWheel))
	}
	head := draft.NewLabel([]draft.Word{{Text: "Wheel ellipses", Height: draft.Large, Weight: render.SemiBold, Role: draft.Words}},
		[]draft.Word{draft.Truncated(draft.Name("The short axis points along the axle, nearly: by how much it is off stands under each wheel. "+
			"It is most where the ellipse is so round that nobody sees it."), o.Space.Width())})
	o.Fixed.Write("strip", head.TopAt(o.Space.Min.X, o.Space.Min.Y, render.Start))
	for r, row := range rows {
		top := o.Space.Min.Y + headHeight + cell.Y*geom.MM(r)
		if err := p.row(o, b, row, cells{r, draft.Pt(o.Space.Min.X, top), cell, o.FromPaper(wheel)}); err != nil {
			return render.Page{}, err
		}
	}
	o.TitleBlock(o.Fixed, counting.Caption(p.Request, o.Plan, "the front wheel in the middle of the picture"), [][]draft.Fact{
		{{Name: "wheel on paper", Value: draft.FormatMM(wheel)}, {Name: "tyre", Value: o.Plan.Profile.Wheel.String()}},
		{{Name: "turns", Value: fmt.Sprintf("%d° to %d°", firstTurn, lastTurn)}, {Name: "from", Value: "square on the side"}},
	}, o.Number)
	return o.Finish(o.Plan.Profile.Title+", ellipses", b, o.Fixed, p.Setting.Facing), nil
}

// cells is the geometry of a row's cells, in mm.
type cells struct {
	row   int
	at    draft.Point // of the row's top left corner
	cell  draft.Point // the size of one
	wheel geom.MM
}

// row draws one row. Labels are on the surface of the wheels, to move with them when the page is mirrored.
func (p Ellipses) row(o counting.Page, b *draft.Surface, row tableRow, c cells) error {
	own, err := row.spec.Camera(o.Plan)
	if err != nil {
		return fmt.Errorf("%s: %w", o.Plan.Profile.Name, err)
	}
	for k, turn := 0, firstTurn; turn <= lastTurn; k, turn = k+1, turn+turnStep {
		st := row.spec
		st.Turn = geom.Degrees(turn)
		st.Distance = own.Spec.Distance // a lens would move closer as the vehicle turns end on
		cam, err := st.Camera(o.Plan)
		if err != nil {
			return fmt.Errorf("%s: %w", o.Plan.Profile.Name, err)
		}
		if k == 0 {
			eye := fmt.Sprintf("  eye at %.0f mm", float64(o.Plan.OnVehicle(cam.Eye.Y)))
			heading := draft.NewLabel([]draft.Word{draft.Value(row.name), draft.Note(eye)})
			o.Fixed.Write("strip", heading.TopAt(c.at.X, c.at.Y+1, render.Start))
		}
		foot := draft.Pt(c.at.X+c.cell.X*(geom.MM(k)+.5), c.at.Y+rowHeadHeight+c.wheel)
		if err := c.draw(b, cam, middleWheel(o.Plan), foot); err != nil {
			return fmt.Errorf("%s: %w", o.Plan.Profile.Name, err)
		}
	}
	return nil
}

// draw draws a wheel as cam sees it, standing at foot, and its angles under it.
func (c cells) draw(b *draft.Surface, cam view.Camera, wheel view.Wheel, foot draft.Point) error {
	w, err := cam.WheelImage(wheel)
	if err != nil {
		return err
	}
	l := mapping{focal: geom.MM(float64(c.wheel) / float64(2*w.Outer.Half.Y))}
	left := min(w.Outer.Centre.X-w.Outer.Half.X, w.Inner.Centre.X-w.Inner.Half.X)
	right := max(w.Outer.Centre.X+w.Outer.Half.X, w.Inner.Centre.X+w.Inner.Half.X)
	l.origin = foot.Sub(draft.Pt(l.length((left+right)/2), l.length(w.Outer.Centre.Y+w.Outer.Half.Y)))
	turn := fmt.Sprintf("%.0f", float64(cam.Spec.Turn))
	drawWheel(b, l, cam, w, fmt.Sprintf("%d-%s", c.row+1, turn))
	words := draft.NewLabel([]draft.Word{draft.Value(draft.Fixed(float64(w.Outer.Degrees()), 0) + "°"), draft.Note(" ellipse")},
		[]draft.Word{draft.Note("turn " + turn + "°")}, []draft.Word{draft.Note("off the axle " + draft.Fixed(axleDeviation(w), 1) + "°")})
	b.Write("labels", words.TopAt(foot.X, foot.Y+4, render.Middle))
	return nil
}

// middleWheel is the front wheel, moved to the middle of the image: towards its edges the short axis strays from the axle.
func middleWheel(p layout.Plan) view.Wheel {
	front := view.NewSolid(p).Wheels()[0]
	x := (p.Nose() + p.Tail()) / 2
	z := front.Centre.Z
	front.Centre = view.Point3{X: x, Y: front.Centre.Y}
	front.Inner = view.Point3{X: x, Y: front.Inner.Y, Z: front.Inner.Z - z}
	return front
}

// axleDeviation is the angle between the short axis of a wheel's ellipse and the image of its axle, in degrees.
func axleDeviation(w view.WheelImage) float64 {
	axle := w.Axle[1].Sub(w.Axle[0])
	off := math.Abs(math.Atan2(float64(axle.Y), float64(axle.X))-w.Outer.Angle-math.Pi/2) * 180 / math.Pi
	off = math.Mod(off, 180)
	return min(off, 180-off)
}

// drawWheel draws one wheel with its axes, its axle and the line that it stands on.
func drawWheel(b *draft.Surface, l mapping, cam view.Camera, w view.WheelImage, id string) {
	e := l.ellipse(w.Outer)
	tread(b, l, w, "inner-"+id)
	b.Ellipse(counting.TyreLine().For("wheels", "wheel-"+id), e, 0, 0)
	b.Ellipse(counting.RimLine().For("wheels", "rim-"+id), l.ellipse(w.Rim), 0, 0)
	b.Line(counting.RimLine().For("axis", "axis-long-"+id), e.At(0), e.At(math.Pi))
	b.Line(counting.RimLine().For("axis", "axis-short-"+id), e.At(math.Pi/2), e.At(-math.Pi/2))
	axle := l.toPage(w.Axle[1]).Sub(l.toPage(w.Axle[0])).Times(.8)
	b.Line(counting.AxleLine().For("axles", "axle-"+id), l.toPage(w.Axle[0]), l.toPage(w.Axle[0]).Add(axle))
	const long geom.Wheels = .35 // either way
	c := w.Wheel.Centre
	from, to := cam.Project(view.Point3{X: c.X - long, Z: c.Z}), cam.Project(view.Point3{X: c.X + long, Z: c.Z})
	b.Line(boxLine().For("ground", "ground-"+id), l.toPage(from), l.toPage(to))
}
