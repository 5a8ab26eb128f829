package perspective

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// fills paints what the vehicle covers, but for the near tyres' faces, and the glass and lamps that are seen of it.
func (d *drawing) fills() {
	body := d.loops(d.silhouette)
	for _, w := range d.wheels[:2] {
		e := render.Ellipse{Shape: d.ellipse(w.Outer)}
		if e.Shape.Short > 0 {
			body = append(body, e.Path()...)
		}
	}
	d.Fill("outline", "", d.Inks.Body, body)
	for _, pane := range d.scene.Panes() {
		d.Fill("outline", "", d.Inks.Side, d.loops([][]view.ImagePoint{pane}))
	}
}

// loops carries closed lines to the page.
func (d *drawing) loops(lines [][]view.ImagePoint) render.Path {
	var out render.Path
	for _, l := range lines {
		if len(l) > 2 {
			out = append(out, d.path([][]view.ImagePoint{l}).Close()...)
		}
	}
	return out
}

// bodyGuide returns the layer that a line of the body lies on.
func bodyGuide(kind view.LineKind) request.Guide {
	switch kind {
	case view.SectionLine, view.CentreLine:
		return "sections"
	case view.ArchLine:
		return "arches"
	case view.LampLine:
		return "lamps"
	case view.PillarLine:
		return "pillar"
	}
	return "outline"
}

// bodyLine draws what is seen of a line of the body, in the pen of its kind: the contour heaviest, edges lighter, joints between panels
// as hair lines.
func (d *drawing) bodyLine(l lineRuns) {
	d.polylines(bodyGuide(l.kind), l.name, counting.BodyStyle(l.kind), l.seen)
}

// body draws what is seen of the body's own lines and its contour, but for sections, centre line and A-pillars.
func (d *drawing) body() { d.linesExcept(view.SectionLine, view.CentreLine, view.PillarLine) }

// linesOf draws what is seen of the body's lines of some kinds.
func (d *drawing) linesOf(kinds ...view.LineKind) {
	for _, l := range d.lines {
		if slices.Contains(kinds, l.kind) {
			d.bodyLine(l)
		}
	}
}

// linesExcept draws what is seen of all other lines.
func (d *drawing) linesExcept(kinds ...view.LineKind) {
	for _, l := range d.lines {
		if !slices.Contains(kinds, l.kind) {
			d.bodyLine(l)
		}
	}
}

// cutLines draws the lines of a kind in a pen: what is seen of them, or all of a body that does not exist yet.
func (d *drawing) cutLines(kind view.LineKind, pen draft.LineStyle) {
	for _, l := range d.lines {
		switch {
		case l.kind != kind:
		case d.noBody:
			d.polylines("sections", l.name, pen, l.whole)
		default:
			d.polylines("sections", l.name, pen, l.seen)
		}
	}
}

// sections draws the cuts across the body.
func (d *drawing) sections() { d.cutLines(view.SectionLine, sectionLine()) }

// centreLine draws the centre line.
func (d *drawing) centreLine() { d.cutLines(view.CentreLine, centreLine()) }

// pillars draws both A-pillars from foot to head: whole, and what is hidden of one as a dashed line.
func (d *drawing) pillars() {
	for _, l := range d.lines {
		if l.kind != view.PillarLine {
			continue
		}
		if d.noBody || len(l.hidden) == 0 {
			d.polylines("pillar", l.name, counting.PillarLine(), l.whole)
			continue
		}
		d.polylines("pillar", l.name, hiddenPillarLine(), l.whole)
		d.polylines("pillar", "", counting.PillarLine(), l.seen)
	}
}

// aim draws the near A-pillar's extension to its aim on the front axle's upright. The pillar leans in with the glass; its line is
// carried on in the side view, in the plane between its foot and the tyre's outer edge.
func (d *drawing) aim() {
	p := d.plan
	end := layout.Point{Y: p.PillarAim()}
	if end.Y < 0 {
		end = layout.Point{X: p.PillarFoot().X - geom.Wheels(float64(p.PillarFoot().Y)/p.PillarRake().Tan())}
	}
	near := d.wheels[0].Wheel.Centre.Z
	from := d.solid.HalfWidth(p.PillarFoot())
	var run []view.ImagePoint
	const chords = 24
	for i := range chords + 1 {
		t := float64(i) / chords
		q := p.PillarFoot().Lerp(end, t)
		run = append(run, d.camera.Project(view.Point3{X: q.X, Y: q.Y, Z: from + geom.Wheels(t)*(near-from)}))
	}
	d.polylines("pillar", "pillar-aim", counting.AimLine(), [][]view.ImagePoint{run})
	if p.PillarAim() >= 0 {
		d.Circle("pillar", "pillar-mark", counting.RingLine(), draft.Circle{Centre: d.toPage(run[chords]), R: .9})
	}
}
