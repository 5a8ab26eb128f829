package sheet

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/view"
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
	p := e.plan
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
	if kind == request.Full && e.wants("ticks") {
		e.ruleAcross()
	}
}

// drawBare draws the vehicle with its counted wheels alone.
func (e endView) drawBare(s request.Setting, kind request.Kind) {
	if s.Outline != request.Off && e.wants("outline") {
		e.body()
	}
	e.features(e.front)
	if e.wants("between") && kind == request.Full {
		e.betweenTyres()
	}
	if e.wants("wheels") {
		e.tyresAcross()
		e.level("wheels", "axle-line", axleLine(), .5, e.x(-e.half)-3, e.x(e.half)+3)
	}
	if e.wants("outline") {
		e.line("outline", "centre-line", axleLine(), point{X: e.x(0), Y: e.y(0) + 3}, point{X: e.x(0), Y: e.y(e.plan.Height()) - 3})
	}
}

// levelsAcross carries roof, belt and sill from the body's side outwards, to the next view or the upright rule.
func (e endView) levelsAcross() {
	p, from := e.plan, e.x(e.half)+1
	if e.wants("roof") {
		e.level("roof", "roof", roofLine(), p.Height(), e.x(-e.solid.RoofWidth()/2), e.reach)
	}
	if e.wants("belt") {
		e.level("belt", "belt", guideLine(), p.Belt(), from, e.reach)
	}
	if e.wants("sill") {
		e.level("sill", "sill", sillLine(), p.Sill(), from, e.reach)
	}
}

// betweenTyres counts the wheels that fit between the tyres of the axle, from the left of the page; of the rest an arc is used, and
// what is not is dotted as far as the tyre reaches.
func (e endView) betweenTyres() {
	track, halfTyre := e.axle()
	from, to := -track/2+halfTyre, track/2-halfTyre
	n := wholeWheels(float64(to - from))
	for i := range n {
		e.wheelAt("between", fmt.Sprintf("between-%d", i+1), countedLine(), atPlan(from+geom.Wheels(i)+.5, .5), .5)
	}
	if rest := to - from - geom.Wheels(n); rest > leastArc {
		at := from + geom.Wheels(n)
		e.counted("between", "between-rest", atPlan(at+.5, .5), used{lo: at, hi: to, cut: to + 2*halfTyre, spare: true})
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
			e.strokesOf(outline, "wheels", rimLine())
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
		before := chord(w.Radius, q.Y-w.Radius) + nearer
		if e.front {
			return view.Point3{X: w.Centre.X - before, Y: q.Y, Z: q.X}
		}
		return view.Point3{X: w.Centre.X + before, Y: q.Y, Z: -q.X}
	})
}

// spansAcross lists the chain under one view: tyre, between the tyres, tyre.
func (e endView) spansAcross() []span {
	track, halfTyre := e.axle()
	outer, inner := track/2+halfTyre, track/2-halfTyre
	return []span{
		{-outer, -inner, false, "tick-tyre-left", 0, e.length(2 * halfTyre), "tyre"},
		{-inner, inner, false, "tick", 0, e.length(2 * inner), "between the tyres"},
		{inner, outer, false, "tick-tyre-right", 0, e.length(2 * halfTyre), "tyre"},
	}
}

// ruleAcross draws the graduated rule under one view.
func (e endView) ruleAcross() {
	y := e.y(0) + ruleGap
	spans := e.spansAcross()
	e.line("ticks", "rule-across", ruleLine(), point{X: e.x(spans[0].lo), Y: y}, point{X: e.x(spans[2].hi), Y: y})
	end := func(x geom.Wheels, id string) {
		e.line("ticks", id, tickLine(), point{X: e.x(x), Y: y - 5.5}, point{X: e.x(x), Y: y + 2})
	}
	for _, s := range spans {
		e.spanTicks(s, y, end)
	}
	end(spans[2].hi, "tick-end")
}

// scale draws the upright rule and the two parts of the height beside the last view.
func (e endView) scale(numbered bool) {
	if e.wants("ticks") {
		e.uprightRule(numbered)
	}
	if e.wants("ratio") {
		e.brackets()
	}
}
