package sheet

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/segments"
)

// blank is one numbered line of a practice sheet: what to count, what the plan says, and what passes as right.
type blank struct {
	name          string
	value, lo, hi string
}

// blankCount is how many blanks a practice sheet has; they divide into one, two or three columns.
const blankCount = 12

// blanks lists what a pupil writes and what the answer is. The range of a declared figure is its profile's; that of a sum follows
// from its parts. A figure moved out of its range, by a pin, widens it: what the sheet shows is always right.
func (d *drawing) blanks() [blankCount]blank {
	p := d.plan
	of := func(f segments.Figure) segments.Range { return p.Profile.Figures[f].Range }
	between, front, rear := of(segments.WheelsBetween), of(segments.FrontOverhang), of(segments.RearOverhang)
	base := sum(between, exactly(.5), exactly(float64(p.RearRadius())))
	parts := segments.Range{Lo: 1 / of(segments.GreenhouseToBody).Hi, Hi: 1 / of(segments.GreenhouseToBody).Lo}
	length := func(name string, w geom.Wheels, r segments.Range) blank {
		r = holding(r, float64(w))
		return blank{name, d.length(w), d.length(geom.Wheels(r.Lo)), d.length(geom.Wheels(r.Hi))}
	}
	counted := func(name string, v float64, r segments.Range) blank {
		r = holding(r, v)
		return blank{name, countOf(v), fixed(r.Lo, 2), fixed(r.Hi, 2)}
	}
	behind := p.GlassEnd() - p.RearEdge()
	return [...]blank{
		counted("wheels between tyres", p.WheelsBetween(), between),
		length("roof, from the ground", p.Height(), of(segments.Height)),
		length("sill, from the ground", p.Sill(), of(segments.Sill)),
		length("belt, at mid-wheelbase", p.Belt(), beltRange(p)),
		counted("body side / greenhouse", 1/p.GreenhouseToBody(), parts),
		length("front overhang", p.FrontOverhang(), front),
		length("rear overhang", p.RearOverhang(), rear),
		length("length, nose to tail", p.Length(), sum(base, front, rear, exactly(float64(.5+p.RearRadius())))),
		length("A-pillar aim height", p.PillarAim(), p.AimRange()),
		length("arch gap", p.ArchGap(), of(segments.ArchGap)),
		length("glass end behind tyre", behind, of(segments.GlassEnd)),
		length("wheelbase, axle to axle", p.Wheelbase(), base),
	}
}

func exactly(v float64) segments.Range { return segments.Range{Lo: v, Hi: v} }

// sum returns how far the sum of independent figures may move.
func sum(parts ...segments.Range) segments.Range {
	var out segments.Range
	for _, r := range parts {
		out.Lo, out.Hi = out.Lo+r.Lo, out.Hi+r.Hi
	}
	return out
}

// holding returns r, widened to hold v.
func holding(r segments.Range, v float64) segments.Range {
	return segments.Range{Lo: min(r.Lo, v), Hi: max(r.Hi, v)}
}

// beltRange returns how high the belt may lie at mid-wheelbase: it rises with sill and roof and falls with the greenhouse's share,
// so its extremes lie at theirs.
func beltRange(p layout.Plan) segments.Range {
	of := func(f segments.Figure) segments.Range { return p.Profile.Figures[f].Range }
	sill, roof, ratio := of(segments.Sill), of(segments.Height), of(segments.GreenhouseToBody)
	at := func(sill, roof, ratio float64) float64 { return sill + (roof-sill)/(1+ratio) }
	return segments.Range{Lo: at(sill.Lo, roof.Lo, ratio.Hi), Hi: at(sill.Hi, roof.Hi, ratio.Lo)}
}

// Where the blanks stand: the heading and its sentence on top, then rows.
const (
	firstRow   geom.MM = 15 // top of the first row below the space's top
	rowPitch   geom.MM = 8
	numberWide geom.MM = 7
	ruleLong   geom.MM = 17
	columnGap  geom.MM = 3
)

// blankGrid is the blanks' layout on one page: as many columns as their words leave room for.
type blankGrid struct {
	count, columns int
	names, wide    geom.MM // the widest name, and a whole column
}

func (d *drawing) blankGrid(space box) blankGrid {
	list := d.blanks()
	return gridOf(list[:], space)
}

func gridOf(list []blank, space box) blankGrid {
	g := blankGrid{count: len(list), columns: 1}
	var ranges geom.MM
	for _, b := range list {
		g.names = max(g.names, newLabel([]word{name(b.name)}).width)
		ranges = max(ranges, b.rangeLabel().width)
	}
	need := numberWide + g.names + 3 + ruleLong + 2 + ranges + columnGap
	for g.columns < 3 && geom.MM(g.columns+1)*need <= space.Width()+columnGap {
		g.columns++
	}
	g.wide = space.Width() / geom.MM(g.columns)
	return g
}

// rows is how many blanks stand in the longest column.
func (g blankGrid) rows() int { return (g.count + g.columns - 1) / g.columns }

// height returns how much of the page's top the blanks take, with the gap below them.
func (g blankGrid) height() geom.MM { return firstRow + rowPitch*geom.MM(g.rows()) + 1 }

// rangeLabel is what passes as right; nothing where only the answer does.
func (b blank) rangeLabel() label {
	if b.lo == "" {
		return label{}
	}
	return newLabel([]word{note("(" + b.lo + " to " + b.hi + ")")})
}

// blankSheet is what stands over a practice or an answer sheet.
type blankSheet struct {
	heading, sentence string
	filled            bool
	list              []blank
}

// writeBlanks writes heading, sentence and the twelve blanks on the fixed board, filled or empty.
func (d *drawing) writeBlanks(b *board, heading, sentence string, filled bool) {
	list := d.blanks()
	blankSheet{heading, sentence, filled, list[:]}.write(b)
}

// write writes the sheet's blanks on the fixed board.
func (s blankSheet) write(b *board) {
	at, width := b.space.Min, b.space.Width()
	head := newLabel([]word{{text: s.heading, height: large, weight: render.SemiBold, role: words}}, []word{shortened(name(s.sentence), width)})
	b.write("strip", head, at.X, at.Y, render.Start)
	if !s.filled {
		b.nameAndDate()
	}
	g := gridOf(s.list, b.space)
	for i, k := range s.list {
		x, base := at.X+geom.MM(i/g.rows())*g.wide, at.Y+firstRow+rowPitch*geom.MM(i%g.rows())+4.2
		put := func(w word, x geom.MM) {
			l := newLabel([]word{w})
			b.write("strip", l, x, base-l.baselines[0], render.Start)
		}
		put(word{text: countOf(float64(i + 1)), height: small, weight: render.SemiBold, role: words}, x)
		put(name(k.name), x+numberWide)
		rule := x + numberWide + g.names + 3
		b.line("strip", "", leaderLine(), point{X: rule, Y: base + 1.6}, point{X: rule + ruleLong, Y: base + 1.6})
		if !s.filled {
			continue
		}
		put(count(k.value), rule+1)
		if k.lo != "" {
			put(k.rangeLabel().lines[0][0], rule+ruleLong+2)
		}
	}
}

// signatureField is a line that the pupil writes on.
type signatureField struct {
	what     string
	from, to point
}

// signatureEnd is where the lines for name and date end: on the baseline of the heading, at the right.
func signatureEnd(space box) point {
	head := newLabel([]word{{text: "Practice", height: large, weight: render.SemiBold, role: words}})
	return point{X: space.Max.X, Y: space.Min.Y + head.baselines[0]}
}

// signatureFields lays out the lines for name and date, from their end on a baseline leftwards.
func signatureFields(end point) []signatureField {
	var out []signatureField
	for _, f := range []signatureField{{what: "date", from: point{X: dateLine}}, {what: "name", from: point{X: nameLine}}} {
		f.from, f.to = point{X: end.X - f.from.X, Y: end.Y + .8}, point{X: end.X, Y: end.Y + .8}
		out = append(out, f)
		end.X = f.from.X - 1.5 - newLabel([]word{note(f.what)}).width - 5
	}
	return out
}

// nameAndDate draws the lines that the pupil signs on.
func (b *board) nameAndDate() {
	for _, f := range signatureFields(signatureEnd(b.space)) {
		b.line("strip", "", leaderLine(), f.from, f.to)
		l := newLabel([]word{note(f.what)})
		b.write("strip", l, f.from.X-1.5, f.from.Y-.8-l.baselines[0], render.End)
	}
}
