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
	endsAbove geom.MM = 27 // above the roof: two dimensions and the name of the view
	endsGap   geom.MM = 30 // between the two: the labels of the rear lamp
)

// hasLabels reports whether the full sheet has labels: trace sheets then keep room for them, so that both register.
func (f Sheets) hasLabels() bool {
	return slices.Contains(f.Kinds, request.Full) && f.Setting.Labels != request.NoLabels
}

// empty returns an empty drawing for one kind of sheet.
func (f Sheets) empty(c draft.Canvas, kind request.Kind) *counting.Drawing {
	d := counting.NewDrawing(f.Request, c, f.Plan, kind)
	d.Labels = counting.LabelLayout{Near: true, Notes: f.Setting.Labels == request.FullLabels}
	d.Checks = false
	return d
}

// endRoom returns the room that n of front and rear need. Along the ground they count as one.
func (f Sheets) endRoom(d *counting.Drawing, n int) counting.Room {
	p := d.Plan
	r := counting.Room{
		Above: 4, Below: 4, Strip: draft.FootHeight, Nose: 8, Tail: 8 + endsGap*geom.MM(n-1),
		To: counting.WidthOf(p) * geom.Wheels(n), Top: p.Height() + .1,
	}
	if !slices.Contains(f.Kinds, request.Full) {
		return r
	}
	r.Strip, r.Below, r.Tail = draft.StripHeight, counting.RuleGap+6, r.Tail+counting.RuleGap
	if !f.hasLabels() {
		return r
	}
	r.Above, r.Below = endsAbove, counting.BelowGround
	for _, l := range []draft.Label{tumblehomeLabel(d), lampLabel(d, "front lamp ", p.FrontLamp()), lampLabel(d, "rear lamp ", p.RearLamp())} {
		r.Nose = max(r.Nose, l.Width+8)
	}
	for _, rung := range d.LadderEntries() {
		r.Tail = max(r.Tail, endsGap*geom.MM(n-1)+2*counting.RuleGap+counting.LadderAt+rung.Label.Width)
	}
	return r
}

// ends draws front or rear, or both on one ground line.
func (f Sheets) ends(o counting.Page) (render.Page, error) {
	d, v := f.empty(o.Canvas, o.Kind), f.Views
	r := f.endRoom(d, len(v))
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
		from, to := out[0].X(-out[0].half)-6, last.X(last.half)+6
		d.Line("ground", "ground", counting.GroundLine(), draft.Pt(from, stand.Origin.Y), draft.Pt(to, stand.Origin.Y))
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

// middleOf returns the place of the i-th view: its centre line.
func middleOf(d *counting.Drawing, stand counting.Place, i int) counting.Place {
	stand.Origin.X = stand.X(geom.Wheels(counting.WidthOf(d.Plan)*geom.Wheels(float64(i)+.5))) + geom.MM(geom.MM(i)*endsGap)
	return stand
}

// viewName names the views of a sheet.
func viewName(v request.ViewSet) string {
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

// finish writes the title strip and returns the page.
func (f Sheets) finish(o counting.Page, d *counting.Drawing) render.Page {
	f.titleStrip(o)
	title := fmt.Sprintf("%s, %s, %s", o.Plan.Profile.Title, viewName(f.Views), o.Kind)
	return o.Finish(title, d.Board, o.Fixed, f.Setting.Facing)
}

// titleStrip writes the title strip, or the foot of a trace sheet.
func (f Sheets) titleStrip(o counting.Page) {
	p, title := o.Plan, counting.Caption(f.Request, o.Plan, viewName(f.Views))
	if o.Kind == request.Trace {
		o.Foot(o.Fixed, title, "wheel on paper "+draft.FormatMM(o.Wheel), "facing "+string(f.Setting.Facing))
		return
	}
	columns := counting.Facts(p, o.Wheel, f.Setting.Units)
	across := draft.Fact{Name: "width", Value: counting.FormatOnVehicle(p, counting.WidthOf(p), f.Setting.Units)}
	switch {
	case f.Views.Has(request.TopView):
		columns[2] = []draft.Fact{{Name: "length", Value: counting.FormatOnVehicle(p, p.Length(), f.Setting.Units)}, across}
	case f.Views.Has(request.ArrangementView):
		columns[2] = append(columns[2], across)
	default:
		columns[2] = []draft.Fact{{Name: "height", Value: counting.FormatOnVehicle(p, p.Height(), f.Setting.Units)}, across}
	}
	o.Strip(o.Fixed, title, columns, o.Number)
}
