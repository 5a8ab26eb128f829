package sheet

import (
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// The room round front and rear views, in mm.
const (
	endsAbove geom.MM = 27 // two dimensions and the view's name over the roof
	endsGap   geom.MM = 30 // between the two, for the rear lamp's words
)

// widthOf and tumblehomeOf are the two figures across the vehicle that a plan only keeps among its values.
func widthOf(p layout.Plan) geom.Wheels       { return geom.Wheels(p.Value(segments.Width)) }
func tumblehomeOf(p layout.Plan) geom.Degrees { return geom.Degrees(p.Value(segments.Tumblehome)) }

// isWritten reports whether the job's flat views carry words: then trace sheets keep their place.
func (f flatView) isWritten() bool {
	return slices.Contains(f.Kinds, request.Full) && f.Setting.Labels != request.NoLabels
}

// empty is an empty drawing for one kind of sheet of a flat view.
func (f flatView) empty(c draft.Canvas, kind request.Kind) *drawing {
	d := newDrawing(f.Request, c, f.plan, kind)
	d.way = way{near: true, notes: f.Setting.Labels == request.FullLabels}
	d.checks = false
	return d
}

// roomOfEnds measures what front and rear views need; along the ground they are counted as one.
func (f flatView) roomOfEnds(d *drawing, n int) room {
	p := d.plan
	r := room{above: 4, below: 4, strip: draft.FootHeight, nose: 8, tail: 8 + endsGap*geom.MM(n-1), to: widthOf(p) * geom.Wheels(n), top: p.Height() + .1}
	if !slices.Contains(f.Kinds, request.Full) {
		return r
	}
	r.strip, r.below, r.tail = draft.StripHeight, ruleGap+6, r.tail+ruleGap
	if !f.isWritten() {
		return r
	}
	r.above, r.below = endsAbove, belowGround
	for _, l := range []draft.Label{tumblehomeWords(d), lampLabel(d, "front lamp ", p.FrontLamp()), lampLabel(d, "rear lamp ", p.RearLamp())} {
		r.nose = max(r.nose, l.Width+8)
	}
	for _, rung := range d.rungs() {
		r.tail = max(r.tail, endsGap*geom.MM(n-1)+2*ruleGap+ladderAt+rung.label.Width)
	}
	return r
}

// ends draws front and rear, or one of them, on one ground line.
func (f flatView) ends(o onePage) (render.Page, error) {
	d, v := f.empty(o.Canvas, o.kind), f.views
	r := f.roomOfEnds(d, len(v))
	stand, err := r.stand(o.Space, o.Real(o.wheel), 0)
	if err != nil {
		return render.Page{}, err
	}
	solid := newSubject(o.plan)
	var out []endView
	for i, one := range v {
		e := newEnd(d, solid, middleOf(d, stand, i), one == request.FrontView)
		e.first = i == 0
		e.reach = e.x(e.half) + endsGap - 2
		if i == len(v)-1 {
			e.reach = e.x(e.half) + ruleGap
			e.rail = e.reach + ruleGap
		}
		out = append(out, e)
	}
	last := out[len(out)-1]
	if d.wants("ground") {
		d.Line("ground", "ground", groundLine(), draft.Point{X: out[0].x(-out[0].half) - 6, Y: stand.origin.Y}, draft.Point{X: last.x(last.half) + 6, Y: stand.origin.Y})
	}
	for i, e := range out {
		if i > 0 {
			d.Prefix = fmt.Sprintf("p%d-", i+1)
		}
		e.draw(f.Setting, o.kind)
	}
	d.Prefix = ""
	if o.kind == request.Full {
		last.scale(f.Setting.Labels != request.NoLabels)
		if f.isWritten() {
			if err := writeEnds(out); err != nil {
				return render.Page{}, err
			}
		}
	}
	f.strip(o)
	return o.Finish(fmt.Sprintf("%s, %s, %s", o.plan.Profile.Title, viewWords(v), o.kind), d.Board, o.fixed, f.Setting.Facing), nil
}

// middleOf moves a place to the middle of the i-th view across.
func middleOf(d *drawing, stand place, i int) place {
	stand.origin.X = stand.x(geom.Wheels(widthOf(d.plan)*geom.Wheels(float64(i)+.5))) + geom.MM(geom.MM(i)*endsGap)
	return stand
}

// viewWords says what a sheet shows.
func viewWords(v request.ViewSet) string {
	switch {
	case len(v) == 2:
		return "front and rear view"
	case v.Has(request.TopView):
		return "view from above"
	case v.Has(request.ArrangementView):
		return "side, front, rear and top"
	}
	return string(v[0]) + " view"
}

// strip writes the strip or foot of a flat view.
func (f flatView) strip(o onePage) {
	v := f.views
	p, title := o.plan, caption(f.Request, o.plan, viewWords(f.views))
	if o.kind == request.Trace {
		o.Foot(o.fixed, title, "wheel on paper "+draft.OnPaper(o.wheel), "facing "+string(f.Setting.Facing))
		return
	}
	columns := facts(p, o.wheel, f.Setting.Units)
	across := draft.Fact{Name: "width", Value: real(p, widthOf(p), f.Setting.Units)}
	switch {
	case v.Has(request.TopView):
		columns[2] = []draft.Fact{{Name: "length", Value: real(p, p.Length(), f.Setting.Units)}, across}
	case v.Has(request.ArrangementView):
		columns[2] = append(columns[2], across)
	default:
		columns[2] = []draft.Fact{{Name: "height", Value: real(p, p.Height(), f.Setting.Units)}, across}
	}
	o.Strip(o.fixed, title, columns, o.number)
}
