package flat

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// topView is the view from above. In its place x points rearwards from the front axle and y up on the page: to the right of the vehicle.
type topView struct {
	figure
	half geom.Wheels
}

// newTop places the vehicle seen from above.
func newTop(d *counting.Drawing, solid vehicle, at counting.Place) topView {
	moved := *d
	moved.Place = at
	return topView{figure{Drawing: &moved, vehicle: solid, scene: view.NewScene(solid.Solid, view.Top())}, counting.WidthOf(d.Plan) / 2}
}

// widths lists the widths that are labelled behind the tail, the widest first.
func (t topView) widths() []counting.LadderEntry { return widthLabels(t.Drawing, t.vehicle.Solid) }

func widthLabels(d *counting.Drawing, solid *view.Solid) []counting.LadderEntry {
	p := d.Plan
	var out []counting.LadderEntry
	add := func(what string, l geom.Wheels, how string) {
		words := draft.NewLabel([]draft.Word{draft.Name(what + " "), draft.Value(d.FormatLength(l))})
		if d.Labels.Notes {
			words = draft.NewLabel(words.Lines[0], []draft.Word{draft.Note(d.FormatSecondary(l) + how)})
		}
		out = append(out, counting.LadderEntry{At: l, Label: words})
	}
	add("width", counting.WidthOf(p), ", without mirrors")
	add("belt width", solid.BeltWidth(), "")
	add("track", solid.Track(p.Profile.Wheel), "")
	if p.TyreRatio() != 1 {
		add("rear track", solid.Track(p.Profile.RearWheel), "")
	}
	add("roof width", solid.RoofWidth(), "")
	slices.SortStableFunc(out, func(a, b counting.LadderEntry) int { return int(math.Copysign(1, float64(b.At-a.At))) })
	return out
}

// widthPitch is the distance between the widths behind the tail.
const widthPitch geom.MM = 4

// topRoom returns the room that the view from above needs.
func (f Sheets) topRoom(d *counting.Drawing) counting.Room {
	p := d.Plan
	r := counting.Room{Above: 10, Below: 8, TitleBlock: draft.TitleLineHeight, Nose: 8, Tail: 8, From: p.Nose(), To: p.Tail(), Top: counting.WidthOf(p)}
	if !slices.Contains(f.Kinds, request.Full) {
		return r
	}
	r.TitleBlock, r.Below = draft.TitleBlockHeight, counting.RuleGap+6
	if f.hasLabels() {
		r.Below = counting.BelowGround
		rungs := widthLabels(d, view.NewSolid(p))
		for _, rung := range rungs {
			r.Tail = max(r.Tail, 6+widthPitch*geom.MM(len(rungs))+6+rung.Label.Width)
		}
	}
	return r
}

// top draws the view from above.
func (f Sheets) top(o counting.Page) (render.Page, error) {
	d := f.empty(o.Canvas, o.Kind)
	stand, err := f.topRoom(d).Place(o.Space, o.FromPaper(o.Wheel), 0)
	if err != nil {
		return render.Page{}, err
	}
	stand.Origin.Y -= stand.MM(counting.WidthOf(o.Plan) / 2)
	t := newTop(d, newVehicle(o.Plan), stand)
	t.draw(f.Setting, o.Kind)
	if o.Kind == request.Full {
		if err := t.measures(f.hasLabels()); err != nil {
			return render.Page{}, err
		}
	}
	return f.finish(o, d), nil
}

// draw draws the view without words.
func (t topView) draw(s request.Setting, kind request.Kind) {
	p := t.Plan
	if s.Outline != request.OutlineOff && t.Wants("outline") {
		t.body()
	}
	t.features(true)
	if t.Wants("wheels") {
		t.tyres()
		for _, a := range []struct {
			id string
			x  geom.Wheels
		}{{"axle-front", 0}, {"axle-rear", p.Wheelbase()}} {
			t.Line(counting.AxleLine().For("wheels", a.id), draft.Pt(t.X(a.x), t.Y(t.half)-4), draft.Pt(t.X(a.x), t.Y(-t.half)+4))
		}
	}
	t.Line(counting.AxleLine().For("wheels", "centre-line"), draft.Pt(t.X(p.Nose())-5, t.Y(0)), draft.Pt(t.X(p.Tail())+4, t.Y(0)))
	if t.Wants("between") && kind == request.Full {
		t.between()
	}
}

// between draws the counted wheels lying flat along the centre line.
func (t topView) between() {
	p := t.Plan
	for i, w := range t.alongCentre() {
		t.WheelAt(counting.CountedLine().For("between", fmt.Sprintf("between-%d", i+1)), w, .5)
	}
	n := counting.WholeWheels(p.WheelsBetween())
	if rest := p.WheelsBetween() - float64(n); rest > float64(leastArc) {
		end := geom.Wheels(.5 + p.WheelsBetween())
		used := counting.UsedPart{Lo: geom.Wheels(n) + .5, Hi: end, Cut: end}
		t.CountedWheel("between", "between-rest", counting.PlanPt(geom.Wheels(n+1), 0), used)
	}
}

// alongCentre lists the centres of the counted wheels.
func (t topView) alongCentre() []layout.Point {
	var out []layout.Point
	for i := range counting.WholeWheels(t.Plan.WheelsBetween()) {
		out = append(out, counting.PlanPt(geom.Wheels(i+1), 0))
	}
	return out
}

// tyres draws the four tyres, dashed: the body hides them.
func (t topView) tyres() {
	for _, w := range t.vehicle.Wheels() {
		outer, inner := t.scene.Camera.Project(w.Centre), t.scene.Camera.Project(w.Inner)
		halfWide := geom.Wheels(math.Abs(float64(outer.Y-inner.Y))) / 2
		var path render.Path
		for i, q := range roundedRect(planPoint(outer.Lerp(inner, .5)), w.Radius, halfWide) {
			if at := t.OnPage(q); i == 0 {
				path = path.Move(at)
			} else {
				path = path.Line(at)
			}
		}
		t.Curve(hiddenTyreLine().For("wheels", "wheel-"+w.Name), path, 1)
	}
}

// measures draws the rule under the view and, if labelled, the dimensions and the widths behind the tail.
func (t topView) measures(words bool) error {
	low := *t.Drawing
	low.Origin.Y = t.Y(-t.half)
	if t.Wants("ticks") {
		low.GroundRule()
	}
	if !words {
		return nil
	}
	t.counts()
	if !t.Wants("ticks") {
		return nil
	}
	end, err := low.SpanLabels()
	if err != nil {
		return err
	}
	p := t.Plan
	t.BrokenDimension("wheelbase", t.X(0), t.X(p.Wheelbase()), end+4.2, t.DimensionLabels("wheelbase", p.Wheelbase(), ", axle to axle")...)
	t.BrokenDimension("length", t.X(p.Nose()), t.X(p.Tail()), end+10.2, t.DimensionLabels("length", p.Length(), ", nose to tail")...)
	return t.widthsBehind()
}

// counts numbers the counted wheels.
func (t topView) counts() {
	if t.Wants("between") {
		for i, w := range t.alongCentre() {
			t.CountIn(i+1, w, counting.Search{Wanted: counting.Offset{Dx: 0, Dy: .2}, Within: .4, Wide: 8})
		}
	}
}

// widthsBehind draws the widths behind the tail in steps, the widest innermost, so that each leader passes above those further out.
func (t topView) widthsBehind() error {
	rungs := t.widths()
	centres := t.placeLabels(rungs)
	if centres == nil { // at a small scale each takes one line
		t.Labels.Notes = false
		rungs = t.widths()
		centres = t.placeLabels(rungs)
	}
	if centres == nil {
		return counting.NoRoom("the widths")
	}
	x := t.X(t.Plan.Tail()) + 6
	lane := x + widthPitch*geom.MM(len(rungs))
	for i, r := range rungs {
		at, l := x+geom.MM(widthPitch*geom.MM(i)), r.Label
		id := strings.ReplaceAll(strings.TrimSpace(l.Lines[0][0].Text), " ", "-") // "belt-width"
		up, down := draft.Pt(at, t.Y(r.At/2)), draft.Pt(at, t.Y(-r.At/2))
		t.Line(draft.TickLine().For("widths", id), up, down)
		for _, end := range []draft.Point{up, down} {
			t.Line(draft.TickLine().For("widths", ""), end.Sub(draft.Pt(1.2, 0)), end.Add(draft.Pt(1.2, 0)))
		}
		top, mid := centres[i]-l.Height/2, centres[i]
		t.Leader(up.Add(draft.Pt(1.2, 0)), draft.Pt(lane, up.Y), draft.Pt(lane+3, mid), draft.Pt(lane+4, mid))
		t.Write("labels", l.TopAt(lane+5, top, render.Start))
	}
	return nil
}

// placeLabels returns the centres of the labels, or nil where there is no room.
func (t topView) placeLabels(rungs []counting.LadderEntry) []geom.MM {
	var anchors, sizes []geom.MM
	for _, r := range rungs {
		anchors, sizes = append(anchors, t.Y(r.At/2)), append(sizes, r.Label.Height)
	}
	return draft.Lane{Lo: t.Y(t.half) - 8, Hi: t.Y(-t.half), Gap: 1.2}.Centres(anchors, sizes)
}
