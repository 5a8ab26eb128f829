package flat

import (
	"strings"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/segments"
)

// tumblehomeLabel and lampLabel are the labels beside front and rear.
func tumblehomeLabel(d *counting.Drawing) draft.Label {
	angle := draft.Value(draft.FormatAngle(counting.TumblehomeOf(d.Plan))).For(segments.Tumblehome.String())
	return d.LabelWithNote([]draft.Word{draft.Name("tumblehome "), angle}, "glass leans in")
}

func lampLabel(d *counting.Drawing, what string, at geom.Wheels) draft.Label {
	return draft.NewLabel([]draft.Word{draft.Name(what), draft.Value(d.FormatLength(at)).For(keyOf(what))})
}

// labelEnds writes all labels of a sheet of front and rear views: on the first the widths of roof and belt.
func labelEnds(views []endView) error {
	last := views[len(views)-1]
	if err := last.WriteLadder(last.LadderEntries()); err != nil {
		return err
	}
	for _, e := range views {
		what := "from the rear"
		if e.front {
			what = "from the front"
		}
		top := e.Y(e.Plan.Height())
		e.Write("labels", draft.OneLine(draft.Heading(what, draft.Small)).TopAt(e.X(0), e.Y(e.Plan.Height()+.1)-endsAbove+1, render.Middle))
		if e.first {
			e.BrokenDimension(across("roof width", e.vehicle.RoofWidth()/2), top-roofWidthAt)
			e.BrokenDimension(across("belt width", e.vehicle.BeltWidth()/2), top-beltWidthAt)
			e.tumblehome()
		}
		e.lampHeight()
		if err := counted(e.Drawing, e.counts()); err != nil {
			return err
		}
	}
	return chainAcross(views)
}

// Heights of the width dimensions above the roof, in mm.
const (
	roofWidthAt geom.MM = 7
	beltWidthAt geom.MM = 14
)

// keyOf returns the figure that words name, or nothing: a width of the glass is no figure.
func keyOf(words string) string {
	f, known := segments.Lookup(strings.ReplaceAll(strings.TrimSpace(words), " ", "-"))
	if !known {
		return ""
	}
	return f.String()
}

// across is a dimension across the vehicle.
func across(name string, half geom.Wheels) counting.Dimension {
	return counting.Dimension{Name: name, From: -half, To: half, Key: keyOf(name)}
}

// tumblehome draws the line of the glass and, from the belt, the uprights that the belt width is measured to.
func (e endView) tumblehome() {
	p := e.Plan
	belt := e.vehicle.BeltWidth() / 2
	at := func(x, y geom.Wheels) draft.Point { return draft.Pt(e.X(x), e.Y(y)) }
	glass := func(y geom.Wheels) draft.Point {
		return at(-(belt - geom.Wheels(float64(y-p.Belt())*counting.TumblehomeOf(p).Tan())), y)
	}
	top := e.Y(p.Height()) - beltWidthAt
	e.Line(draft.TickLine().For("widths", "tumblehome-upright"), at(-belt, p.Belt()), draft.Pt(e.X(-belt), top))
	e.Line(draft.TickLine().For("widths", ""), at(belt, p.Belt()), draft.Pt(e.X(belt), top))
	e.Line(draft.RuleLine().For("widths", "tumblehome"), at(-belt, p.Belt()), glass(p.Height()+e.Wheels(5)))
	e.beside(glass(p.Belt()+(p.Height()-p.Belt())*.7), tumblehomeLabel(e.Drawing))
}

// lampHeight labels the height of the lamps left of the view.
func (e endView) lampHeight() {
	p := e.Plan
	if !e.Wants("lamps") {
		return
	}
	l, at := lampLabel(e.Drawing, "rear lamp ", p.RearLamp()), p.RearLamp()
	if e.front {
		l, at = lampLabel(e.Drawing, "front lamp ", p.FrontLamp()), p.FrontLamp()
	}
	e.beside(draft.Pt(max(e.lampLeft(), e.X(-e.half))+2, e.Y(at)), l)
}

// lampLeft is the left end of the lamps on the page.
func (e endView) lampLeft() geom.MM {
	from := e.X(0)
	for _, l := range e.seen.features {
		if l.Kind != view.LampLine {
			continue
		}
		for _, run := range l.runs {
			for _, s := range run {
				from = min(from, e.X(geom.Wheels(s.X)))
			}
		}
	}
	return from
}

// beside writes l left of the body, as near to the height of the anchor as there is room, or not at all.
func (e endView) beside(anchor draft.Point, l draft.Label) {
	x := e.X(-e.half) - 5
	for i := range 200 {
		off := geom.MM(i/2) * .5
		if i%2 == 1 {
			off = -off
		}
		y := anchor.Y + off
		if e.PlaceLabel(l.MiddleAt(x, y, render.End), .9, anchor, draft.Pt(x+4, anchor.Y), draft.Pt(x+.9, y)) {
			return
		}
	}
}

// roomForRest is the least remainder with room for its own number.
const roomForRest geom.Wheels = .4

// counts numbers the wheels between the tyres and reports whether all numbers found room.
func (e endView) counts() bool {
	if !e.Wants("between") {
		return true
	}
	r := e.betweenTyres()
	fits := e.NumberRow(r, counting.At(0, .2, .4))
	if rest := r.Rest(); rest >= roomForRest { // else its number is in the chain under the ground
		fits = e.CountIn("+ "+draft.FormatFixed(float64(rest), 2), r.Centre(r.Whole()), counting.At(rest/2-.5, .2, .46)) && fits
	}
	return fits
}

// chainAcross labels the chains under the views and draws the dimensions below them.
func chainAcross(views []endView) error {
	first := views[0]
	if !first.Wants("ticks") {
		return nil
	}
	var intervals []counting.Interval
	var middles []geom.MM
	for _, e := range views {
		intervals, middles = append(intervals, e.intervals()...), append(middles, e.Middles(e.intervals())...)
	}
	below, err := first.WriteIntervals(intervals, middles)
	if err != nil {
		return err
	}
	for i, e := range views {
		if i > 0 {
			e.Prefix = "p2-"
		}
		track, _ := e.axle()
		width := across("width", e.half)
		width.Meaning = "without mirrors"
		e.BrokenDimensions(below, [2]counting.Dimension{across("track", track/2), width})
		e.Prefix = ""
	}
	return nil
}
