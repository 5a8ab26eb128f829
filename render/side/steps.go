package side

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// steps draws the construction in eight panels; sentences and title block stand on the fixed surface, figures on the one returned.
func (s Sheets) steps(o counting.Page) (*counting.Drawing, error) {
	c, p, d := o.Canvas, o.Plan, s.inPanels(o)
	g, err := counting.FindPanels(c, d.sentences(), func(width, height geom.MM) geom.MM {
		return d.largestInPanel(width-2*counting.PanelGap, height)
	})
	if err != nil {
		return nil, err
	}
	var panels []draft.Box
	for i, sentence := range d.sentences() {
		panels = append(panels, g.Write(o, i, sentence, s.Setting.Facing))
	}
	d = d.inOneLettering(func(d drawing) bool {
		all := true
		for i, panel := range panels {
			d.placeIn(panel, c.FromPaper(g.Wheel))
			all = d.panel(i) && all
		}
		return all
	})
	const seen = "side view in eight steps"
	title := counting.Caption(s.Request, p, seen)
	if words := p.Summary(); words != "" { // what it reads as, too, would take a panel's room
		title.Sub = words + "; " + seen
	}
	columns := counting.Facts(p, g.Wheel, s.Setting.Units)
	key := []draft.Fact{{Name: "heavy", Value: "new in this step"}, {Name: "fine", Value: "drawn before"}}
	c.TitleBlock(o.Fixed, title, [][]draft.Fact{columns[0], key, columns[1]}, o.Number)
	return d.Drawing, nil
}

// demonstration draws the construction up to the page's step.
func (s Sheets) demonstration(o counting.Page) (*counting.Drawing, error) {
	d := s.inPanels(o)
	page, err := counting.NewDemonstration(o.Canvas, d.sentences(), d.largestInPanel)
	if err != nil {
		return nil, err
	}
	d = d.inOneLettering(func(d drawing) bool {
		d.placeIn(page.Figure, o.FromPaper(page.Wheel))
		return d.panel(o.Step)
	})
	page.Write(o, counting.Caption(s.Request, o.Plan, "").Heading,
		"unit: "+counting.UnitFacts(s.Setting.Units, o.Plan)[0].Value+"; heavy lines are new")
	return d.Drawing, nil
}

// inPanels returns an empty drawing of the construction, which shows every guide and no other words than its own.
func (s Sheets) inPanels(o counting.Page) drawing {
	d := drawing{counting.NewDrawing(s.Request, o.Canvas, o.Plan, o.Kind)}
	d.Guides, d.Checks, d.Labels = nil, false, counting.LabelLayout{}
	return d
}

// inOneLettering draws on d, and where some count found no room draws again on a drawing like d with smaller counts.
func (d drawing) inOneLettering(draw func(drawing) bool) drawing {
	again := *d.Drawing
	again.Surface, again.Labels.SmallCounts = draft.NewSurface(d.Space, d.Inks), true
	if draw(d) {
		return d
	}
	draw(drawing{&again})
	return drawing{&again}
}

// largestInPanel returns the largest wheel on the canvas that a panel has room for.
func (d drawing) largestInPanel(width, height geom.MM) geom.MM {
	from, to := d.GuideExtent()
	up := (height - counting.PanelAbove - counting.PanelBelow) / geom.MM(d.GuideTop())
	return min((width-counting.PanelTail)/geom.MM(to-from), up)
}

// placeIn stands the construction at the foot of a panel, in the middle across.
func (d drawing) placeIn(panel draft.Box, wheel geom.MM) {
	from, to := d.GuideExtent()
	slack := panel.Width() - counting.PanelTail - geom.MM(geom.MM(to-from)*wheel)
	x := panel.Min.X + slack/2 - geom.MM(geom.MM(from)*wheel)
	d.Place = counting.Place{Wheel: wheel, Origin: draft.Pt(x, panel.Max.Y-counting.PanelBelow)}
	d.LevelsEnd = d.X(to)
	d.Space = panel // words stay with their figure
}

// panel draws the construction up to step i: what is new heavy, what was drawn before in hair lines. It reports whether the counts found
// room.
func (d drawing) panel(i int) bool {
	steps := [counting.PanelCount]func(){
		func() { d.Ground(d.X(-1.5), d.LevelsEnd); d.Tyre(0); d.Cross(0) },
		func() { d.Between(); d.Tyre(1); d.Cross(1) },
		func() { d.Stack(); d.Roof() },
		func() { d.Sill(); d.Belt() },
		d.Overhangs,
		func() { d.Pillar(i == 5); d.GlassEnd() }, // the band only where the pillar is new
		func() { d.Arches(); d.Lamps() },
		d.Outline,
	}
	d.Prefix = fmt.Sprintf("step-%d-", i+1)
	d.Restyle = draft.LineStyle.Lighter
	for _, draw := range steps[:i] {
		draw()
	}
	d.Restyle = draft.LineStyle.Heavier
	steps[i]()
	d.Restyle = nil
	fits := d.panelLabels(i)
	d.Prefix = ""
	return fits
}

// panelLabels writes the counts of step i into its wheels, and the parts of the height beside its brackets, and reports whether the counts
// found room. What does not is in the sentence.
func (d drawing) panelLabels(i int) bool {
	p := d.Plan
	switch i {
	case 1:
		return d.NumberRow(d.BetweenTyres(), counting.At(0, 0, .38))
	case 2:
		return d.StackNumerals() == nil
	case 3:
		d.RuleX = d.LevelsEnd + 1
		d.Brackets()
		for _, part := range []struct {
			at geom.Wheels
			n  float64
		}{{(p.Belt() + p.Height()) / 2, 1}, {(p.Sill() + p.Belt()) / 2, 1 / p.GreenhouseToBody()}} {
			l := draft.OneLine(draft.Value(draft.FormatCount(part.n)))
			d.Write("labels", l.MiddleAt(d.RuleX+counting.BracketAt+1, d.Y(part.at), render.Start))
		}
	}
	return true
}

// sentences describes each step with the plan's own numbers.
func (d drawing) sentences() [counting.PanelCount]string {
	p := d.Plan
	n := counting.WholeWheels(p.WheelsBetween())
	more := ""
	if rest := geom.Wheels(p.WheelsBetween() - float64(n)); rest > counting.LeastRest {
		more = " and " + d.FormatWithUnit(rest)
	}
	rear := "the rear wheel"
	if p.TyreRatio() != 1 {
		rear = "the rear wheel, " + d.FormatWithUnit(2*p.RearRadius()) + " across,"
	}
	belt := " and draw the belt line level at the split."
	if p.BeltRise() != 0 {
		verb := "rise "
		if p.BeltRise() < 0 {
			verb = "fall "
		}
		belt = " and let the belt line " + verb + draft.FormatAngle(max(p.BeltRise(),
			-p.BeltRise())) + " through the split at mid-wheelbase."
	}
	return [...]string{
		"Draw the ground line and stand one wheel on it: its outside diameter is your unit.",
		fmt.Sprintf("Count %d clear wheels%s behind it and stand %s there.", n, more, rear),
		"Stack wheels over the rear one: the roof is " + d.FormatWithUnit(p.Height()) + " up.",
		"Set the sill at " + d.lengthInStep(p.Sill()) +
			", split what is left to the roof 1 to " + draft.FormatCount(1/p.GreenhouseToBody()) + belt,
		"Measure the overhangs from the tyres: the nose " + d.FormatWithUnit(p.FrontOverhang()) + " ahead, the tail " +
			d.FormatLength(p.RearOverhang()) + " behind.",
		"Aim the A-pillar from " + d.lengthInStep(p.PillarAim()) + " up the front axle line at " + draft.FormatAngle(p.PillarRake()) +
			" and end the side glass " + d.glassNote() + ".",
		"Open the arches by " + d.lengthInStep(p.ArchGap()) + ", start the front lamp at " +
			d.FormatLength(p.FrontLamp()) + " and the rear lamp at " + d.FormatLength(p.RearLamp()) + ".",
		"Draw the side view through these points, lightly at first, then in one firm line.",
	}
}

// lengthInStep writes the first length of a sentence, with its unit unless that is the wheel, which step 1 made the unit.
func (d drawing) lengthInStep(w geom.Wheels) string {
	if d.Units == request.Wheels {
		return d.FormatLength(w)
	}
	return d.FormatWithUnit(w)
}
