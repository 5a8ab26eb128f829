package flat

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// topView is the view from above. In its place x points rearwards from the front axle and y up on the page: to the right of the vehicle.
type topView struct {
	figure
	foot     geom.MM     // where the rule is measured from: the side of the body or of the wheels counted beside it, on the page
	countsAt geom.Wheels // of the counted wheels' centres: 0 lays them along the centre line
}

// widthBar is a width that is measured behind the tail.
type widthBar struct {
	id    string
	width geom.Wheels
	label draft.Label
}

// widthBars lists the widths, the widest first.
func widthBars(d *counting.Drawing, solid *view.Solid) []widthBar {
	p := d.Plan
	var out []widthBar
	add := func(what string, l geom.Wheels, remark ...draft.Word) {
		var lines [][]draft.Word // as narrow as may be: the bars stand side by side
		for _, name := range strings.Fields(what) {
			lines = append(lines, []draft.Word{draft.Name(name)})
		}
		lines = append(lines, []draft.Word{draft.Value(d.FormatLength(l)).For(keyOf(what))})
		if d.Labels.Notes {
			lines = append(lines, []draft.Word{draft.Note(d.FormatSecondary(l))}, remark)
		}
		out = append(out, widthBar{strings.ReplaceAll(what, " ", "-"), l, draft.NewLabel(lines...)})
	}
	add("width", counting.WidthOf(p), draft.Note("no mirrors"))
	add("belt width", solid.BeltWidth())
	add("track", solid.Track(p.Profile.Wheel))
	if p.TyreRatio() != 1 {
		add("rear track", solid.Track(p.Profile.RearWheel))
	}
	add("roof width", solid.RoofWidth())
	slices.SortStableFunc(out, func(a, b widthBar) int { return cmp.Compare(b.width, a.width) })
	return out
}

// The distances round the view from above, in mm: mirror to counted wheels, tail to the first width, and a width to the next.
const (
	besideBody geom.MM = 1.5 // and the mirror
	behindTail geom.MM = 4.5
	widthGap   geom.MM = 2.5
	shortBar   geom.MM = 3 // of a width's line on either side of its words
)

// countsBeside returns how much of the page the counted wheels take beside the body: so many wheels, and so many mm.
func (f Sheets) countsBeside(d *counting.Drawing) (geom.Wheels, geom.MM) {
	if !slices.Contains(f.Kinds, request.Full) || !d.Wants("between") {
		return 0, 0
	}
	return 1 + view.MirrorReach, besideBody
}

// topRoom returns the room that the view from above needs.
func (f Sheets) topRoom(d *counting.Drawing) counting.Room {
	p := d.Plan
	r := counting.Room{Above: 10, Below: 8, TitleBlock: draft.TitleLineHeight, Nose: 6, Tail: 6,
		From: p.Nose(), To: p.Tail(), Top: counting.WidthOf(p)}
	if !slices.Contains(f.Kinds, request.Full) {
		return r
	}
	wheels, gap := f.countsBeside(d)
	r.Top, r.Above = r.Top+wheels, r.Above+gap
	r.TitleBlock, r.Below = draft.TitleBlockHeight, counting.RuleGap+6
	if f.hasLabels() {
		r.Below = counting.BelowGround
		r.Tail = behindTail - widthGap
		for _, bar := range widthBars(d, f.Vehicle.Solid) {
			r.Tail += bar.label.Width + widthGap
		}
	}
	return r
}

// top draws the view from above.
func (f Sheets) top(o counting.Page, d *counting.Drawing) error {
	at := d.Place
	wheels, gap := f.countsBeside(d)
	at.Origin.Y -= at.MM(wheels+counting.WidthOf(o.Plan)/2) + gap
	t := topView{figure: newFigure(d, f.Vehicle, at, f.Vehicle.from(request.TopView)()), foot: d.Origin.Y}
	if wheels > 0 {
		t.countsAt = at.Wheels(at.Origin.Y-d.Origin.Y) + .5
	}
	t.draw(f.Setting, o.Kind)
	if o.Kind != request.Full {
		return nil
	}
	return t.measures(f.hasLabels())
}

// draw draws the view without words.
func (t topView) draw(s request.Setting, kind request.Kind) {
	p := t.Plan
	if drawsBody(t.Drawing, s) {
		t.body()
	}
	t.features(true)
	if t.Wants("wheels") {
		t.tyres()
		for i, id := range []string{"axle-front", "axle-rear"} {
			x := t.X([]geom.Wheels{0, p.Wheelbase()}[i])
			t.Line(counting.AxleLine().For("wheels", id), draft.Pt(x, t.Y(t.half)-axleBeyond), draft.Pt(x, t.Y(-t.half)+axleBeyond))
		}
	}
	t.Line(counting.AxleLine().For("wheels", "centre-line"), draft.Pt(t.X(p.Nose())-5, t.Y(0)), draft.Pt(t.X(p.Tail())+4, t.Y(0)))
	if t.Wants("between") && kind == request.Full {
		t.DrawRow(t.betweenTyres())
	}
}

// betweenTyres returns the row of counted wheels lying flat.
func (t topView) betweenTyres() counting.Row {
	r := t.BetweenTyres()
	r.Y, r.Least = t.countsAt, leastArc
	return r
}

// tyres draws the four tyres, dashed: the body hides them.
func (t topView) tyres() {
	for _, w := range t.vehicle.Wheels() {
		outer, inner := t.seen.Camera.Project(w.Centre), t.seen.Camera.Project(w.Inner)
		halfWide := geom.Wheels(math.Abs(float64(outer.Y-inner.Y))) / 2
		outline := render.Path{}.Lines(slice.Map(roundedRect(planPoint(outer.Lerp(inner, .5)), w.Radius, halfWide), t.OnPage)...)
		t.Curve(hiddenTyreLine().For("wheels", "wheel-"+w.Name), outline, 1)
	}
}

// measures draws the rule under the view and, if labelled, the dimensions and the widths behind the tail.
func (t topView) measures(words bool) error {
	low := *t.Drawing
	low.Origin.Y = t.foot
	if t.Wants("ticks") {
		low.GroundRule(low.Intervals(), "rule-along", "tick-nose", "tick-tail")
	}
	if !words {
		return nil
	}
	if err := counted(t.Drawing, t.counts()); err != nil || !t.Wants("ticks") {
		return err
	}
	end, err := low.WriteIntervals(low.Intervals(), low.Middles(low.Intervals()))
	if err != nil {
		return err
	}
	t.BrokenDimensions(end, t.LengthDimensions())
	return t.widthsBehind()
}

// counts numbers the counted wheels and reports whether all numbers found room.
func (t topView) counts() bool {
	wanted := counting.At(0, .2, .4)
	if t.countsAt != 0 {
		wanted = counting.At(0, 0, .4) // no line runs through the wheels there
	}
	return !t.Wants("between") || t.NumberRow(t.betweenTyres(), wanted)
}

// widthsBehind draws the widths behind the tail, the widest next to it, each broken for its own words. Notes give way where one is too
// short for them. It fails where one is too short for its name and number.
func (t topView) widthsBehind() error {
	bars := widthBars(t.Drawing, t.vehicle.Solid)
	if slices.ContainsFunc(bars, func(b widthBar) bool { return t.MM(b.width) < b.label.Height+2*shortBar }) {
		t.Labels.Notes = false
	}
	x := t.X(t.Plan.Tail()) + behindTail
	for _, bar := range widthBars(t.Drawing, t.vehicle.Solid) {
		at := x + bar.label.Width/2
		up, down := draft.Pt(at, t.Y(bar.width/2)), draft.Pt(at, t.Y(-bar.width/2))
		words := bar.label.TopAt(at, t.Y(0)-bar.label.Height/2, render.Middle)
		box := words.Box().Grow(1)
		if words.Top < up.Y+shortBar {
			return counting.NoRoom("the widths")
		}
		path := render.Path{}.Move(up).Line(draft.Pt(at, box.Min.Y)).Move(draft.Pt(at, box.Max.Y)).Line(down)
		t.Curve(draft.TickLine().For("widths", bar.id), path, 1)
		t.Tick(draft.TickLine().For("widths", ""), up, draft.Pt(1.2, 0))
		t.Tick(draft.TickLine().For("widths", ""), down, draft.Pt(1.2, 0))
		t.Write("labels", words)
		x += bar.label.Width + widthGap
	}
	return nil
}
