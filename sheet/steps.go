package sheet

import (
	"fmt"
	"strings"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/request"
)

// Panels of a steps sheet: how many, how much of the width the sentence takes, and the room round the figure.
const (
	panelCount                = 8
	sentenceMost      geom.MM = 60
	panelGap          geom.MM = 4
	panelTail         geom.MM = 9 // brackets and their numbers behind the figure
	panelAbove        geom.MM = 2.5
	panelBelow        geom.MM = 4
	leastWheelInPanel geom.MM = 6
)

// panels is how a page is divided for the steps: the wheel is the largest even one that all panels hold.
type panels struct {
	columns    int
	sentence   geom.MM // the width of a sentence
	wide, high geom.MM
	wheel      geom.MM // on paper, true millimetres
}

// panelsFor divides the page into two columns or one, with sentences as narrow as the rows are tall enough for: whichever draws largest.
func (d *drawing) panelsFor(c canvas) panels {
	var best panels
	from, to := reachOf(d.plan)
	for columns := 1; columns <= 2; columns++ {
		for _, share := range []geom.MM{.19, .22, .26, .3, .36} {
			g := panels{columns: columns, wide: c.space.Width() / geom.MM(columns)}
			g.sentence = min(sentenceMost, g.wide*share)
			g.high = (c.space.Height() - stripHeight - 2) / geom.MM(panelCount/columns)
			across := (g.wide - g.sentence - 2*panelGap - panelTail) / geom.MM(to-from)
			up := (g.high - panelAbove - panelBelow) / geom.MM(topOf(d.plan))
			if g.wheel = c.evenBelow(min(across, up)); g.wheel > best.wheel && d.sentencesFit(g) {
				best = g
			}
		}
	}
	return best
}

// sentencesFit reports whether every sentence keeps to its column and is no taller than its panel.
func (d *drawing) sentencesFit(g panels) bool { return g.hold(d.sentences()) }

// hold reports whether every sentence keeps to its column and is no taller than its panel.
func (g panels) hold(sentences [panelCount]string) bool {
	for i, sentence := range sentences {
		if l := g.words(i, sentence); l.height > g.high-1 || l.width > g.sentence {
			return false
		}
	}
	return true
}

// words is step i's number and sentence.
func (g panels) words(i int, sentence string) label {
	return newLabel(append([][]word{{{text: fmt.Sprint(i + 1), height: large, weight: render.SemiBold, role: words}}}, wrapped(sentence, g.sentence)...)...)
}

// box returns panel i's place, in rows from the top left.
func (g panels) box(space box, i int) box {
	at := space.Min.Add(point{X: geom.MM(i%g.columns) * g.wide, Y: geom.MM(i/g.columns) * g.high})
	return box{Min: at, Max: at.Add(point{X: g.wide, Y: g.high})}
}

// steps draws the construction in eight panels; sentences and strip stand on the fixed board, figures on the one returned.
func (job driver) steps(c canvas, p layout.Plan, fixed *board, number string) (*drawing, error) {
	d := job.drawing(c, p, request.Steps)
	d.guides, d.checks, d.way = nil, false, way{}
	g := d.panelsFor(c)
	if g.wheel < leastWheelInPanel {
		return nil, tight("eight panels")
	}
	from, to := reachOf(p)
	for i, sentence := range d.sentences() {
		b := g.box(c.space, i)
		if i > 0 && i%g.columns == 0 {
			fixed.hairline("strip", "", levelLine(), point{X: c.space.Min.X, Y: b.Min.Y}, point{X: c.space.Max.X, Y: b.Min.Y})
		}
		fixed.write("strip", g.words(i, sentence), b.Min.X, b.Min.Y+1, render.Start)
		left := b.Min.X + g.sentence + panelGap
		if job.Setting.Facing == request.Right {
			// The page is mirrored at the end; the panel has to come back to its own sentence.
			left = c.space.Min.X + c.space.Max.X - b.Max.X + panelGap
		}
		wheel := c.real(g.wheel)
		slack := g.wide - g.sentence - 2*panelGap - panelTail - geom.MM(geom.MM(to-from)*wheel)
		d.place = place{wheel: wheel, origin: point{X: left + slack/2 - geom.MM(geom.MM(from)*wheel), Y: b.Max.Y - panelBelow}}
		d.reach = d.x(to)
		d.panel(i)
	}
	title := caption{heading: job.caption(p).heading, sub: "side view in eight steps"}
	if words := p.Brief.Summary(); words != "" {
		title.sub = words + "; " + title.sub
	}
	columns := facts(p, g.wheel, job.Setting.Units)
	key := []fact{{"heavy", "new in this step"}, {"fine", "drawn before"}}
	c.strip(fixed, title, [][]fact{columns[0], key, columns[1]}, number)
	return d, nil
}

// panel draws the construction up to step i: what is new heavy, what was drawn before in hair lines.
func (d *drawing) panel(i int) {
	p := d.plan
	steps := [panelCount]func(isNew bool){
		func(bool) { d.ground(d.x(-1.5), d.reach); d.tyre(true); d.cross(true) },
		func(bool) { d.between(); d.tyre(false); d.cross(false) },
		func(bool) {
			d.stack()
			d.level("roof", "roof", roofLine(), p.Height(), d.x(max(p.Nose(), p.PillarHead().X-1)), d.reach)
		},
		func(bool) { d.sill(); d.belt() },
		func(bool) { d.overhangs() },
		func(isNew bool) { d.pillar(isNew); d.glassEnd() },
		func(bool) { d.arches(); d.lamps() },
		func(bool) { d.outline() },
	}
	d.prefix = fmt.Sprintf("step-%d-", i+1)
	d.weigh = old
	for _, draw := range steps[:i] {
		draw(false)
	}
	d.weigh = heavy
	steps[i](true)
	d.weigh = nil
	d.panelNumbers(i)
	d.prefix = ""
}

// old is how a line is drawn that stood there before: told by its width, so that a copy still teaches.
func old(k lineKind) lineKind {
	k.width = hair
	if k.role == accent {
		k.role = plain
	}
	return k
}

// heavy is how a step's own line is drawn.
func heavy(k lineKind) lineKind {
	switch {
	case k.dash == nil && k.width > hair:
		k.width = wide
	case k.width > hair:
		k.width = narrow
	}
	if k.role == soft {
		k.role = strong
	}
	return k
}

// panelNumbers writes the counts of step i into its wheels, and the parts of the height beside its brackets. What finds no room is
// told by the sentence.
func (d *drawing) panelNumbers(i int) {
	p := d.plan
	switch i {
	case 1:
		n := wholeWheels(p.WheelsBetween())
		for k := 1; k <= n; k++ {
			d.countIn(k, layout.Point{X: geom.Wheels(k), Y: .5}, search{wanted: spot{0, 0}, within: .38, wide: 8})
		}
	case 2:
		_ = d.stackNumerals()
	case 3:
		d.rail = d.reach + 1
		d.brackets()
		for _, part := range []struct {
			at geom.Wheels
			n  float64
		}{{(p.Belt() + p.Height()) / 2, 1}, {(p.Sill() + p.Belt()) / 2, 1 / p.GreenhouseToBody()}} {
			l := newLabel([]word{value(countOf(part.n))})
			d.write("labels", l, d.rail+bracketAt+1, d.y(part.at)-l.lift(), render.Start)
		}
	}
}

// sentences tells each step with the plan's own numbers.
func (d *drawing) sentences() [panelCount]string {
	p := d.plan
	n := wholeWheels(p.WheelsBetween())
	more := ""
	if rest := geom.Wheels(p.WheelsBetween() - float64(n)); rest > leastRest {
		more = " and " + d.amount(rest)
	}
	rear := "the rear wheel"
	if p.TyreRatio() != 1 {
		rear = "the rear wheel, " + d.amount(2*p.RearRadius()) + " across,"
	}
	belt := " and draw the belt line level at the split."
	if p.BeltRise() != 0 {
		verb := "rise "
		if p.BeltRise() < 0 {
			verb = "fall "
		}
		belt = " and let the belt line " + verb + angle(max(p.BeltRise(), -p.BeltRise())) + " through the split at mid-wheelbase."
	}
	return [...]string{
		"Draw the ground line and stand one wheel on it: its outside diameter is your unit.",
		fmt.Sprintf("Count %d clear wheels%s behind it and stand %s there.", n, more, rear),
		"Stack wheels over the rear one: the roof is " + d.amount(p.Height()) + " up.",
		"Set the sill at " + d.length(p.Sill()) + ", split what is left to the roof 1 to " + countOf(1/p.GreenhouseToBody()) + belt,
		"Measure the overhangs from the tyres: " + d.amount(p.FrontOverhang()) + " in front, " + d.length(p.RearOverhang()) + " behind.",
		"Aim the A-pillar from " + d.length(p.PillarAim()) + " up the front axle line at " + angle(p.PillarRake()) +
			" and end the side glass " + d.glassWords(p.GlassEnd()-p.RearEdge()) + ".",
		"Open the arches by " + d.length(p.ArchGap()) + ", start the front lamp at " + d.length(p.FrontLamp()) + " and the rear lamp at " + d.length(p.RearLamp()) + ".",
		"Draw the side view through these points, lightly at first, then in one firm line.",
	}
}

// amount prints a length with its unit.
func (d *drawing) amount(w geom.Wheels) string {
	switch d.units {
	case request.Wheels:
		if w > 1 {
			return d.length(w) + " wheels"
		}
		return d.length(w) + " of a wheel"
	case request.Millimetres:
		return d.length(w) + " mm"
	}
	return d.length(w) + " in"
}

// wrapped breaks a sentence into lines no wider than room.
func wrapped(sentence string, room geom.MM) [][]word {
	var out [][]word
	line := ""
	for _, w := range strings.Fields(sentence) {
		longer := strings.TrimSpace(line + " " + w)
		if line != "" && fonts.Width(longer, small, render.Regular) > room {
			out = append(out, []word{name(line)})
			longer = w
		}
		line = longer
	}
	return append(out, []word{name(line)})
}
