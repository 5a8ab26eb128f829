package flat

import (
	"fmt"
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// endView is the view from the front or the rear. In its place x points right across the vehicle from the centre line, y up from the
// ground.
type endView struct {
	figure
	front bool
	first bool // on its sheet: the widths are above it
}

// newEnd places the front or rear view.
func newEnd(d *counting.Drawing, v *Vehicle, at counting.Place, front bool) endView {
	side := request.RearView
	if front {
		side = request.FrontView
	}
	return endView{figure: newFigure(d, v, at, v.from(side)()), front: front}
}

// axle returns the track of the visible axle and half the width of its tyres.
func (e endView) axle() (track, halfTyre geom.Wheels) {
	p := e.Plan
	t := p.Profile.Wheel
	if !e.front && p.TyreRatio() != 1 {
		t = p.Profile.RearWheel
	}
	return e.vehicle.Track(t), e.vehicle.TyreWidth(t) / 2
}

// draw draws the view without labels.
func (e endView) draw(s request.Setting, kind request.Kind) {
	e.drawVehicle(s, kind)
	e.levels()
	if kind == request.Full && e.Wants("ticks") {
		e.GroundRule(e.intervals(), "rule-across", "", "tick-end")
	}
}

// drawVehicle draws only the vehicle and its counted wheels.
func (e endView) drawVehicle(s request.Setting, kind request.Kind) {
	if drawsBody(e.Drawing, s) {
		e.body()
	}
	e.features(e.front)
	if e.Wants("between") && kind == request.Full {
		e.DrawRow(e.betweenTyres())
	}
	if e.Wants("wheels") {
		e.tyres()
		e.Level(counting.AxleLine().For("wheels", "axle-line"), .5, e.X(-e.half)-3, e.X(e.half)+3)
	}
	if e.Wants("outline") {
		e.Line(counting.AxleLine().For("outline", "centre-line"), draft.Pt(e.X(0), e.Y(0)+3), draft.Pt(e.X(0), e.Y(e.Plan.Height())-3))
	}
}

// levels extends the levels from the side of the body to the next view or the upright rule.
func (e endView) levels() {
	for _, l := range counting.Levels() {
		if l.Underneath || !e.Wants(l.Guide) {
			continue
		}
		from, to := e.X(e.half)+1, e.LevelsEnd
		if l.Guide == "belt" {
			from = e.X(e.half+view.MirrorReach) + 1
			if e.RuleX == 0 { // on to the next view's mirror
				to -= e.MM(view.MirrorReach)
			}
		}
		if l.Guide == "roof" {
			from = e.X(-e.vehicle.RoofWidth() / 2)
		}
		e.Level(l.Style().For(l.Guide, string(l.Guide)), l.Height(e.Plan), from, to)
	}
}

// betweenTyres returns the row of wheels that fit between the tyres of the axle, from the left of the page. A remainder is an arc, dotted
// from where it ends to the far side of the tyre.
func (e endView) betweenTyres() counting.Row {
	track, halfTyre := e.axle()
	to := track/2 - halfTyre
	return counting.Row{From: -to, To: to, Y: .5, Least: leastArc, Cut: to + 2*halfTyre}
}

// leastArc is the least remainder that is drawn as an arc: less would be a sliver beside the tyre.
const leastArc geom.Wheels = .15

// tyres draws the two tyres of the axle, and what wider tyres of the other axle show behind them.
func (e endView) tyres() {
	for i, w := range e.vehicle.Wheels() {
		outline := e.tread(w)
		if isFront := i%2 == 0; isFront == e.front {
			e.tyre(outline)
		} else {
			e.strokes(e.seen.seen(outline), counting.RimLine().For("wheels", ""))
		}
	}
}

// tread is the outline of a tyre from the front or the rear, where the tread is nearest to the eye at every height.
func (e endView) tread(w view.Wheel) view.Line {
	const nearer geom.Wheels = .02 // than the tyre's own surface
	outer, inner := e.seen.Camera.Project(w.Centre), e.seen.Camera.Project(w.Inner)
	middle := layout.Point{X: geom.Wheels(outer.X+inner.X) / 2, Y: w.Radius}
	halfWide := geom.Wheels(math.Abs(float64(outer.X-inner.X))) / 2
	return tread(w, roundedRect(middle, halfWide, w.Radius), func(q layout.Point) view.Point3 {
		before := counting.HalfChord(w.Radius, q.Y-w.Radius) + nearer
		if e.front {
			return view.Point3{X: w.Centre.X - before, Y: q.Y, Z: q.X}
		}
		return view.Point3{X: w.Centre.X + before, Y: q.Y, Z: -q.X}
	})
}

// intervals lists the chain under the view: tyre, between the tyres, tyre.
func (e endView) intervals() []counting.Interval {
	track, halfTyre := e.axle()
	outer, inner := track/2+halfTyre, track/2-halfTyre
	return []counting.Interval{
		{Lo: -outer, Hi: -inner, Ticks: "tick-tyre-left", Number: e.FormatLength(2 * halfTyre), Name: "tyre"},
		{Lo: -inner, Hi: inner, Ticks: "tick", Number: e.FormatLength(2 * inner), Name: "between the tyres"},
		{Lo: inner, Hi: outer, Ticks: "tick-tyre-right", Number: e.FormatLength(2 * halfTyre), Name: "tyre"},
	}
}

// The room round front and rear views, in mm.
const (
	endsAbove geom.MM = 27 // two dimensions and the view's name over the roof
	leastGap  geom.MM = 30 // between the two, for the rear lamp's words

	besideMirror geom.MM = 3 // beyond the outer mirrors
)

// endsGap is the room between two views: for words, and for a mirror of each at the largest wheel that the page could hold.
func (f Sheets) endsGap(d *counting.Drawing) geom.MM {
	mirror := d.Space.Width() * geom.MM(view.MirrorReach/counting.WidthOf(d.Plan)) / geom.MM(len(f.Views))
	return max(leastGap, 2*(mirror+besideMirror))
}

// endRoom measures what front and rear views need; along the ground they are counted as one.
func (f Sheets) endRoom(d *counting.Drawing) counting.Room {
	p, n := d.Plan, len(f.Views)
	gaps := f.endsGap(d) * geom.MM(n-1)
	r := counting.Room{Above: 4, Below: 4, TitleBlock: draft.TitleLineHeight, Nose: besideMirror, Tail: besideMirror + gaps,
		From: -view.MirrorReach, To: counting.WidthOf(p)*geom.Wheels(n) + view.MirrorReach, Top: p.Height() + .1}
	if !slices.Contains(f.Kinds, request.Full) {
		return r
	}
	r.TitleBlock, r.Below, r.Tail = draft.TitleBlockHeight, counting.RuleGap+6, r.Tail+counting.RuleGap
	if !f.hasLabels() {
		return r
	}
	r.Above, r.Below, r.From = endsAbove, counting.BelowGround, 0 // a mirror is narrower than the labels beside it
	for _, l := range []draft.Label{tumblehomeLabel(d), lampLabel(d, "front lamp ", p.FrontLamp()), lampLabel(d, "rear lamp ",
		p.RearLamp())} {
		r.Nose = max(r.Nose, l.Width+8)
	}
	for _, e := range d.LadderEntries() {
		r.Tail = max(r.Tail, gaps+besideMirror+counting.RuleGap+counting.LadderAt+e.Label.Width)
	}
	return r
}

// ends draws front and rear, or one of them, on one ground line.
func (f Sheets) ends(o counting.Page, d *counting.Drawing) error {
	var out []endView
	gap := f.endsGap(d)
	look(drawsBody(d, f.Setting), slice.Map(f.Views, f.Vehicle.from)...)
	for i, v := range f.Views {
		at, width := d.Place, counting.WidthOf(d.Plan)
		at.Origin.X = at.X(geom.Wheels(width*geom.Wheels(float64(i)+.5))) + geom.MM(geom.MM(i)*gap)
		e := newEnd(d, f.Vehicle, at, v == request.FrontView)
		e.first = i == 0
		e.LevelsEnd = e.X(e.half) + gap - 2
		if i == len(f.Views)-1 {
			e.LevelsEnd = e.X(e.half+view.MirrorReach) + besideMirror
			e.RuleX = e.LevelsEnd + counting.RuleGap
		}
		out = append(out, e)
	}
	first, last := out[0], out[len(out)-1]
	if d.Wants("ground") {
		d.Ground(first.X(-first.half)-6, last.X(last.half)+6)
	}
	for i, e := range out {
		if i > 0 {
			d.Prefix = fmt.Sprintf("p%d-", i+1)
		}
		e.draw(f.Setting, o.Kind)
	}
	d.Prefix = ""
	if o.Kind != request.Full {
		return nil
	}
	if d.Wants("ticks") {
		last.UprightRule(f.Setting.Labels != request.NoLabels)
	}
	if d.Wants("ratio") {
		last.Brackets()
	}
	if f.hasLabels() {
		return labelEnds(out)
	}
	return nil
}
