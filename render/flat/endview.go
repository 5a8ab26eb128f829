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

// endView is the vehicle from the front or the rear. Its place has x across the vehicle from the centre line, to the page's right, and
// y up from the ground.
type endView struct {
	flatFigure
	front bool
	first bool // of its sheet: the widths stand over it
	half  geom.Wheels
}

func (e endView) camera() view.Camera {
	if e.front {
		return view.Front()
	}
	return view.Rear()
}

// axle returns the track of the axle that is seen and half its tyres' width.
func (e endView) axle() (track, halfTyre geom.Wheels) {
	p := e.Plan
	t := p.Profile.Wheel
	if !e.front && p.TyreRatio() != 1 {
		t = p.Profile.RearWheel
	}
	return e.solid.Track(t), e.solid.TyreWidth(t) / 2
}

// draw draws one view without its words.
func (e endView) draw(s request.Setting, kind request.Kind) {
	e.drawBare(s, kind)
	e.levelsAcross()
	if kind == request.Full && e.Wants("ticks") {
		e.ruleAcross()
	}
}

// drawBare draws the vehicle with its counted wheels alone.
func (e endView) drawBare(s request.Setting, kind request.Kind) {
	if s.Outline != request.Off && e.Wants("outline") {
		e.body()
	}
	e.features(e.front)
	if e.Wants("between") && kind == request.Full {
		e.betweenTyres()
	}
	if e.Wants("wheels") {
		e.tyresAcross()
		e.Level("wheels", "axle-line", counting.AxleLine(), .5, e.X(-e.half)-3, e.X(e.half)+3)
	}
	if e.Wants("outline") {
		e.Line("outline", "centre-line", counting.AxleLine(), draft.Point{X: e.X(0), Y: e.Y(0) + 3}, draft.Point{X: e.X(0), Y: e.Y(e.Plan.Height()) - 3})
	}
}

// levelsAcross carries roof, belt and sill from the body's side outwards, to the next view or the upright rule.
func (e endView) levelsAcross() {
	p, from := e.Plan, e.X(e.half)+1
	if e.Wants("roof") {
		e.Level("roof", "roof", counting.RoofLine(), p.Height(), e.X(-e.solid.RoofWidth()/2), e.LevelsEnd)
	}
	if e.Wants("belt") {
		e.Level("belt", "belt", counting.GuideLine(), p.Belt(), from, e.LevelsEnd)
	}
	if e.Wants("sill") {
		e.Level("sill", "sill", counting.SillLine(), p.Sill(), from, e.LevelsEnd)
	}
}

// betweenTyres counts the wheels that fit between the tyres of the axle, from the left of the page; of the rest an arc is used, and
// what is not is dotted as far as the tyre reaches.
func (e endView) betweenTyres() {
	track, halfTyre := e.axle()
	from, to := -track/2+halfTyre, track/2-halfTyre
	n := counting.WholeWheels(float64(to - from))
	for i := range n {
		e.WheelAt("between", fmt.Sprintf("between-%d", i+1), counting.CountedLine(), counting.PlanPt(from+geom.Wheels(i)+.5, .5), .5)
	}
	if rest := to - from - geom.Wheels(n); rest > leastArc {
		at := from + geom.Wheels(n)
		e.CountedWheel("between", "between-rest", counting.PlanPt(at+.5, .5), counting.UsedPart{Lo: at, Hi: to, Cut: to + 2*halfTyre, Spare: true})
	}
}

// leastArc is the least left-over between tyres that is drawn as an arc: less is a sliver beside the tyre's own line.
const leastArc geom.Wheels = .15

// tyresAcross draws the two tyres of the axle, and what is seen of the others between them: wider ones stand out behind.
func (e endView) tyresAcross() {
	for i, w := range e.solid.Wheels() {
		outline := e.treadAcross(w)
		if isFront := i%2 == 0; isFront == e.front {
			e.tyreOf(outline)
		} else {
			e.strokesOf(outline, "wheels", counting.RimLine())
		}
	}
}

// treadAcross is a tyre's outline from the front or the rear, where the tread stands farthest towards the eye at every height.
func (e endView) treadAcross(w view.Wheel) view.Line {
	const nearer geom.Wheels = .02 // before the tyre's own skin
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

// spansAcross lists the chain under one view: tyre, between the tyres, tyre.
func (e endView) spansAcross() []counting.Span {
	track, halfTyre := e.axle()
	outer, inner := track/2+halfTyre, track/2-halfTyre
	return []counting.Span{
		{Lo: -outer, Hi: -inner, Backwards: false, Ticks: "tick-tyre-left", First: 0, Number: e.FormatLength(2 * halfTyre), Name: "tyre"},
		{Lo: -inner, Hi: inner, Backwards: false, Ticks: "tick", First: 0, Number: e.FormatLength(2 * inner), Name: "between the tyres"},
		{Lo: inner, Hi: outer, Backwards: false, Ticks: "tick-tyre-right", First: 0, Number: e.FormatLength(2 * halfTyre), Name: "tyre"},
	}
}

// ruleAcross draws the graduated rule under one view.
func (e endView) ruleAcross() {
	y := e.Y(0) + counting.RuleGap
	spans := e.spansAcross()
	e.Line("ticks", "rule-across", draft.RuleLine(), draft.Point{X: e.X(spans[0].Lo), Y: y}, draft.Point{X: e.X(spans[2].Hi), Y: y})
	end := func(x geom.Wheels, id string) {
		e.Line("ticks", id, draft.TickLine(), draft.Point{X: e.X(x), Y: y - 5.5}, draft.Point{X: e.X(x), Y: y + 2})
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
