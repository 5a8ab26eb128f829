package sheet

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// steps draws the construction in eight panels; sentences and strip stand on the fixed board, figures on the one returned.
func (s sideSheets) steps(o onePage) (*drawing, error) {
	c, p := o.Canvas, o.plan
	d := sideView{newDrawing(s.Request, c, p, request.Steps)}
	d.guides, d.checks, d.way = nil, false, way{}
	from, to := reachOf(p)
	g := findPanels(c, d.sentences(), func(width, height geom.MM) geom.MM {
		across := (width - 2*panelGap - panelTail) / geom.MM(to-from)
		return min(across, (height-panelAbove-panelBelow)/geom.MM(topOf(p)))
	})
	if g.wheel < leastWheelInPanel {
		return nil, tight("eight panels")
	}
	for i, sentence := range d.sentences() {
		b := g.write(c, o.fixed, i, sentence)
		left := b.Min.X + g.sentence + panelGap
		if s.Setting.Facing == request.Right {
			// The page is mirrored at the end; the panel has to come back to its own sentence.
			left = c.Space.Min.X + c.Space.Max.X - b.Max.X + panelGap
		}
		wheel := c.Real(g.wheel)
		slack := g.wide - g.sentence - 2*panelGap - panelTail - geom.MM(geom.MM(to-from)*wheel)
		d.place = place{wheel: wheel, origin: draft.Point{X: left + slack/2 - geom.MM(geom.MM(from)*wheel), Y: b.Max.Y - panelBelow}}
		d.reach = d.x(to)
		d.panel(i)
	}
	title := draft.Caption{Heading: caption(s.Request, p, "side view").Heading, Sub: "side view in eight steps"}
	if words := p.Brief.Summary(); words != "" {
		title.Sub = words + "; " + title.Sub
	}
	columns := facts(p, g.wheel, s.Setting.Units)
	key := []draft.Fact{{Name: "heavy", Value: "new in this step"}, {Name: "fine", Value: "drawn before"}}
	c.Strip(o.fixed, title, [][]draft.Fact{columns[0], key, columns[1]}, o.number)
	return d.drawing, nil
}

// panel draws the construction up to step i: what is new heavy, what was drawn before in hair lines.
func (d sideView) panel(i int) {
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
	d.Prefix = fmt.Sprintf("step-%d-", i+1)
	d.Restyle = old
	for _, draw := range steps[:i] {
		draw(false)
	}
	d.Restyle = heavy
	steps[i](true)
	d.Restyle = nil
	d.panelNumbers(i)
	d.Prefix = ""
}

// panelNumbers writes the counts of step i into its wheels, and the parts of the height beside its brackets. What finds no room is
// told by the sentence.
func (d sideView) panelNumbers(i int) {
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
			l := draft.NewLabel([]draft.Word{draft.Value(draft.CountOf(part.n))})
			d.Write("labels", l, d.rail+bracketAt+1, d.y(part.at)-l.Lift(), render.Start)
		}
	}
}

// sentences tells each step with the plan's own numbers.
func (d sideView) sentences() [panelCount]string {
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
		belt = " and let the belt line " + verb + draft.Angle(max(p.BeltRise(), -p.BeltRise())) + " through the split at mid-wheelbase."
	}
	return [...]string{
		"Draw the ground line and stand one wheel on it: its outside diameter is your unit.",
		fmt.Sprintf("Count %d clear wheels%s behind it and stand %s there.", n, more, rear),
		"Stack wheels over the rear one: the roof is " + d.amount(p.Height()) + " up.",
		"Set the sill at " + d.length(p.Sill()) + ", split what is left to the roof 1 to " + draft.CountOf(1/p.GreenhouseToBody()) + belt,
		"Measure the overhangs from the tyres: " + d.amount(p.FrontOverhang()) + " in front, " + d.length(p.RearOverhang()) + " behind.",
		"Aim the A-pillar from " + d.length(p.PillarAim()) + " up the front axle line at " + draft.Angle(p.PillarRake()) +
			" and end the side glass " + d.glassWords(p.GlassEnd()-p.RearEdge()) + ".",
		"Open the arches by " + d.length(p.ArchGap()) + ", start the front lamp at " + d.length(p.FrontLamp()) + " and the rear lamp at " + d.length(p.RearLamp()) + ".",
		"Draw the side view through these points, lightly at first, then in one firm line.",
	}
}
