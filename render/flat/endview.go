package flat

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
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
	half  geom.Wheels
}

func (e endView) camera() view.Camera {
	if e.front {
		return view.Front()
	}
	return view.Rear()
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
		e.rule()
	}
}

// drawVehicle draws only the vehicle and its counted wheels.
func (e endView) drawVehicle(s request.Setting, kind request.Kind) {
	if s.Outline != request.OutlineOff && e.Wants("outline") {
		e.body()
	}
	e.features(e.front)
	if e.Wants("between") && kind == request.Full {
		e.betweenTyres()
	}
	if e.Wants("wheels") {
		e.tyres()
		e.Level(counting.AxleLine().For("wheels", "axle-line"), .5, e.X(-e.half)-3, e.X(e.half)+3)
	}
	if e.Wants("outline") {
		e.Line(counting.AxleLine().For("outline", "centre-line"), draft.Pt(e.X(0), e.Y(0)+3), draft.Pt(e.X(0), e.Y(e.Plan.Height())-3))
	}
}

// levels extends roof, belt and sill from the side of the body to the next view or the upright rule.
func (e endView) levels() {
	p, from := e.Plan, e.X(e.half)+1
	if e.Wants("roof") {
		e.Level(counting.RoofLine().For("roof", "roof"), p.Height(), e.X(-e.vehicle.RoofWidth()/2), e.LevelsEnd)
	}
	if e.Wants("belt") {
		e.Level(counting.GuideLine().For("belt", "belt"), p.Belt(), from, e.LevelsEnd)
	}
	if e.Wants("sill") {
		e.Level(counting.SillLine().For("sill", "sill"), p.Sill(), from, e.LevelsEnd)
	}
}

// betweenTyres draws the wheels that fit between the tyres of the axle, from the left of the page. A remainder is an arc, dotted from
// where it ends to the far side of the tyre.
func (e endView) betweenTyres() {
	track, halfTyre := e.axle()
	from, to := -track/2+halfTyre, track/2-halfTyre
	n := counting.WholeWheels(float64(to - from))
	for i := range n {
		e.WheelAt(counting.CountedLine().For("between", fmt.Sprintf("between-%d", i+1)), counting.PlanPt(from+geom.Wheels(i)+.5, .5), .5)
	}
	if rest := to - from - geom.Wheels(n); rest > leastArc {
		at := from + geom.Wheels(n)
		used := counting.UsedPart{Lo: at, Hi: to, Cut: to + 2*halfTyre, Spare: true}
		e.CountedWheel("between", "between-rest", counting.PlanPt(at+.5, .5), used)
	}
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
			e.strokes(outline, "wheels", counting.RimLine())
		}
	}
}

// tread is the outline of a tyre from the front or the rear, where the tread is nearest to the eye at every height.
func (e endView) tread(w view.Wheel) view.Line {
	const nearer geom.Wheels = .02 // than the tyre's own surface
	outer, inner := e.scene.Camera.Project(w.Centre), e.scene.Camera.Project(w.Inner)
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

// spans lists the chain under the view: tyre, between the tyres, tyre.
func (e endView) spans() []counting.Span {
	track, halfTyre := e.axle()
	outer, inner := track/2+halfTyre, track/2-halfTyre
	return []counting.Span{
		{Lo: -outer, Hi: -inner, Ticks: "tick-tyre-left", Number: e.FormatLength(2 * halfTyre), Name: "tyre"},
		{Lo: -inner, Hi: inner, Ticks: "tick", Number: e.FormatLength(2 * inner), Name: "between the tyres"},
		{Lo: inner, Hi: outer, Ticks: "tick-tyre-right", Number: e.FormatLength(2 * halfTyre), Name: "tyre"},
	}
}

// rule draws the graduated rule under the view.
func (e endView) rule() {
	y := e.Y(0) + counting.RuleGap
	spans := e.spans()
	e.Line(draft.RuleLine().For("ticks", "rule-across"), draft.Pt(e.X(spans[0].Lo), y), draft.Pt(e.X(spans[2].Hi), y))
	end := func(x geom.Wheels, id string) {
		e.Line(draft.TickLine().For("ticks", id), draft.Pt(e.X(x), y-5.5), draft.Pt(e.X(x), y+2))
	}
	for _, s := range spans {
		e.SpanTicks(s, y, end)
	}
	end(spans[2].Hi, "tick-end")
}

// scale draws the upright rule and the two parts of the height beside the last view.
func (e endView) scale(numbered bool) {
	if e.Wants("ticks") {
		e.UprightRule(numbered)
	}
	if e.Wants("ratio") {
		e.Brackets()
	}
}
