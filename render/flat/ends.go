package flat

import (
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// The room round front and rear views, in mm.
const (
	endsAbove geom.MM = 27 // two dimensions and the view's name over the roof
	endsGap   geom.MM = 30 // between the two, for the rear lamp's words
)

// endRoom measures what front and rear views need; along the ground they are counted as one.
func (f Sheets) endRoom(d *counting.Drawing) counting.Room {
	p, n := d.Plan, len(f.Views)
	r := counting.Room{Above: 4, Below: 4, TitleBlock: draft.TitleLineHeight, Nose: 8, Tail: 8 + endsGap*geom.MM(n-1),
		To: counting.WidthOf(p) * geom.Wheels(n), Top: p.Height() + .1}
	if !slices.Contains(f.Kinds, request.Full) {
		return r
	}
	r.TitleBlock, r.Below, r.Tail = draft.TitleBlockHeight, counting.RuleGap+6, r.Tail+counting.RuleGap
	if !f.hasLabels() {
		return r
	}
	r.Above, r.Below = endsAbove, counting.BelowGround
	for _, l := range []draft.Label{tumblehomeLabel(d), lampLabel(d, "front lamp ", p.FrontLamp()), lampLabel(d, "rear lamp ", p.RearLamp())} {
		r.Nose = max(r.Nose, l.Width+8)
	}
	for _, e := range d.LadderEntries() {
		r.Tail = max(r.Tail, endsGap*geom.MM(n-1)+2*counting.RuleGap+counting.LadderAt+e.Label.Width)
	}
	return r
}

// ends draws front and rear, or one of them, on one ground line.
func (f Sheets) ends(o counting.Page, d *counting.Drawing) error {
	solid := newVehicle(o.Plan)
	var out []endView
	for i, v := range f.Views {
		at, width := d.Place, counting.WidthOf(d.Plan)
		at.Origin.X = at.X(geom.Wheels(width*geom.Wheels(float64(i)+.5))) + geom.MM(geom.MM(i)*endsGap)
		e := newEnd(d, solid, at, v == request.FrontView)
		e.first = i == 0
		e.LevelsEnd = e.X(e.half) + endsGap - 2
		if i == len(f.Views)-1 {
			e.LevelsEnd = e.X(e.half) + counting.RuleGap
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
