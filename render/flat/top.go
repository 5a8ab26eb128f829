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
type topView struct{ figure }

// widthLabels lists the widths that are labelled behind the tail, the widest first.
func widthLabels(d *counting.Drawing, solid *view.Solid) []counting.LadderEntry {
	p := d.Plan
	var out []counting.LadderEntry
	add := func(what string, l geom.Wheels, how string) {
		words := []draft.Word{draft.Name(what + " "), draft.Value(d.FormatLength(l))}
		out = append(out, counting.LadderEntry{At: l, Label: d.LabelWithNote(words, d.FormatSecondary(l)+how)})
	}
	add("width", counting.WidthOf(p), ", without mirrors")
	add("belt width", solid.BeltWidth(), "")
	add("track", solid.Track(p.Profile.Wheel), "")
	if p.TyreRatio() != 1 {
		add("rear track", solid.Track(p.Profile.RearWheel), "")
	}
	add("roof width", solid.RoofWidth(), "")
	slices.SortStableFunc(out, func(a, b counting.LadderEntry) int { return cmp.Compare(b.At, a.At) })
	return out
}

// widthPitch is the distance between the widths behind the tail.
const widthPitch geom.MM = 4

// topRoom returns the room that the view from above needs.
func (f Sheets) topRoom(d *counting.Drawing) counting.Room {
	p := d.Plan
	r := counting.Room{Above: 10, Below: 8, TitleBlock: draft.TitleLineHeight, Nose: 8, Tail: 8,
		From: p.Nose(), To: p.Tail(), Top: counting.WidthOf(p)}
	if !slices.Contains(f.Kinds, request.Full) {
		return r
	}
	r.TitleBlock, r.Below = draft.TitleBlockHeight, counting.RuleGap+6
	if f.hasLabels() {
		r.Below = counting.BelowGround
		entries := widthLabels(d, f.Vehicle.Solid)
		for _, e := range entries {
			r.Tail = max(r.Tail, 6+widthPitch*geom.MM(len(entries))+6+e.Label.Width)
		}
	}
	return r
}

// top draws the view from above.
func (f Sheets) top(o counting.Page, d *counting.Drawing) error {
	at := d.Place
	at.Origin.Y -= at.MM(counting.WidthOf(o.Plan) / 2)
	t := topView{newFigure(d, f.Vehicle, at, f.Vehicle.top())}
	t.draw(f.Setting, o.Kind)
	if o.Kind != request.Full {
		return nil
	}
	return t.measures(f.hasLabels())
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
		for i, id := range []string{"axle-front", "axle-rear"} {
			x := t.X([]geom.Wheels{0, p.Wheelbase()}[i])
			t.Line(counting.AxleLine().For("wheels", id), draft.Pt(x, t.Y(t.half)-4), draft.Pt(x, t.Y(-t.half)+4))
		}
	}
	t.Line(counting.AxleLine().For("wheels", "centre-line"), draft.Pt(t.X(p.Nose())-5, t.Y(0)), draft.Pt(t.X(p.Tail())+4, t.Y(0)))
	if t.Wants("between") && kind == request.Full {
		t.DrawRow(t.betweenTyres())
	}
}

// betweenTyres returns the row of counted wheels lying flat along the centre line.
func (t topView) betweenTyres() counting.Row {
	r := t.BetweenTyres()
	r.Y, r.Least = 0, leastArc
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
	low.Origin.Y = t.Y(-t.half)
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
	return !t.Wants("between") || t.NumberRow(t.betweenTyres(), counting.At(0, .2, .4))
}

// widthsBehind draws the widths behind the tail in steps, the widest innermost, so that each leader passes above those further out.
func (t topView) widthsBehind() error {
	entries, centres := t.placeWidths()
	if centres == nil { // at a small scale each takes one line
		t.Labels.Notes = false
		entries, centres = t.placeWidths()
	}
	if centres == nil {
		return counting.NoRoom("the widths")
	}
	x := t.X(t.Plan.Tail()) + 6
	lane := x + widthPitch*geom.MM(len(entries))
	for i, r := range entries {
		at, l := x+geom.MM(widthPitch*geom.MM(i)), r.Label
		id := strings.ReplaceAll(strings.TrimSpace(l.Lines[0][0].Text), " ", "-") // "belt-width"
		up, down := draft.Pt(at, t.Y(r.At/2)), draft.Pt(at, t.Y(-r.At/2))
		t.Line(draft.TickLine().For("widths", id), up, down)
		t.Tick(draft.TickLine().For("widths", ""), up, draft.Pt(1.2, 0))
		t.Tick(draft.TickLine().For("widths", ""), down, draft.Pt(1.2, 0))
		mid := centres[i]
		t.Leader(up.Add(draft.Pt(1.2, 0)), draft.Pt(lane, up.Y), draft.Pt(lane+3, mid), draft.Pt(lane+4, mid))
		t.Write("labels", l.TopAt(lane+5, mid-l.Height/2, render.Start))
	}
	return nil
}

// placeWidths returns the labels of the widths and where their centres are, or no centres where there is no room.
func (t topView) placeWidths() ([]counting.LadderEntry, []geom.MM) {
	entries := widthLabels(t.Drawing, t.vehicle.Solid)
	lane := draft.Lane{Lo: t.Y(t.half) - 8, Hi: t.Y(-t.half), Gap: 1.2}
	_, centres := draft.Distribute(entries, lane, func(e counting.LadderEntry) (geom.MM, geom.MM) { return t.Y(e.At / 2), e.Label.Height })
	return entries, centres
}
