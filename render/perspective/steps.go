package perspective

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
)

// steps draws the construction of a perspective in eight panels, like the side view's steps.
func (p Sheets) steps(o counting.Page, d *drawing) (render.Page, error) {
	d.Space = o.Space
	sentences := d.sentences()
	g, err := counting.FindPanels(o.Canvas, sentences, d.largestInPanel)
	if err != nil {
		return render.Page{}, err
	}
	focal := o.FromPaper(g.Wheel) / geom.MM(d.nearHeight())
	for i, sentence := range sentences {
		b := g.Write(o, i, sentence, p.Setting.Facing)
		b.Min.Y, b.Max.Y = b.Min.Y+1, b.Max.Y-1
		d.panelIn(b, focal, i)
	}
	title := counting.Caption(p.Request, o.Plan, p.Setting.Camera.Spec.Description())
	title.Sub = "perspective in eight steps, " + p.Setting.Camera.Spec.Description()
	columns := d.facts(g.Wheel, p.Setting.Camera.Spec)
	columns = [][]draft.Fact{columns[0], {{Name: "heavy", Value: "new in this step"}, {Name: "fine", Value: "drawn before"}}, columns[1]}
	o.TitleBlock(o.Fixed, title, columns, o.Number)
	return o.Finish(o.Plan.Profile.Title+", steps, perspective", d.Surface, o.Fixed, p.Setting.Facing), nil
}

// demonstration draws the construction up to the page's step.
func (p Sheets) demonstration(o counting.Page, d *drawing) (render.Page, error) {
	page, err := counting.NewDemonstration(o.Canvas, d.sentences(), d.largestInPanel)
	if err != nil {
		return render.Page{}, err
	}
	d.panelIn(page.Figure, o.FromPaper(page.Wheel)/geom.MM(d.nearHeight()), o.Step)
	page.Write(o, counting.Caption(p.Request, o.Plan, "").Heading, p.Setting.Camera.Spec.Description()+"; heavy lines are new")
	return o.Finish(o.Plan.Profile.Title+", demonstration, perspective", d.Surface, o.Fixed, p.Setting.Facing), nil
}

// largestInPanel returns the largest near wheel on the canvas that a panel has room for.
func (d *drawing) largestInPanel(width, height geom.MM) geom.MM {
	bounds := d.bounds()
	across := (width - 4*counting.PanelGap) / geom.MM(bounds.Width())
	up := (height - counting.PanelAbove - counting.PanelBelow - 2) / geom.MM(bounds.Height())
	return geom.MM(float64(min(across, up)) * float64(d.nearHeight()))
}

// panelIn draws step i in a panel at a focal length on the canvas.
func (d *drawing) panelIn(b draft.Box, focal geom.MM, i int) {
	panel := *d
	panel.Surface = draft.NewSurface(b, d.Inks)
	panel.mapping, panel.construction = d.place(b, focal, .6), true
	panel.tidyLines = panel.lines // on most panels lines are still missing that others run along
	panel.panel(i)
	d.Marks = append(d.Marks, panel.Marks...)
}

// panel draws the construction up to step i: new lines heavy, earlier ones fine.
func (d *drawing) panel(i int) {
	steps := [counting.PanelCount]func(){
		func() { d.grid(); d.horizon() },
		func() { d.enclosure(); d.thirds() },
		func() { d.between(); d.nearWheels() },
		func() { d.farWheels(); d.axle(d.wheels[0].Wheel); d.axle(d.wheels[1].Wheel); d.axlePlanes() },
		func() { d.centre(true); d.crossSections() },
		func() { d.pillars(); d.aim(); d.linesOf(view.GlassLine) },
		func() { d.linesOf(view.ArchLine, view.LampLine) },
		func() { d.linesOf(view.EdgeLine, view.DetailLine, view.ContourLine) },
	}
	d.Prefix, d.noBody = fmt.Sprintf("step-%d-", i+1), i < 4
	d.Restyle = draft.LineStyle.Lighter
	for _, draw := range steps[:i] {
		draw()
	}
	d.Restyle = func(k draft.LineStyle) draft.LineStyle { // construction lines, fine on other sheets, are as heavy as the rest
		k.Width = max(k.Width, draft.Narrow)
		return k.Heavier()
	}
	if i == counting.PanelCount-1 { // shut lines and trim stay finer than the outline
		d.Restyle = draft.LineStyle.Heavier
	}
	steps[i]()
	if i == counting.PanelCount-1 { // the last panel shows the whole vehicle: its earlier lines are heavy again
		d.Prefix += "whole-"
		d.linesOf(view.GlassLine, view.ArchLine, view.LampLine)
		d.nearWheels()
	}
	d.Restyle = nil
	if i == 2 {
		d.counts()
	}
	d.Prefix = ""
}

// sentences describes the steps with the numbers of plan and camera.
func (d *drawing) sentences() [counting.PanelCount]string {
	p := d.plan
	degrees := func(i int) string {
		return draft.FormatFixed(math.Round(float64(d.wheels[i].Outer.Degrees())), 0) + "°"
	}
	return [...]string{
		"Draw the horizon at the height of your eye, and the ground in tiles of one wheel.",
		fmt.Sprintf("Stand the box on it: %s long, %s wide, %s high, in %s.", d.formatLength(p.Length()),
			d.formatLength(counting.WidthOf(p)), d.formatLength(p.Height()), counting.UnitName(d.units)),
		fmt.Sprintf("Draw the near wheels on its lower edge, ellipses of %s and %s, and count %d clear wheels between them.",
			degrees(0), degrees(1), counting.WholeWheels(p.WheelsBetween())),
		"Carry the axles across and draw the far wheels behind.",
		"Draw the centre line over the middle of the box, and cuts across the body where they help.",
		"Draw the A-pillars from foot to head, the near one aimed " + d.formatLength(p.PillarAim()) +
			" up the front axle's upright; then the glass.",
		"Lift the arches onto the side: they are no ellipses. Wrap the lamps round the corners.",
		"Draw the body through all this, lightly at first, then in one firm line.",
	}
}
