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
	ladderHead                    geom.MM = 16 // heading and sentence over the rows
	ladderWords                   geom.MM = 15 // under each wheel
	ladderName                    geom.MM = 10 // over each row
	ladderWheel                   geom.MM = 40 // the tallest wheel on the canvas
)

// ladderRow is one row of the wheel-ellipse sheet: where the eye stands, but for its turn.
type ladderRow struct {
	spec view.CameraSpec
	name string
}

// rows lists the rows: low, at eye level and from above, and the job's own camera where that is another one.
func (p Ellipses) rows() []ladderRow {
	var out []ladderRow
	own := p.Setting.Camera.Spec
	for _, name := range []string{"front-low", "front-quarter", "front-high"} {
		st, _ := view.FindPreset(name)
		out = append(out, ladderRow{st, name})
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
		out = append(out, ladderRow{own, name})
	}
	return out
}

// page draws how a wheel looks at many turns and eye heights.
func (p Ellipses) page(o counting.Page) (render.Page, error) {
	b := draft.NewBoard(o.Space, draft.InksOf(p.Ink(o.Kind)))
	rows := p.rows()
	columns := geom.MM((lastTurn-firstTurn)/turnStep + 1)
	cell := draft.Point{X: o.Space.Width() / columns, Y: (o.Space.Height() - draft.StripHeight - 2 - ladderHead) / geom.MM(len(rows))}
	wheel := o.FloorEven(min(ladderWheel, cell.X-4, cell.Y-ladderWords-ladderName-1))
	if wheel < counting.LeastWheel {
		return render.Page{}, fmt.Errorf("the ellipses do not fit on %s: not even with a wheel of %s; use larger paper", o.Paper.Name, draft.FormatMM(counting.LeastWheel))
	}
	head := draft.NewLabel([]draft.Word{{Text: "Wheel ellipses", Height: draft.Large, Weight: render.SemiBold, Role: draft.Words}},
		[]draft.Word{draft.Truncated(draft.Name("The short axis points along the axle, nearly: by how much it is off stands under each wheel. It is most where the ellipse is so round that nobody sees it."), o.Space.Width())})
	o.Fixed.Write("strip", head, o.Space.Min.X, o.Space.Min.Y, render.Start)
	for r, row := range rows {
		top := o.Space.Min.Y + ladderHead + cell.Y*geom.MM(r)
		if err := p.row(o, b, row, ladderCells{r, draft.Point{X: o.Space.Min.X, Y: top}, cell, o.FromPaper(wheel)}); err != nil {
			return render.Page{}, err
		}
	}
	columnsOf := [][]draft.Fact{{{Name: "wheel on paper", Value: draft.FormatMM(wheel)}, {Name: "tyre", Value: o.Plan.Profile.Wheel.String()}}, {{Name: "turns", Value: fmt.Sprintf("%d° to %d°", firstTurn, lastTurn)}, {Name: "from", Value: "square on the side"}}}
	o.Strip(o.Fixed, counting.Caption(p.Request, o.Plan, "the front wheel in the middle of the picture"), columnsOf, o.Number)
	return o.Finish(o.Plan.Profile.Title+", ellipses", b, o.Fixed, p.Setting.Facing), nil
}

// ladderCells is where a row's cells stand.
type ladderCells struct {
	row   int
	at    draft.Point // of the row's top left corner
	cell  draft.Point // the size of one
	wheel geom.MM
}

// row draws one row. Words are written on the figure's board: they go along with their wheels when the page is mirrored.
func (p Ellipses) row(o counting.Page, b *draft.Board, row ladderRow, c ladderCells) error {
	own, err := row.spec.Camera(o.Plan)
	if err != nil {
		return fmt.Errorf("%s: %w", o.Plan.Profile.Name, err)
	}
	for k, turn := 0, firstTurn; turn <= lastTurn; k, turn = k+1, turn+turnStep {
		st := row.spec
		st.Turn = geom.Degrees(turn)
		st.Distance = own.Spec.Distance // the lens would step closer as the vehicle turns end on
		cam, err := st.Camera(o.Plan)
		if err != nil {
			return fmt.Errorf("%s: %w", o.Plan.Profile.Name, err)
		}
		w, err := cam.WheelImage(MiddleWheel(o.Plan))
		if err != nil {
			return fmt.Errorf("%s: %w", o.Plan.Profile.Name, err)
		}
		if k == 0 {
			heading := draft.NewLabel([]draft.Word{draft.Value(row.name), draft.Note(fmt.Sprintf("  eye at %.0f mm", float64(o.Plan.OnVehicle(cam.Eye.Y))))})
			o.Fixed.Write("strip", heading, c.at.X, c.at.Y+1, render.Start)
		}
		ground := draft.Point{X: c.at.X + c.cell.X*(geom.MM(k)+.5), Y: c.at.Y + ladderName + c.wheel}
		l := lens{focal: geom.MM(float64(c.wheel) / float64(2*w.Outer.Half.Y))}
		low := w.Outer.Centre.Y + w.Outer.Half.Y
		left, right := min(w.Outer.Centre.X-w.Outer.Half.X, w.Inner.Centre.X-w.Inner.Half.X), max(w.Outer.Centre.X+w.Outer.Half.X, w.Inner.Centre.X+w.Inner.Half.X)
		l.origin = draft.Point{X: ground.X - l.long((left+right)/2), Y: ground.Y - l.long(low)}
		drawWheel(b, l, cam, w, fmt.Sprintf("%d-%d", c.row+1, turn))
		words := draft.NewLabel([]draft.Word{draft.Value(draft.Fixed(float64(w.Outer.Degrees()), 0) + "°"), draft.Note(" ellipse")},
			[]draft.Word{draft.Note(fmt.Sprintf("turn %d°", turn))}, []draft.Word{draft.Note("off the axle " + draft.Fixed(shortOff(w), 1) + "°")})
		b.Write("labels", words, ground.X, ground.Y+4, render.Middle)
	}
	return nil
}

// MiddleWheel is the front wheel, its outer edge under the middle of the picture: towards the picture's edges the short axis strays from the axle.
func MiddleWheel(p layout.Plan) view.Wheel {
	front := view.NewSolid(p).Wheels()[0]
	x := (p.Nose() + p.Tail()) / 2
	z := front.Centre.Z
	front.Centre = view.Point3{X: x, Y: front.Centre.Y}
	front.Inner = view.Point3{X: x, Y: front.Inner.Y, Z: front.Inner.Z - z}
	return front
}

// shortOff is the angle between the short axis of a wheel's ellipse and the image of its axle, in degrees.
func shortOff(w view.WheelImage) float64 {
	axle := w.Axle[1].Sub(w.Axle[0])
	off := math.Abs(math.Atan2(float64(axle.Y), float64(axle.X))-w.Outer.Angle-math.Pi/2) * 180 / math.Pi
	off = math.Mod(off, 180)
	return min(off, 180-off)
}

// drawWheel draws one wheel with its axes, its axle and the line that it stands on.
func drawWheel(b *draft.Board, l lens, cam view.Camera, w view.WheelImage, id string) {
	e := l.shape(w.Outer)
	if w.HasTreads {
		d := &perspective{Board: b, lens: l}
		seen, hidden := d.ownArcs(w, param(w.Inner, w.Treads[0][1]), param(w.Inner, w.Treads[1][1]))
		b.Ellipse("wheels", "inner-"+id, innerLine(), l.shape(w.Inner), seen[0], seen[1])
		b.Ellipse("wheels", "", hiddenLine(), l.shape(w.Inner), hidden[0], hidden[1])
		for _, t := range w.Treads {
			b.Line("wheels", "", innerLine(), l.onPage(t[0]), l.onPage(t[1]))
		}
	}
	b.Ellipse("wheels", "wheel-"+id, counting.TyreLine(), e, 0, 0)
	b.Ellipse("wheels", "rim-"+id, counting.RimLine(), l.shape(w.Rim), 0, 0)
	b.Line("axis", "axis-long-"+id, counting.RimLine(), e.At(0), e.At(math.Pi))
	b.Line("axis", "axis-short-"+id, counting.RimLine(), e.At(math.Pi/2), e.At(-math.Pi/2))
	axle := l.onPage(w.Axle[1]).Sub(l.onPage(w.Axle[0])).Times(.8)
	b.Line("axles", "axle-"+id, counting.AxleLine(), l.onPage(w.Axle[0]), l.onPage(w.Axle[0]).Add(axle))
	const long geom.Wheels = .35 // either way
	c := w.Wheel.Centre
	from, to := cam.Project(view.Point3{X: c.X - long, Z: c.Z}), cam.Project(view.Point3{X: c.X + long, Z: c.Z})
	b.Line("ground", "ground-"+id, boxLine(), l.onPage(from), l.onPage(to))
}
