package flat

import (
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// The room round front and rear views, in mm.
const (
	endsAbove geom.MM = 27 // two dimensions and the view's name over the roof
	endsGap   geom.MM = 30 // between the two, for the rear lamp's words
)

// hasLabels reports whether the job's flat views carry words: then trace sheets keep their place.
func (f Sheets) hasLabels() bool {
	return slices.Contains(f.Kinds, request.Full) && f.Setting.Labels != request.NoLabels
}

// empty is an empty drawing for one kind of sheet of a flat view.
func (f Sheets) empty(c draft.Canvas, kind request.Kind) *counting.Drawing {
	d := counting.NewDrawing(f.Request, c, f.Plan, kind)
	d.Labels = counting.LabelLayout{Near: true, Notes: f.Setting.Labels == request.FullLabels}
	d.Checks = false
	return d
}

// endRoom measures what front and rear views need; along the ground they are counted as one.
func (f Sheets) endRoom(d *counting.Drawing) counting.Room {
	p, n := d.Plan, len(f.Views)
	r := counting.Room{Above: 4, Below: 4, TitleBlock: draft.TitleLineHeight, Nose: 8, Tail: 8 + endsGap*geom.MM(n-1), To: counting.WidthOf(p) * geom.Wheels(n), Top: p.Height() + .1}
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
func (f Sheets) ends(o counting.Page) (render.Page, error) {
	d, v := f.empty(o.Canvas, o.Kind), f.Views
	r := f.endRoom(d)
	stand, err := r.Place(o.Space, o.FromPaper(o.Wheel), 0)
	if err != nil {
		return render.Page{}, err
	}
	solid := newVehicle(o.Plan)
	var out []endView
	for i, one := range v {
		e := newEnd(d, solid, middleOf(d, stand, i), one == request.FrontView)
		e.first = i == 0
		e.LevelsEnd = e.X(e.half) + endsGap - 2
		if i == len(v)-1 {
			e.LevelsEnd = e.X(e.half) + counting.RuleGap
			e.RuleX = e.LevelsEnd + counting.RuleGap
		}
		out = append(out, e)
	}
	last := out[len(out)-1]
	if d.Wants("ground") {
		d.Line(counting.GroundLine().For("ground", "ground"), draft.Pt(out[0].X(-out[0].half)-6, stand.Origin.Y), draft.Pt(last.X(last.half)+6, stand.Origin.Y))
	}
	for i, e := range out {
		if i > 0 {
			d.Prefix = fmt.Sprintf("p%d-", i+1)
		}
		e.draw(f.Setting, o.Kind)
	}
	d.Prefix = ""
	if o.Kind == request.Full {
		last.scale(f.Setting.Labels != request.NoLabels)
		if f.hasLabels() {
			if err := labelEnds(out); err != nil {
				return render.Page{}, err
			}
		}
	}
	return f.finish(o, d), nil
}

// middleOf moves a place to the middle of the i-th view across.
func middleOf(d *counting.Drawing, stand counting.Place, i int) counting.Place {
	stand.Origin.X = stand.X(geom.Wheels(counting.WidthOf(d.Plan)*geom.Wheels(float64(i)+.5))) + geom.MM(geom.MM(i)*endsGap)
	return stand
}
