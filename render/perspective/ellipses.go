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
	d := &drawing{Surface: draft.NewSurface(o.Space, draft.InksOf(p.Ink(o.Kind))), projection: &projection{}}
	rows := p.rows()
	columns := geom.MM((lastTurn-firstTurn)/turnStep + 1)
	cell := draft.Pt(o.Space.Width()/columns, (o.Space.Height()-draft.TitleBlockHeight-2-headHeight)/geom.MM(len(rows)))
	wheel := o.FloorEven(min(tallestWheel, cell.X-4, cell.Y-captionHeight-rowHeadHeight-1))
	if wheel < counting.LeastWheel {
		return render.Page{}, fmt.Errorf("the ellipses do not fit on %s: not even with a wheel of %s; %s",
			o.Paper.Name, draft.FormatMM(counting.LeastWheel), o.Paper.Cure())
	}
	const sentence = "The short axis points along the axle, nearly: where it is off, by how much stands under the wheel. " +
		"It is most where the ellipse is so round that nobody sees it."
	head := draft.NewLabel([]draft.Word{{Text: "Wheel ellipses", Height: draft.Large, Weight: render.SemiBold, Role: draft.Words}},
		[]draft.Word{draft.Truncated(draft.Name(sentence), o.Space.Width())})
	o.Fixed.Write("strip", head.TopAt(o.Space.Min.X, o.Space.Min.Y, render.Start))
	for r, row := range rows {
		at := draft.Pt(o.Space.Min.X, o.Space.Min.Y+headHeight+cell.Y*geom.MM(r))
		own, err := row.spec.Camera(o.Plan)
		for turn := firstTurn; err == nil && turn <= lastTurn; turn += turnStep {
			row.spec.Turn = geom.Degrees(turn)
			row.spec.Distance = own.Spec.Distance // a lens would move closer as the vehicle turns end on
			if d.camera, err = row.spec.Camera(o.Plan); err == nil {
				foot := draft.Pt(at.X+cell.X*(geom.MM((turn-firstTurn)/turnStep)+.5), at.Y+rowHeadHeight+o.FromPaper(wheel))
				err = d.ellipsesOf(middleWheel(o.Plan), fmt.Sprintf("%d-%d", r+1, turn), foot, o.FromPaper(wheel))
			}
		}
		if err != nil {
			return render.Page{}, fmt.Errorf("%s: %w", o.Plan.Profile.Name, err)
		}
		eye := fmt.Sprintf("  eye at %.0f mm", float64(o.Plan.OnVehicle(own.Eye.Y)))
		heading := draft.NewLabel([]draft.Word{draft.Value(row.name), draft.Note(eye)})
		o.Fixed.Write("strip", heading.TopAt(at.X, at.Y+1, render.Start))
	}
	o.TitleBlock(o.Fixed, counting.Caption(p.Request, o.Plan, "the front wheel in the middle of the picture"), [][]draft.Fact{
		{{Name: "wheel on paper", Value: draft.FormatMM(wheel)}, {Name: "tyre", Value: o.Plan.Profile.Wheel.String()}},
		{{Name: "turns", Value: fmt.Sprintf("%d° to %d°", firstTurn, lastTurn)}, {Name: "from", Value: "square on the side"}},
	}, o.Number)
	return o.Finish(o.Plan.Profile.Title+", ellipses", d.Surface, o.Fixed, p.Setting.Facing), nil
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

// ellipsesOf draws a wheel as the camera sees it, standing at foot and so tall on the page, with its axes, its axle, the line that it
// stands on, and its angles under it. These labels are on the same surface, to move with it when the page is mirrored.
func (d *drawing) ellipsesOf(wheel view.Wheel, id string, foot draft.Point, height geom.MM) error {
	w, err := d.camera.WheelImage(wheel)
	if err != nil {
		return err
	}
	d.mapping = mapping{focal: height / geom.MM(2*w.Outer.Half.Y)}
	left := min(w.Outer.Centre.X-w.Outer.Half.X, w.Inner.Centre.X-w.Inner.Half.X)
	right := max(w.Outer.Centre.X+w.Outer.Half.X, w.Inner.Centre.X+w.Inner.Half.X)
	d.origin = foot.Sub(draft.Pt(d.length((left+right)/2), d.length(w.Outer.Centre.Y+w.Outer.Half.Y)))
	d.tread(w, "inner-"+id)
	d.face(w, id)
	d.axes(w, id)
	axle := draft.Segment{A: d.toPage(w.Axle[0]), B: d.toPage(w.Axle[1])}
	d.Line(counting.AxleLine().For("axles", "axle-"+id), axle.A, axle.A.Lerp(axle.B, .8))
	const long geom.Wheels = .35 // either way
	c := w.Wheel.Centre
	d.Line(boxLine().For("ground", "ground-"+id), d.at(view.Point3{X: c.X - long, Z: c.Z}), d.at(view.Point3{X: c.X + long, Z: c.Z}))
	lines := [][]draft.Word{{draft.Value(draft.FormatFixed(float64(w.Outer.Degrees()), 0) + "°"), draft.Note(" ellipse")},
		{draft.Note(fmt.Sprintf("turn %.0f°", float64(d.camera.Spec.Turn)))}}
	if off := draft.FormatFixed(axleDeviation(w), 1); off != "0.0" {
		lines = append(lines, []draft.Word{draft.Note("off the axle " + off + "°")})
	}
	d.Write("labels", draft.NewLabel(lines...).TopAt(foot.X, foot.Y+4, render.Middle))
	return nil
}
