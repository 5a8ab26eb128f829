package counting

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// The graduated rules: one under the ground, one beside the tail. Ticks are this long for each tenth, half and whole wheel.
const (
	tenthTick geom.MM = 1.2
	halfTick  geom.MM = 2.2
	WholeTick geom.MM = 3.2
)

// TickLength returns the length of a tick on paper, in mm, given its tenths from the start of the rule.
func TickLength(tenths int) geom.MM {
	switch {
	case tenths%10 == 0:
		return WholeTick
	case tenths%5 == 0:
		return halfTick
	}
	return tenthTick
}

// Where things stand beside and below the figure, in mm.
const (
	RuleGap   geom.MM = 8   // ground to rule, and outermost ghost to upright rule: the space between belongs to ticks and numbers
	BracketAt geom.MM = 2.2 // outside the upright rule
	LadderAt  geom.MM = 6   // the ladder's words, outside the upright rule
)

// UprightRule draws the rule beside the tail with its whole numbers.
func (d *Drawing) UprightRule(numbered bool) {
	x := d.RuleX
	d.Line(draft.RuleLine().For("ticks", "rule-up"), draft.Pt(x, d.Y(0)), draft.Pt(x, d.Y(d.Plan.Height())))
	for k := 0; float64(k)/10 <= float64(d.Plan.Height())+1e-9; k++ {
		at := draft.Pt(x, d.Y(geom.Wheels(k)/10))
		d.Line(draft.TickLine().For("ticks", fmt.Sprintf("tick-up-%d", k)), at, at.Sub(draft.Point{X: TickLength(k)}))
		if numbered && k > 0 && k%10 == 0 {
			d.Write("labels", d.OffSeams(draft.OneLine(d.Count(fmt.Sprint(k/10))).MiddleAt(x-WholeTick-1, at.Y, render.End)))
		}
	}
}

// TailGap returns how far outside the guides the upright rule stands, in mm. A narrow screen has no rule.
func (d *Drawing) TailGap() geom.MM {
	if d.Labels.ValuesOnly {
		return 0
	}
	return RuleGap
}

// LadderGap returns how far outside the upright rule, or where it would stand, the ladder's words begin, in mm.
func (d *Drawing) LadderGap() geom.MM {
	if d.Labels.ValuesOnly {
		return 4
	}
	return LadderAt
}

// LadderEntry is one line of the ladder beside the upright rule.
type LadderEntry struct {
	At    geom.Wheels
	From  geom.MM // outside the rule: where its leader starts
	Label draft.Label
}

// WriteLadder writes entries beside the upright rule, the highest on top, each with a leader from its height.
func (d *Drawing) WriteLadder(entries []LadderEntry) error {
	lane := d.LaneDown(d.Space.Min.Y, d.Y(0), d.Apart(.5))
	anchors, centres := draft.Distribute(entries, lane, func(r LadderEntry) (geom.MM, geom.MM) {
		return d.Y(r.At), d.SizeOf(r.Label).Height
	})
	if centres == nil {
		return NoRoom("the ladder of levels")
	}
	x := d.RuleX + d.LadderGap()
	for i, r := range entries {
		at, l := anchors[i], d.Keyed(r.Label)
		top, mid := centres[i]-l.Height/2, centres[i]
		if len(l.Lines) == 1 {
			top = mid - l.CapMiddle()
		}
		d.Leader(draft.Pt(d.RuleX+r.From, at), draft.Pt(d.RuleX+2.8, at), draft.Pt(x-1.9, mid), draft.Pt(x-.9, mid))
		d.Write("labels", l.TopAt(x, top, render.Start))
	}
	return nil
}

// LadderEntries lists the entries of the ladder for the guides that are drawn.
func (d *Drawing) LadderEntries() []LadderEntry {
	p := d.Plan
	var out []LadderEntry
	add := func(guide request.Guide, at geom.Wheels, from geom.MM, lines ...[]draft.Word) {
		if d.Wants(guide) {
			out = append(out, LadderEntry{at, from, draft.NewLabel(lines...)})
		}
	}
	const atRule, atBracket = .3, BracketAt
	for _, l := range Levels() {
		var rises []draft.Word
		if l.Guide == "belt" && p.BeltRise() != 0 && d.Labels.Notes {
			verb := "rises "
			if p.BeltRise() < 0 {
				verb = "falls "
			}
			rises = []draft.Word{draft.Note(verb + draft.FormatAngle(max(p.BeltRise(), -p.BeltRise())))}
		}
		if !l.Underneath || !d.Labels.Near || d.Labels.Keyed {
			at := l.Height(p)
			add(l.Guide, at, atRule, []draft.Word{draft.Name(string(l.Guide) + " "), draft.Value(d.FormatLength(at)).For(l.Figure.String())}, rises)
		}
	}
	ratio := segments.GreenhouseToBody.String()
	for _, part := range d.parts() {
		if d.Labels.ValuesOnly {
			break // no brackets are drawn
		}
		add("ratio", part.middle, atBracket, []draft.Word{d.Count(part.count).For(part.key), draft.Name(" " + part.unit).Naming(ratio)},
			[]draft.Word{draft.Name(part.name).Naming(ratio)})
	}
	if d.Wants("checks") {
		_, end := d.AngleEnds()
		add("checks", end.Y, atRule, []draft.Word{draft.Name("departure "), draft.Value(draft.FormatAngle(p.Departure()))})
		if !d.Labels.Near || d.Labels.Keyed {
			add("checks", p.Clearance()-.02, atRule, []draft.Word{draft.Name("breakover "), draft.Value(draft.FormatAngle(p.Breakover()))})
		}
	}
	return out
}

// part is one of the two parts of the height.
type part struct {
	middle            geom.Wheels
	count, unit, name string // "2", "parts", "body side"
	key               string // the figure that count gives, or empty
}

// parts returns greenhouse and body side.
func (d *Drawing) parts() [2]part {
	p := d.Plan
	return [2]part{{(p.Belt() + p.Height()) / 2, "1", "part", "greenhouse", ""},
		{(p.Sill() + p.Belt()) / 2, draft.FormatCount(1 / p.GreenhouseToBody()), "parts", "body side",
			segments.GreenhouseToBody.String()}}
}

// Brackets draws the two parts of the height, greenhouse and body side, outside the upright rule.
func (d *Drawing) Brackets() {
	p := d.Plan
	for _, b := range []struct {
		id     string
		lo, hi geom.Wheels
	}{{"body-side", p.Sill(), p.Belt()}, {"greenhouse", p.Belt(), p.Height()}} {
		lo, hi := d.Y(b.lo)-.6, d.Y(b.hi)+.6
		x, in := d.RuleX+BracketAt, d.RuleX+.7
		d.Line(draft.RuleLine().For("ratio", b.id), draft.Pt(x, lo), draft.Pt(x, hi))
		for _, y := range []geom.MM{lo, hi} {
			d.Line(draft.RuleLine().For("ratio", ""), draft.Pt(x, y), draft.Pt(in, y))
		}
	}
}

// Interval is a stretch of the ground between tyre edges, nose and tail. Its ticks count tenths from its start, or backwards from its end.
type Interval struct {
	Lo, Hi    geom.Wheels
	Backwards bool
	Ticks     string // id of its ticks, numbered from first
	First     int
	Number    string
	Name      string
	Key       string // names what Number gives
}

// Intervals lists the intervals from nose to tail; the count starts afresh at every tyre edge.
func (d *Drawing) Intervals() []Interval {
	p := d.Plan
	n := WholeWheels(p.WheelsBetween())
	counted, gap := geom.Wheels(.5+float64(n)), d.BetweenTyres().To
	intervals := []Interval{
		{p.Nose(), -.5, true, "tick-front-overhang", 0, d.FormatLength(p.FrontOverhang()), "front overhang", segments.FrontOverhang.String()},
		{-.5, .5, false, "tick-front-wheel", 0, d.formatDiameter(1), "front wheel", segments.Wheel.String()},
	}
	rest := geom.Wheels(p.WheelsBetween() - float64(n))
	switch {
	case d.Units != request.Wheels: // a chain has one unit
		intervals = append(intervals, Interval{.5, gap, false, "tick", 0, d.FormatLength(gap - .5), "between the tyres", segments.WheelsBetween.String()})
		rest = 0
	case n > 0:
		intervals = append(intervals, Interval{.5, counted, false, "tick", 0, fmt.Sprint(n), "wheels between", segments.WheelsBetween.String()})
	}
	if rest > LeastRest {
		intervals = append(intervals, Interval{counted, gap, false, "tick", 10 * n, "+ " + d.FormatLength(rest), "left over", segments.WheelsBetween.String()})
	}
	return append(intervals,
		Interval{gap, p.RearEdge(), false, "tick-rear-wheel", 0, d.formatDiameter(2 * p.RearRadius()), "rear wheel", segments.RearWheel.String()},
		Interval{p.RearEdge(), p.Tail(), false, "tick-rear-overhang", 0, d.FormatLength(p.RearOverhang()), "rear overhang", segments.RearOverhang.String()})
}

// GroundRule draws the rule under the ground: ticks upwards, long ones where intervals begin and end. The ids are those of the rule and of
// the ticks at its two ends; without the first that tick belongs to the first interval.
func (d *Drawing) GroundRule(intervals []Interval, rule, first, last string) {
	y, from, to := d.Y(0)+RuleGap, intervals[0].Lo, intervals[len(intervals)-1].Hi
	d.Line(draft.RuleLine().For("ticks", rule), draft.Pt(d.X(from), y), draft.Pt(d.X(to), y))
	end := func(x geom.Wheels, id string) {
		d.Line(draft.TickLine().For("ticks", id), draft.Pt(d.X(x), y-5.5), draft.Pt(d.X(x), y+2))
	}
	if first != "" {
		end(from, first)
	}
	for _, s := range intervals {
		id := func(k int) string { return fmt.Sprintf("%s-%d", s.Ticks, s.First+k) }
		if !s.Backwards { // else the tyre's edge belongs to the next interval
			end(s.Lo, id(0))
		}
		for k := 1; float64(k)/10 < float64(s.Hi-s.Lo)-1e-6; k++ {
			at := s.Lo + geom.Wheels(k)/10
			if s.Backwards {
				at = s.Hi - geom.Wheels(k)/10
			}
			d.Line(draft.TickLine().For("ticks", id(k)), draft.Pt(d.X(at), y), draft.Pt(d.X(at), y-TickLength(k)))
		}
	}
	end(to, last)
}

// Middles returns the x on the page of the middles of intervals.
func (d *Drawing) Middles(intervals []Interval) []geom.MM {
	return slice.Map(intervals, func(s Interval) geom.MM { return d.X((s.Lo + s.Hi) / 2) })
}

// WriteIntervals writes count and name under intervals, given the x of their middles on the page, in ascending order. A label more than
// 1 mm off its interval gets a leader. It returns the y of the page where the labels end.
func (d *Drawing) WriteIntervals(intervals []Interval, middles []geom.MM) (geom.MM, error) {
	var sizes []geom.MM
	var labels []draft.Label
	for _, s := range intervals {
		l := draft.NewLabel([]draft.Word{d.Count(s.Number).For(s.Key)}, []draft.Word{draft.Note(s.Name).Naming(s.Key)})
		if d.Labels.ValuesOnly {
			l = l.Values()
		}
		labels, sizes = append(labels, l), append(sizes, l.Width)
	}
	centres := d.LaneAcross(d.Space.Min.X, d.Space.Max.X, 2.5).Centres(middles, sizes)
	if centres == nil {
		return 0, NoRoom("the chain of counts")
	}
	y := d.Y(0) + RuleGap
	top := y + 3
	for i, l := range labels {
		d.Write("labels", l.TopAt(centres[i], top, render.Middle))
		if off := centres[i] - middles[i]; max(off, -off) > 1 {
			d.Leader(draft.Pt(middles[i], y+.6), draft.Pt(centres[i], top-.2+l.Baselines[0]-l.Caps[0]))
		}
	}
	return top + labels[0].Height, nil
}

// Lengths writes wheelbase and length below the intervals, on dimension lines broken for their words, and returns where they end.
func (d *Drawing) Lengths(top geom.MM) geom.MM {
	m := d.LengthDimensions()
	next := max(6, 4+d.Apart(0))
	d.dimension(m[0], top+4.2)
	d.dimension(m[1], top+4.2+next)
	return top + 7.2 + next
}
