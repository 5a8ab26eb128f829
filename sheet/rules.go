package sheet

import (
	"fmt"
	"sort"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// The graduated rules: one under the ground, one beside the tail. Ticks are this long for each tenth, half and whole wheel.
const (
	tenthTick geom.MM = 1.2
	halfTick  geom.MM = 2.2
	wholeTick geom.MM = 3.2
)

func tickLength(tenths int) geom.MM {
	switch {
	case tenths%10 == 0:
		return wholeTick
	case tenths%5 == 0:
		return halfTick
	}
	return tenthTick
}

// Where things stand beside and below the figure, in mm.
const (
	ruleGap   geom.MM = 8   // ground to rule, and outermost ghost to upright rule: the strip between belongs to ticks and numbers
	bracketAt geom.MM = 2.2 // outside the upright rule
	ladderAt  geom.MM = 8   // the ladder's words, outside the upright rule
)

// uprightRule draws the rule beside the tail with its whole numbers.
func (d *drawing) uprightRule(numbered bool) {
	x := d.rail
	d.Line("ticks", "rule-up", draft.RuleLine(), draft.Point{X: x, Y: d.y(0)}, draft.Point{X: x, Y: d.y(d.plan.Height())})
	for k := 0; float64(k)/10 <= float64(d.plan.Height())+1e-9; k++ {
		at := draft.Point{X: x, Y: d.y(geom.Wheels(k) / 10)}
		d.Line("ticks", fmt.Sprintf("tick-up-%d", k), draft.TickLine(), at, at.Sub(draft.Point{X: tickLength(k)}))
		if numbered && k > 0 && k%10 == 0 {
			l := draft.NewLabel([]draft.Word{draft.Count(fmt.Sprint(k / 10))})
			d.Write("labels", l, x-wholeTick-1, at.Y-l.Lift(), render.End)
		}
	}
}

// rung is one line of the ladder beside the upright rule.
type rung struct {
	at    geom.Wheels
	from  geom.MM // outside the rule: where its leader starts
	label draft.Label
}

// ladder writes the levels and the two parts of the height beside the upright rule, in height order.
func (d *drawing) ladder() error { return d.climb(d.rungs()) }

// climb writes rungs beside the upright rule, the highest on top, each with a leader from its height.
func (d *drawing) climb(rungs []rung) error {
	sort.SliceStable(rungs, func(i, j int) bool { return rungs[i].at > rungs[j].at })
	var anchors, sizes []geom.MM
	for _, r := range rungs {
		anchors, sizes = append(anchors, d.y(r.at)), append(sizes, r.label.Height)
	}
	centres := draft.PushApart(anchors, sizes, .5, d.Space.Min.Y, d.y(0))
	if centres == nil {
		return tight("the ladder of levels")
	}
	x := d.rail + ladderAt
	for i, r := range rungs {
		at, l := anchors[i], r.label
		top, mid := centres[i]-l.Height/2, centres[i]
		if len(l.Lines) == 1 {
			top = mid - l.Lift()
		}
		d.Leader(draft.Point{X: d.rail + r.from, Y: at}, draft.Point{X: d.rail + 3.4, Y: at}, draft.Point{X: x - 1.9, Y: mid}, draft.Point{X: x - .9, Y: mid})
		d.Write("labels", l, x, top, render.Start)
	}
	return nil
}

// rungs lists what the ladder says, given the guides that are drawn.
func (d *drawing) rungs() []rung {
	p := d.plan
	var out []rung
	add := func(guide request.Guide, at geom.Wheels, from geom.MM, lines ...[]draft.Word) {
		if d.wants(guide) {
			out = append(out, rung{at, from, draft.NewLabel(lines...)})
		}
	}
	const atRule, atBracket = .3, bracketAt
	add("roof", p.Height(), atRule, []draft.Word{draft.Name("roof "), draft.Value(d.length(p.Height()))})
	var rises []draft.Word
	if p.BeltRise() != 0 && d.way.notes {
		verb := "rises "
		if p.BeltRise() < 0 {
			verb = "falls "
		}
		rises = []draft.Word{draft.Note(verb + draft.Angle(max(p.BeltRise(), -p.BeltRise())))}
	}
	add("belt", p.Belt(), atRule, []draft.Word{draft.Name("belt "), draft.Value(d.length(p.Belt()))}, rises)
	add("sill", p.Sill(), atRule, []draft.Word{draft.Name("sill "), draft.Value(d.length(p.Sill()))})
	add("ratio", (p.Belt()+p.Height())/2, atBracket, []draft.Word{draft.Count("1"), draft.Name(" part greenhouse")})
	add("ratio", (p.Sill()+p.Belt())/2, atBracket, []draft.Word{draft.Count(draft.CountOf(1 / p.GreenhouseToBody())), draft.Name(" parts body side")})
	if d.wants("checks") {
		_, end := d.angleEnds()
		add("checks", end.Y, atRule, []draft.Word{draft.Name("departure "), draft.Value(draft.Angle(p.Departure()))})
		if !d.way.near {
			add("checks", p.Clearance()-.02, atRule, []draft.Word{draft.Name("breakover "), draft.Value(draft.Angle(p.Breakover()))})
		}
	}
	if !d.way.near {
		add("clearance", p.Clearance(), atRule, []draft.Word{draft.Name("clearance "), draft.Value(d.length(p.Clearance()))})
	}
	return out
}

// brackets draws the two parts of the height, greenhouse and body side, outside the upright rule.
func (d *drawing) brackets() {
	p := d.plan
	for _, b := range []struct {
		id     string
		lo, hi geom.Wheels
	}{{"body-side", p.Sill(), p.Belt()}, {"greenhouse", p.Belt(), p.Height()}} {
		lo, hi := d.y(b.lo)-.6, d.y(b.hi)+.6
		x, in := d.rail+bracketAt, d.rail+.7
		d.Line("ratio", b.id, draft.RuleLine(), draft.Point{X: x, Y: lo}, draft.Point{X: x, Y: hi})
		d.Line("ratio", "", draft.RuleLine(), draft.Point{X: x, Y: lo}, draft.Point{X: in, Y: lo})
		d.Line("ratio", "", draft.RuleLine(), draft.Point{X: x, Y: hi}, draft.Point{X: in, Y: hi})
	}
}

// span is one link of the chain along the ground. Its ticks count tenths from its start, or backwards from its end.
type span struct {
	lo, hi    geom.Wheels
	backwards bool
	ticks     string // id of its ticks, numbered from first
	first     int
	number    string
	name      string
}

// chain lists the spans from nose to tail; the count starts afresh at every tyre edge.
func (d *drawing) chain() []span {
	p := d.plan
	n := wholeWheels(p.WheelsBetween())
	counted, gap := geom.Wheels(.5+float64(n)), geom.Wheels(.5+p.WheelsBetween())
	spans := []span{
		{p.Nose(), -.5, true, "tick-front-overhang", 0, d.length(p.FrontOverhang()), "front overhang"},
		{-.5, .5, false, "tick-front-wheel", 0, d.wheelCount(1), "front wheel"},
	}
	if n > 0 {
		spans = append(spans, span{.5, counted, false, "tick", 0, fmt.Sprint(n), "wheels between"})
	}
	if rest := geom.Wheels(p.WheelsBetween() - float64(n)); rest > leastRest {
		spans = append(spans, span{counted, gap, false, "tick", 10 * n, "+ " + d.length(rest), "left over"})
	}
	return append(spans,
		span{gap, p.RearEdge(), false, "tick-rear-wheel", 0, d.wheelCount(2 * p.RearRadius()), "rear wheel"},
		span{p.RearEdge(), p.Tail(), false, "tick-rear-overhang", 0, d.length(p.RearOverhang()), "rear overhang"})
}

// groundRule draws the rule under the ground: ticks upwards, long ones at the ends of every span.
func (d *drawing) groundRule() {
	y := d.y(0) + ruleGap
	spans := d.chain()
	d.Line("ticks", "rule-along", draft.RuleLine(), draft.Point{X: d.x(d.plan.Nose()), Y: y}, draft.Point{X: d.x(d.plan.Tail()), Y: y})
	end := func(x geom.Wheels, id string) {
		d.Line("ticks", id, draft.TickLine(), draft.Point{X: d.x(x), Y: y - 5.5}, draft.Point{X: d.x(x), Y: y + 2})
	}
	end(d.plan.Nose(), "tick-nose")
	for _, s := range spans {
		d.spanTicks(s, y, end)
	}
	end(d.plan.Tail(), "tick-tail")
}

// spanTicks draws the ticks of one span: its start as an end mark, then its tenths.
func (d *drawing) spanTicks(s span, y geom.MM, end func(geom.Wheels, string)) {
	id := func(k int) string { return fmt.Sprintf("%s-%d", s.ticks, s.first+k) }
	if s.backwards {
		// The nose's own mark is drawn already; the tyre's edge belongs to the next span.
	} else {
		end(s.lo, id(0))
	}
	for k := 1; float64(k)/10 < float64(s.hi-s.lo)-1e-6; k++ {
		at := s.lo + geom.Wheels(k)/10
		if s.backwards {
			at = s.hi - geom.Wheels(k)/10
		}
		d.Line("ticks", id(k), draft.TickLine(), draft.Point{X: d.x(at), Y: y}, draft.Point{X: d.x(at), Y: y - tickLength(k)})
	}
}

// chainWords writes count and name under every span; a word more than 1 mm off its span gets a stem. It returns where the words end.
func (d *drawing) chainWords() (geom.MM, error) {
	spans := d.chain()
	var anchors, sizes []geom.MM
	var labels []draft.Label
	for _, s := range spans {
		l := draft.NewLabel([]draft.Word{draft.Count(s.number)}, []draft.Word{draft.Note(s.name)})
		labels = append(labels, l)
		anchors, sizes = append(anchors, d.x((s.lo+s.hi)/2)), append(sizes, l.Width)
	}
	centres := draft.PushApart(anchors, sizes, 2.5, d.Space.Min.X, d.Space.Max.X)
	if centres == nil {
		return 0, tight("the chain of counts")
	}
	y := d.y(0) + ruleGap
	top := y + 3
	for i, l := range labels {
		d.Write("labels", l, centres[i], top, render.Middle)
		if off := centres[i] - anchors[i]; max(off, -off) > 1 {
			d.Leader(draft.Point{X: anchors[i], Y: y + .6}, draft.Point{X: centres[i], Y: top - .2 + l.Baselines[0] - l.Caps[0]})
		}
	}
	return top + labels[0].Height, nil
}

// lengths writes wheelbase and length below the chain, on dimension lines broken for their words, and returns where they end.
func (d *drawing) lengths(top geom.MM) geom.MM {
	p := d.plan
	d.dimension("wheelbase", 0, p.Wheelbase(), top+4.2, "axle to axle")
	d.dimension("length", p.Nose(), p.Tail(), top+10.2, "nose to tail")
	return top + 13.2
}

func (d *drawing) dimension(what string, lo, hi geom.Wheels, y geom.MM, how string) {
	a, b := d.x(lo), d.x(hi)
	short := []draft.Word{draft.Name(what + " "), draft.Value(d.length(hi - lo))}
	l := draft.NewLabel(append(short, draft.Note("  "+how+", "+d.otherwise(hi-lo))))
	if !d.way.notes || l.Width > b-a-8 {
		l = draft.NewLabel(short)
	}
	words := l.Box((a+b)/2, y-l.Lift(), render.Middle)
	d.Write("labels", l, (a+b)/2, y-l.Lift(), render.Middle)
	for _, half := range [][2]geom.MM{{a, words.Min.X - 1.5}, {b, words.Max.X + 1.5}} {
		d.Line("labels", "", draft.TickLine(), draft.Point{X: half[0], Y: y}, draft.Point{X: half[1], Y: y})
		d.Line("labels", "", draft.TickLine(), draft.Point{X: half[0], Y: y - 1.5}, draft.Point{X: half[0], Y: y + 1.5})
	}
}

// atPlan is a point of the plan.
func atPlan(x, y geom.Wheels) layout.Point { return layout.Point{X: x, Y: y} }
