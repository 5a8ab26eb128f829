package sheet

import (
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
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
func (job driver) isWritten() bool {
	return slices.Contains(job.Kinds, request.Full) && job.Setting.Labels != request.NoLabels
}

// flatDrawing is an empty drawing for one kind of sheet of a flat view.
func (job driver) flatDrawing(c canvas, p layout.Plan, kind request.Kind) *drawing {
	d := job.drawing(c, p, kind)
	d.way = way{near: true, notes: job.Setting.Labels == request.FullLabels}
	d.checks = false
	return d
}

// roomOfEnds measures what front and rear views need; along the ground they are counted as one.
func (job driver) roomOfEnds(d *drawing, n int) room {
	p := d.plan
	r := room{above: 4, below: 4, strip: footHeight, nose: 8, tail: 8 + endsGap*geom.MM(n-1), to: widthOf(p) * geom.Wheels(n), top: p.Height() + .1}
	if !slices.Contains(job.Kinds, request.Full) {
		return r
	}
	r.strip, r.below, r.tail = stripHeight, ruleGap+6, r.tail+ruleGap
	if !job.isWritten() {
		return r
	}
	r.above, r.below = endsAbove, belowGround
	for _, l := range []label{d.tumblehomeWords(), d.lampLabel("front lamp ", p.FrontLamp()), d.lampLabel("rear lamp ", p.RearLamp())} {
		r.nose = max(r.nose, l.width+8)
	}
	for _, rung := range d.rungs() {
		r.tail = max(r.tail, endsGap*geom.MM(n-1)+2*ruleGap+ladderAt+rung.label.width)
	}
	return r
}

// endsRoom is the largest wheel, in real millimetres on paper, at which front and rear have room.
func (job driver) endsRoom(c canvas, p layout.Plan, v request.ViewSet) geom.MM {
	r := job.roomOfEnds(job.flatDrawing(c, p, request.Full), len(v))
	return geom.MM(float64(r.largest(c.space)) * c.grow)
}

// ends draws front and rear, or one of them, on one ground line.
func (job driver) ends(o onePage, v request.ViewSet) (render.Page, error) {
	d := job.flatDrawing(o.canvas, o.plan, o.kind)
	r := job.roomOfEnds(d, len(v))
	stand, err := r.stand(o.space, o.real(o.wheel), 0)
	if err != nil {
		return render.Page{}, err
	}
	solid := newSubject(o.plan)
	var out []endView
	for i, one := range v {
		e := newEnd(d, solid, d.middleOf(stand, i), one == request.FrontView)
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
		d.line("ground", "ground", groundLine(), point{X: out[0].x(-out[0].half) - 6, Y: stand.origin.Y}, point{X: last.x(last.half) + 6, Y: stand.origin.Y})
	}
	for i, e := range out {
		if i > 0 {
			d.prefix = fmt.Sprintf("p%d-", i+1)
		}
		e.draw(job.Setting, o.kind)
	}
	d.prefix = ""
	if o.kind == request.Full {
		last.scale(job.Setting.Labels != request.NoLabels)
		if job.isWritten() {
			if err := writeEnds(out); err != nil {
				return render.Page{}, err
			}
		}
	}
	job.flatStrip(o, v)
	return o.finish(fmt.Sprintf("%s, %s, %s", o.plan.Profile.Title, viewWords(v), o.kind), d.board, o.fixed, job.Setting.Facing), nil
}

// middleOf moves a place to the middle of the i-th view across.
func (d *drawing) middleOf(stand place, i int) place {
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

// flatStrip writes the strip or foot of a flat view.
func (job driver) flatStrip(o onePage, v request.ViewSet) {
	p, title := o.plan, job.captionOf(o.plan, viewWords(v))
	if o.kind == request.Trace {
		o.foot(o.fixed, title, "wheel on paper "+onPaper(o.wheel), "facing "+string(job.Setting.Facing))
		return
	}
	columns := facts(p, o.wheel, job.Setting.Units)
	across := fact{"width", real(p, widthOf(p), job.Setting.Units)}
	switch {
	case v.Has(request.TopView):
		columns[2] = []fact{{"length", real(p, p.Length(), job.Setting.Units)}, across}
	case v.Has(request.ArrangementView):
		columns[2] = append(columns[2], across)
	default:
		columns[2] = []fact{{"height", real(p, p.Height(), job.Setting.Units)}, across}
	}
	o.strip(o.fixed, title, columns, o.number)
}
