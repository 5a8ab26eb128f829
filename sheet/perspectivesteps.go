package sheet

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/request"
)

// shotSteps draws the construction of a perspective in eight panels, like the side view's steps.
func (job driver) shotSteps(o onePage, d *perspective) (render.Page, error) {
	d.space = o.space
	sentences := d.sentences()
	g, focal := d.shotPanels(o.canvas, sentences)
	if g.wheel < leastWheelInPanel {
		return render.Page{}, tight("eight panels")
	}
	for i, sentence := range sentences {
		b := g.box(o.space, i)
		if i > 0 && i%g.columns == 0 {
			o.fixed.hairline("strip", "", levelLine(), point{X: o.space.Min.X, Y: b.Min.Y}, point{X: o.space.Max.X, Y: b.Min.Y})
		}
		o.fixed.write("strip", g.words(i, sentence), b.Min.X, b.Min.Y+1, render.Start)
		b.Min.X, b.Max.X = b.Min.X+g.sentence+panelGap, b.Max.X-panelGap
		if job.Setting.Facing == request.Right { // the page is mirrored at the end; the panel has to come back to its own sentence
			twice := o.space.Min.X + o.space.Max.X
			b.Min.X, b.Max.X = twice-b.Max.X, twice-b.Min.X
		}
		b.Min.Y, b.Max.Y = b.Min.Y+1, b.Max.Y-1
		panel := *d
		panel.board = newBoard(b, d.inks)
		panel.lens = d.placed(b, focal, .6)
		panel.panel(i)
		d.marks = append(d.marks, panel.marks...)
	}
	title := job.shotCaption(o)
	title.sub = "perspective in eight steps, " + job.Setting.Camera.Spec.Description()
	columns := d.facts(g.wheel, job.Setting.Camera.Spec)
	o.strip(o.fixed, title, [][]fact{columns[0], {{"heavy", "new in this step"}, {"fine", "drawn before"}}, columns[1]}, o.number)
	return o.finish(o.plan.Profile.Title+", steps, perspective", d.board, o.fixed, job.Setting.Facing), nil
}

// shotPanels divides the page into two columns or one, whichever draws largest, and returns the picture's focal length.
func (d *perspective) shotPanels(c canvas, sentences [panelCount]string) (panels, geom.MM) {
	var best panels
	b := d.bounds()
	for columns := 1; columns <= 2; columns++ {
		for _, share := range []geom.MM{.19, .22, .26, .3, .36} {
			g := panels{columns: columns, wide: c.space.Width() / geom.MM(columns)}
			g.sentence = min(sentenceMost, g.wide*share)
			g.high = (c.space.Height() - stripHeight - 2) / geom.MM(panelCount/columns)
			across, up := (g.wide-g.sentence-4*panelGap)/geom.MM(b.Width()), (g.high-panelAbove-panelBelow-2)/geom.MM(b.Height())
			if g.wheel = c.evenBelow(geom.MM(float64(min(across, up)) * float64(d.tall()))); g.wheel > best.wheel && g.hold(sentences) {
				best = g
			}
		}
	}
	return best, c.real(best.wheel) / geom.MM(d.tall())
}

// panel draws the construction up to step i: what is new heavy, what was drawn before in hair lines. Nothing is hidden by a body that does not
// exist yet.
func (d *perspective) panel(i int) {
	steps := [panelCount]func(){
		func() { d.grid(); d.horizon() },
		func() { d.enclosure(); d.thirds() },
		func() { d.between(); d.nearWheels() },
		func() { d.farWheels(); d.axle(0); d.axle(1); d.planes() },
		func() { d.wholeCentreLine(); d.sections() },
		func() { d.pillars(); d.aim(); d.linesOf(view.GlassLine) },
		func() { d.linesOf(view.ArchLine, view.LampLine) },
		func() {
			d.linesBut(view.GlassLine, view.ArchLine, view.LampLine, view.SectionLine, view.CentreLine, view.PillarLine)
		},
	}
	d.prefix, d.bare = fmt.Sprintf("step-%d-", i+1), i < 4
	d.weigh = old
	for _, draw := range steps[:i] {
		draw()
	}
	d.weigh = firm
	if i == panelCount-1 { // a body's shut lines and trim stay finer than its outline
		d.weigh = heavy
	}
	steps[i]()
	if i == panelCount-1 { // the last figure is the whole vehicle: what was drawn for it before is heavy once more
		d.prefix += "whole-"
		d.linesOf(view.GlassLine, view.ArchLine, view.LampLine)
		d.nearWheels()
	}
	d.weigh = nil
	if i == 2 {
		d.numerals()
	}
	d.prefix = ""
}

// firm is how a step's own line is drawn: construction, which is fine on other sheets, is as heavy as the rest in the panel that it is new in.
func firm(k lineKind) lineKind {
	k.width = max(k.width, narrow)
	return heavy(k)
}

// wholeCentreLine draws the centre line with what the body will hide of it.
func (d *perspective) wholeCentreLine() {
	before := d.bare
	d.bare = true
	d.centreLine()
	d.bare = before
}

// sentences tells each step with the numbers of plan and camera.
func (d *perspective) sentences() [panelCount]string {
	p := d.plan
	side := &drawing{plan: p, units: d.units}
	degrees := func(i int) string { return fixed(math.Round(float64(d.wheels[i].Outer.Degrees())), 0) + "°" }
	return [...]string{
		"Draw the horizon at the height of your eye, and the ground in tiles of one wheel.",
		"Stand the box on it: " + side.length(p.Length()) + " long, " + side.length(widthOf(p)) + " wide, " + side.length(p.Height()) + " high, in " + unitName(d.units) + ".",
		fmt.Sprintf("Draw the near wheels on its lower edge, ellipses of %s and %s, and count %d clear wheels between them.", degrees(0), degrees(1), wholeWheels(p.WheelsBetween())),
		"Carry the axles across and draw the far wheels behind.",
		"Draw the centre line over the middle of the box, and cuts across the body where they help.",
		"Draw the A-pillars from foot to head, the near one aimed " + side.length(p.PillarAim()) + " up the front axle's upright; then the glass.",
		"Lift the arches onto the side: they are no ellipses. Wrap the lamps round the corners.",
		"Draw the body through all this, lightly at first, then in one firm line.",
	}
}
