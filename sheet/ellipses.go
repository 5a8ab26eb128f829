package sheet

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render"
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

// ladderRows lists the rows: low, at eye level and from above, and the job's own camera where that is another one.
func (job driver) ladderRows() []ladderRow {
	var out []ladderRow
	own := job.Setting.Camera.Spec
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

// ellipses draws how a wheel looks at many turns and eye heights.
func (job driver) ellipses(o onePage) (render.Page, error) {
	b := newBoard(o.space, inks(job.Ink(o.kind)))
	rows := job.ladderRows()
	columns := geom.MM((lastTurn-firstTurn)/turnStep + 1)
	cell := point{X: o.space.Width() / columns, Y: (o.space.Height() - stripHeight - 2 - ladderHead) / geom.MM(len(rows))}
	wheel := o.evenBelow(min(ladderWheel, cell.X-4, cell.Y-ladderWords-ladderName-1))
	if wheel < leastWheel {
		return render.Page{}, fmt.Errorf("the ellipses do not fit on %s: not even with a wheel of %s; use larger paper", job.Setting.Paper.Name, onPaper(leastWheel))
	}
	head := newLabel([]word{{text: "Wheel ellipses", height: large, weight: render.SemiBold, role: words}},
		[]word{shortened(name("The short axis points along the axle, nearly: by how much it is off stands under each wheel. It is most where the ellipse is so round that nobody sees it."), o.space.Width())})
	o.fixed.write("strip", head, o.space.Min.X, o.space.Min.Y, render.Start)
	for r, row := range rows {
		top := o.space.Min.Y + ladderHead + cell.Y*geom.MM(r)
		if err := job.ladder(o, b, row, ladderCells{r, point{X: o.space.Min.X, Y: top}, cell, o.real(wheel)}); err != nil {
			return render.Page{}, err
		}
	}
	columnsOf := [][]fact{{{"wheel on paper", onPaper(wheel)}, {"tyre", o.plan.Profile.Wheel.String()}}, {{"turns", fmt.Sprintf("%d° to %d°", firstTurn, lastTurn)}, {"from", "square on the side"}}}
	o.strip(o.fixed, job.captionOf(o.plan, "the front wheel in the middle of the picture"), columnsOf, o.number)
	return o.finish(o.plan.Profile.Title+", ellipses", b, o.fixed, job.Setting.Facing), nil
}

// ladderCells is where a row's cells stand.
type ladderCells struct {
	row   int
	at    point // of the row's top left corner
	cell  point // the size of one
	wheel geom.MM
}

// ladder draws one row. Words are written on the figure's board: they go along with their wheels when the page is mirrored.
func (job driver) ladder(o onePage, b *board, row ladderRow, c ladderCells) error {
	own, err := row.spec.Camera(o.plan)
	if err != nil {
		return fmt.Errorf("%s: %w", o.plan.Profile.Name, err)
	}
	for k, turn := 0, firstTurn; turn <= lastTurn; k, turn = k+1, turn+turnStep {
		st := row.spec
		st.Turn = geom.Degrees(turn)
		st.Distance = own.Spec.Distance // the lens would step closer as the vehicle turns end on
		cam, err := st.Camera(o.plan)
		if err != nil {
			return fmt.Errorf("%s: %w", o.plan.Profile.Name, err)
		}
		w, err := cam.WheelImage(middleWheel(o.plan))
		if err != nil {
			return fmt.Errorf("%s: %w", o.plan.Profile.Name, err)
		}
		if k == 0 {
			heading := newLabel([]word{value(row.name), note(fmt.Sprintf("  eye at %.0f mm", float64(o.plan.OnVehicle(cam.Eye.Y))))})
			o.fixed.write("strip", heading, c.at.X, c.at.Y+1, render.Start)
		}
		ground := point{X: c.at.X + c.cell.X*(geom.MM(k)+.5), Y: c.at.Y + ladderName + c.wheel}
		l := lens{focal: geom.MM(float64(c.wheel) / float64(2*w.Outer.Half.Y))}
		low := w.Outer.Centre.Y + w.Outer.Half.Y
		left, right := min(w.Outer.Centre.X-w.Outer.Half.X, w.Inner.Centre.X-w.Inner.Half.X), max(w.Outer.Centre.X+w.Outer.Half.X, w.Inner.Centre.X+w.Inner.Half.X)
		l.origin = point{X: ground.X - l.long((left+right)/2), Y: ground.Y - l.long(low)}
		b.ladderWheel(l, cam, w, fmt.Sprintf("%d-%d", c.row+1, turn))
		words := newLabel([]word{value(fixed(float64(w.Outer.Degrees()), 0) + "°"), note(" ellipse")},
			[]word{note(fmt.Sprintf("turn %d°", turn))}, []word{note("off the axle " + fixed(shortOff(w), 1) + "°")})
		b.write("labels", words, ground.X, ground.Y+4, render.Middle)
	}
	return nil
}

// middleWheel is the front wheel, its outer edge under the middle of the picture: towards the picture's edges the short axis strays from the axle.
func middleWheel(p layout.Plan) view.Wheel {
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

// ladderWheel draws one wheel with its axes, its axle and the line that it stands on.
func (b *board) ladderWheel(l lens, cam view.Camera, w view.WheelImage, id string) {
	e := l.shape(w.Outer)
	if w.HasTreads {
		d := &perspective{board: b, lens: l}
		seen, hidden := d.ownArcs(w, param(w.Inner, w.Treads[0][1]), param(w.Inner, w.Treads[1][1]))
		b.ellipse("wheels", "inner-"+id, innerLine(), l.shape(w.Inner), seen[0], seen[1])
		b.ellipse("wheels", "", hiddenLine(), l.shape(w.Inner), hidden[0], hidden[1])
		for _, t := range w.Treads {
			b.line("wheels", "", innerLine(), l.onPage(t[0]), l.onPage(t[1]))
		}
	}
	b.ellipse("wheels", "wheel-"+id, tyreLine(), e, 0, 0)
	b.ellipse("wheels", "rim-"+id, rimLine(), l.shape(w.Rim), 0, 0)
	b.line("axis", "axis-long-"+id, rimLine(), e.At(0), e.At(math.Pi))
	b.line("axis", "axis-short-"+id, rimLine(), e.At(math.Pi/2), e.At(-math.Pi/2))
	axle := l.onPage(w.Axle[1]).Sub(l.onPage(w.Axle[0])).Times(.8)
	b.line("axles", "axle-"+id, axleLine(), l.onPage(w.Axle[0]), l.onPage(w.Axle[0]).Add(axle))
	const long geom.Wheels = .35 // either way
	c := w.Wheel.Centre
	from, to := cam.Project(view.Point3{X: c.X - long, Z: c.Z}), cam.Project(view.Point3{X: c.X + long, Z: c.Z})
	b.line("ground", "ground-"+id, boxLine(), l.onPage(from), l.onPage(to))
}
