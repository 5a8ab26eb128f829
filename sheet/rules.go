package sheet

import (
	"fmt"
	"sort"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
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
	d.line("ticks", "rule-up", ruleLine(), point{X: x, Y: d.y(0)}, point{X: x, Y: d.y(d.plan.Height())})
	for k := 0; float64(k)/10 <= float64(d.plan.Height())+1e-9; k++ {
		at := point{X: x, Y: d.y(geom.Wheels(k) / 10)}
		d.line("ticks", fmt.Sprintf("tick-up-%d", k), tickLine(), at, at.Sub(point{X: tickLength(k)}))
		if numbered && k > 0 && k%10 == 0 {
			l := newLabel([]word{count(fmt.Sprint(k / 10))})
			d.write("labels", l, x-wholeTick-1, at.Y-l.lift(), render.End)
		}
	}
}

// rung is one line of the ladder beside the upright rule.
type rung struct {
	at    geom.Wheels
	from  geom.MM // outside the rule: where its leader starts
	label label
}

// ladder writes the levels and the two parts of the height beside the upright rule, in height order.
func (d *drawing) ladder() error { return d.climb(d.rungs()) }

// climb writes rungs beside the upright rule, the highest on top, each with a leader from its height.
func (d *drawing) climb(rungs []rung) error {
	sort.SliceStable(rungs, func(i, j int) bool { return rungs[i].at > rungs[j].at })
	var anchors, sizes []geom.MM
	for _, r := range rungs {
		anchors, sizes = append(anchors, d.y(r.at)), append(sizes, r.label.height)
	}
	centres := pushApart(anchors, sizes, .5, d.space.Min.Y, d.y(0))
	if centres == nil {
		return tight("the ladder of levels")
	}
	x := d.rail + ladderAt
	for i, r := range rungs {
		at, l := anchors[i], r.label
		top, mid := centres[i]-l.height/2, centres[i]
		if len(l.lines) == 1 {
			top = mid - l.lift()
		}
		d.leader(point{X: d.rail + r.from, Y: at}, point{X: d.rail + 3.4, Y: at}, point{X: x - 1.9, Y: mid}, point{X: x - .9, Y: mid})
		d.write("labels", l, x, top, render.Start)
	}
	return nil
}

// rungs lists what the ladder says, given the guides that are drawn.
func (d *drawing) rungs() []rung {
	p := d.plan
	var out []rung
	add := func(guide request.Guide, at geom.Wheels, from geom.MM, lines ...[]word) {
		if d.wants(guide) {
			out = append(out, rung{at, from, newLabel(lines...)})
		}
	}
	const atRule, atBracket = .3, bracketAt
	add("roof", p.Height(), atRule, []word{name("roof "), value(d.length(p.Height()))})
	var rises []word
	if p.BeltRise() != 0 && d.way.notes {
		verb := "rises "
		if p.BeltRise() < 0 {
			verb = "falls "
		}
		rises = []word{note(verb + angle(max(p.BeltRise(), -p.BeltRise())))}
	}
	add("belt", p.Belt(), atRule, []word{name("belt "), value(d.length(p.Belt()))}, rises)
	add("sill", p.Sill(), atRule, []word{name("sill "), value(d.length(p.Sill()))})
	add("ratio", (p.Belt()+p.Height())/2, atBracket, []word{count("1"), name(" part greenhouse")})
	add("ratio", (p.Sill()+p.Belt())/2, atBracket, []word{count(countOf(1 / p.GreenhouseToBody())), name(" parts body side")})
	if d.wants("checks") {
		_, end := d.angleEnds()
		add("checks", end.Y, atRule, []word{name("departure "), value(angle(p.Departure()))})
		if !d.way.near {
			add("checks", p.Clearance()-.02, atRule, []word{name("breakover "), value(angle(p.Breakover()))})
		}
	}
	if !d.way.near {
		add("clearance", p.Clearance(), atRule, []word{name("clearance "), value(d.length(p.Clearance()))})
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
		d.line("ratio", b.id, ruleLine(), point{X: x, Y: lo}, point{X: x, Y: hi})
		d.line("ratio", "", ruleLine(), point{X: x, Y: lo}, point{X: in, Y: lo})
		d.line("ratio", "", ruleLine(), point{X: x, Y: hi}, point{X: in, Y: hi})
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
	d.line("ticks", "rule-along", ruleLine(), point{X: d.x(d.plan.Nose()), Y: y}, point{X: d.x(d.plan.Tail()), Y: y})
	end := func(x geom.Wheels, id string) {
		d.line("ticks", id, tickLine(), point{X: d.x(x), Y: y - 5.5}, point{X: d.x(x), Y: y + 2})
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
		d.line("ticks", id(k), tickLine(), point{X: d.x(at), Y: y}, point{X: d.x(at), Y: y - tickLength(k)})
	}
}

// chainWords writes count and name under every span; a word more than 1 mm off its span gets a stem. It returns where the words end.
func (d *drawing) chainWords() (geom.MM, error) {
	spans := d.chain()
	var anchors, sizes []geom.MM
	var labels []label
	for _, s := range spans {
		l := newLabel([]word{count(s.number)}, []word{note(s.name)})
		labels = append(labels, l)
		anchors, sizes = append(anchors, d.x((s.lo+s.hi)/2)), append(sizes, l.width)
	}
	centres := pushApart(anchors, sizes, 2.5, d.space.Min.X, d.space.Max.X)
	if centres == nil {
		return 0, tight("the chain of counts")
	}
	y := d.y(0) + ruleGap
	top := y + 3
	for i, l := range labels {
		d.write("labels", l, centres[i], top, render.Middle)
		if off := centres[i] - anchors[i]; max(off, -off) > 1 {
			d.leader(point{X: anchors[i], Y: y + .6}, point{X: centres[i], Y: top - .2 + l.baselines[0] - l.caps[0]})
		}
	}
	return top + labels[0].height, nil
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
	short := []word{name(what + " "), value(d.length(hi - lo))}
	l := newLabel(append(short, note("  "+how+", "+d.otherwise(hi-lo))))
	if !d.way.notes || l.width > b-a-8 {
		l = newLabel(short)
	}
	words := l.box((a+b)/2, y-l.lift(), render.Middle)
	d.write("labels", l, (a+b)/2, y-l.lift(), render.Middle)
	for _, half := range [][2]geom.MM{{a, words.Min.X - 1.5}, {b, words.Max.X + 1.5}} {
		d.line("labels", "", tickLine(), point{X: half[0], Y: y}, point{X: half[1], Y: y})
		d.line("labels", "", tickLine(), point{X: half[0], Y: y - 1.5}, point{X: half[0], Y: y + 1.5})
	}
}

// atPlan is a point of the plan.
func atPlan(x, y geom.Wheels) layout.Point { return layout.Point{X: x, Y: y} }
