package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// topView is the vehicle from above. Its place has x along the vehicle from the front axle and y across it, to the side that lies
// high on the page: the vehicle's right.
type topView struct {
	flatFigure
	half geom.Wheels
}

// newTop places the vehicle seen from above.
func newTop(d *drawing, solid subject, at place) topView {
	moved := *d
	moved.place = at
	return topView{flatFigure{drawing: &moved, solid: solid, scene: view.NewScene(solid.Solid, view.Top())}, widthOf(d.plan) / 2}
}

// widths lists the widths that are written behind the tail, the widest first.
func (t topView) widths() []rung { return widthRungs(t.drawing, t.solid.Solid) }

func widthRungs(d *drawing, solid *view.Solid) []rung {
	p := d.plan
	var out []rung
	add := func(what string, l geom.Wheels, how string) {
		words := draft.NewLabel([]draft.Word{draft.Name(what + " "), draft.Value(d.length(l))})
		if d.way.notes {
			words = draft.NewLabel(words.Lines[0], []draft.Word{draft.Note(d.otherwise(l) + how)})
		}
		out = append(out, rung{at: l, label: words})
	}
	add("width", widthOf(p), ", without mirrors")
	add("belt width", solid.BeltWidth(), "")
	add("track", solid.Track(p.Profile.Wheel), "")
	if p.TyreRatio() != 1 {
		add("rear track", solid.Track(p.Profile.RearWheel), "")
	}
	add("roof width", solid.RoofWidth(), "")
	slices.SortStableFunc(out, func(a, b rung) int { return int(math.Copysign(1, float64(b.at-a.at))) })
	return out
}

// widthPitch is how far apart the widths stand behind the tail.
const widthPitch geom.MM = 4

// roomOfTop measures what the view from above needs.
func (f flatView) roomOfTop(d *drawing) room {
	p := d.plan
	r := room{above: 10, below: 8, strip: draft.FootHeight, nose: 8, tail: 8, from: p.Nose(), to: p.Tail(), top: widthOf(p)}
	if !slices.Contains(f.Kinds, request.Full) {
		return r
	}
	r.strip, r.below = draft.StripHeight, ruleGap+6
	if f.isWritten() {
		r.below = belowGround
		rungs := widthRungs(d, view.NewSolid(p))
		for _, rung := range rungs {
			r.tail = max(r.tail, 6+widthPitch*geom.MM(len(rungs))+6+rung.label.Width)
		}
	}
	return r
}

// top draws the view from above.
func (f flatView) top(o onePage) (render.Page, error) {
	d := f.empty(o.Canvas, o.kind)
	stand, err := f.roomOfTop(d).stand(o.Space, o.Real(o.wheel), 0)
	if err != nil {
		return render.Page{}, err
	}
	stand.origin.Y -= stand.long(widthOf(o.plan) / 2)
	t := newTop(d, newSubject(o.plan), stand)
	t.draw(f.Setting, o.kind)
	if o.kind == request.Full {
		if err := t.measures(f.isWritten()); err != nil {
			return render.Page{}, err
		}
	}
	f.strip(o)
	return o.Finish(fmt.Sprintf("%s, %s, %s", o.plan.Profile.Title, viewWords(f.views), o.kind), d.Board, o.fixed, f.Setting.Facing), nil
}

// draw draws the view without words.
func (t topView) draw(s request.Setting, kind request.Kind) {
	p := t.plan
	if s.Outline != request.Off && t.wants("outline") {
		t.body()
	}
	t.features(true)
	if t.wants("wheels") {
		t.tyresFromAbove()
		for _, a := range []struct {
			id string
			x  geom.Wheels
		}{{"axle-front", 0}, {"axle-rear", p.Wheelbase()}} {
			t.Line("wheels", a.id, axleLine(), draft.Point{X: t.x(a.x), Y: t.y(t.half) - 4}, draft.Point{X: t.x(a.x), Y: t.y(-t.half) + 4})
		}
	}
	t.Line("wheels", "centre-line", axleLine(), draft.Point{X: t.x(p.Nose()) - 5, Y: t.y(0)}, draft.Point{X: t.x(p.Tail()) + 4, Y: t.y(0)})
	if t.wants("between") && kind == request.Full {
		t.between()
	}
}

// between lays the counted wheels flat along the centre line.
func (t topView) between() {
	p := t.plan
	for i, w := range t.alongCentre() {
		t.wheelAt("between", fmt.Sprintf("between-%d", i+1), countedLine(), w, .5)
	}
	n := wholeWheels(p.WheelsBetween())
	if rest := p.WheelsBetween() - float64(n); rest > float64(leastArc) {
		end := geom.Wheels(.5 + p.WheelsBetween())
		t.counted("between", "between-rest", atPlan(geom.Wheels(n+1), 0), used{lo: geom.Wheels(n) + .5, hi: end, cut: end})
	}
}

// alongCentre lists the centres of the counted wheels, laid flat along the centre line.
func (t topView) alongCentre() []layout.Point {
	var out []layout.Point
	for i := range wholeWheels(t.plan.WheelsBetween()) {
		out = append(out, atPlan(geom.Wheels(i+1), 0))
	}
	return out
}

// tyresFromAbove draws the four tyres, which the body hides.
func (t topView) tyresFromAbove() {
	for _, w := range t.solid.Wheels() {
		outer, inner := t.scene.Camera.Project(w.Centre), t.scene.Camera.Project(w.Inner)
		halfWide := geom.Wheels(math.Abs(float64(outer.Y-inner.Y))) / 2
		var path render.Path
		for i, q := range roundedRect(onPicture(outer.Lerp(inner, .5)), w.Radius, halfWide) {
			if at := t.onPage(q); i == 0 {
				path = path.Move(at)
			} else {
				path = path.Line(at)
			}
		}
		t.Curve("wheels", "wheel-"+w.Name, hiddenTyreLine(), path, 1)
	}
}

// measures draws the rule under the view and the widths behind the tail, with their words if those are wanted.
func (t topView) measures(words bool) error {
	low := *t.drawing
	low.origin.Y = t.y(-t.half)
	if t.wants("ticks") {
		low.groundRule()
	}
	if !words {
		return nil
	}
	t.counts()
	if !t.wants("ticks") {
		return nil
	}
	end, err := low.chainWords()
	if err != nil {
		return err
	}
	p := t.plan
	t.broken("wheelbase", t.x(0), t.x(p.Wheelbase()), end+4.2, t.measured("wheelbase", p.Wheelbase(), ", axle to axle")...)
	t.broken("length", t.x(p.Nose()), t.x(p.Tail()), end+10.2, t.measured("length", p.Length(), ", nose to tail")...)
	return t.widthsBehind()
}

// counts numbers the wheels along the centre line.
func (t topView) counts() {
	if t.wants("between") {
		for i, w := range t.alongCentre() {
			t.countIn(i+1, w, search{wanted: spot{0, .2}, within: .4, wide: 8})
		}
	}
}

// widthsBehind draws the widths behind the tail as a stair: the widest stands innermost, so that the leader of each passes over those
// further out.
func (t topView) widthsBehind() error {
	rungs := t.widths()
	centres := t.spreadOut(rungs)
	if centres == nil { // at a small scale each takes one line
		t.way.notes = false
		rungs = t.widths()
		centres = t.spreadOut(rungs)
	}
	if centres == nil {
		return tight("the widths")
	}
	x := t.x(t.plan.Tail()) + 6
	lane := x + widthPitch*geom.MM(len(rungs))
	for i, r := range rungs {
		at, l := x+geom.MM(widthPitch*geom.MM(i)), r.label
		id := strings.ReplaceAll(strings.TrimSpace(l.Lines[0][0].Text), " ", "-") // "belt-width"
		up, down := draft.Point{X: at, Y: t.y(r.at / 2)}, draft.Point{X: at, Y: t.y(-r.at / 2)}
		t.Line("widths", id, draft.TickLine(), up, down)
		for _, end := range []draft.Point{up, down} {
			t.Line("widths", "", draft.TickLine(), end.Sub(draft.Point{X: 1.2}), end.Add(draft.Point{X: 1.2}))
		}
		top, mid := centres[i]-l.Height/2, centres[i]
		t.Leader(up.Add(draft.Point{X: 1.2}), draft.Point{X: lane, Y: up.Y}, draft.Point{X: lane + 3, Y: mid}, draft.Point{X: lane + 4, Y: mid})
		t.Write("labels", l, lane+5, top, render.Start)
	}
	return nil
}

// spreadOut places the words of the widths beside one another, or returns nil.
func (t topView) spreadOut(rungs []rung) []geom.MM {
	var anchors, sizes []geom.MM
	for _, r := range rungs {
		anchors, sizes = append(anchors, t.y(r.at/2)), append(sizes, r.label.Height)
	}
	return draft.PushApart(anchors, sizes, 1.2, t.y(t.half)-8, t.y(-t.half))
}
