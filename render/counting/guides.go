package counting

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/outline"
	"hubrule/layout/view"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// Lamp boxes are this long: a mark for the height, not the lens, whose length the outline shows.
const (
	FrontLampLength geom.Wheels = .30
	RearLampLength  geom.Wheels = .24
)

// Lamps draws a box for each lamp, open at nose and tail; over the outline, which shows the lens, only the levels, from the silhouette.
func (d *Drawing) Lamps() {
	p := d.Plan
	box := func(id string, base, outer, inner geom.Wheels) {
		level := func(id string, y geom.Wheels) {
			from := outer
			if d.body != nil {
				from = d.body.SkinAt(y, inner > outer)
			}
			to := from + inner - outer
			d.Level(GuideLine().For("lamps", id), y, d.X(min(from, to)), d.X(max(from, to)))
		}
		level(id, base)
		level(id+"-top", base+p.LampDepth())
		if d.body == nil {
			d.Upright(GuideLine().For("lamps", id+"-end"), inner, base, base+p.LampDepth())
		}
	}
	box("lamp-front", p.FrontLamp(), p.Nose(), p.Nose()+FrontLampLength)
	box("lamp-rear", p.RearLamp(), p.Tail(), p.Tail()-RearLampLength)
}

// GlassEnd draws where the side glass ends: from the ground if the tyre is near, else only about the belt and above.
func (d *Drawing) GlassEnd() {
	p := d.Plan
	foot := geom.Wheels(0)
	if p.GlassEnd() < p.RearEdge()-.5 {
		foot = p.Belt() - .25
	}
	d.Upright(GlassLine().For("glass", "glass-end"), p.GlassEnd(), foot, p.Height()+d.OverRoof())
}

// Pillar draws the A-pillar from foot to head, on to its aim on the front axle's vertical, and the band the aim may move in.
func (d *Drawing) Pillar(band bool) {
	p := d.Plan
	aim := layout.Point{Y: p.PillarAim()}
	if band {
		lo, hi := layout.Point{Y: geom.Wheels(p.AimRange().Lo)}, layout.Point{Y: geom.Wheels(p.AimRange().Hi)}
		d.Fill("pillar", "", d.Inks.Wash, d.Path(layout.Path{}.Move(lo).Line(hi).Line(p.PillarHead()).Close()))
		d.rule(bandLine().For("pillar", "pillar-low"), lo, p.PillarHead())
		d.rule(bandLine().For("pillar", "pillar-high"), hi, p.PillarHead())
		for _, end := range []layout.Point{lo, hi} {
			d.Tick(bandLine().For("pillar", ""), d.OnPage(end), draft.Pt(1.2, 0))
		}
	}
	below := aim.Y < 0
	if below {
		// It crosses the axle's vertical below the ground, where rules and words are: it is drawn down to the ground.
		aim = layout.Point{X: p.PillarFoot().X - geom.Wheels(float64(p.PillarFoot().Y)/p.PillarRake().Tan())}
	}
	d.rule(AimLine().For("pillar", "pillar-aim"), aim, p.PillarFoot())
	d.rule(PillarLine().For("pillar", "pillar"), p.PillarFoot(), p.PillarHead())
	if !below {
		d.Circle(RingLine().For("pillar", "pillar-mark"), draft.Circle{Centre: d.OnPage(aim), R: .9})
	}
}

// Angles draws the ground angles: the line that touches a tyre and passes the lower corner ahead of it or behind it, as far as
// the guides reach, and the ramp under the belly.
func (d *Drawing) Angles() {
	approach, departure, rampFront, rampRear := d.Plan.AngleLines()
	from, to := d.AngleEnds()
	d.rule(AngleLine().For("checks", "angle-approach"), approach.Touch, from)
	d.rule(AngleLine().For("checks", "angle-departure"), departure.Touch, to)
	d.rule(AngleLine().For("checks", "angle-breakover-front"), rampFront.Touch, rampFront.Corner)
	d.rule(AngleLine().For("checks", "angle-breakover-rear"), rampRear.Touch, rampRear.Corner)
}

// AngleEnds returns where the lines of approach and departure end: a little ahead of the nose, and at the upright rule; steep ones at
// the roof's height.
func (d *Drawing) AngleEnds() (front, rear layout.Point) {
	const ahead geom.Wheels = .25
	approach, departure, _, _ := d.Plan.AngleLines()
	front = approach.ExtendTo(d.Plan.Nose()-ahead, d.Plan.Height())
	end := d.Plan.Tail() + ahead
	if d.RuleX > 0 {
		end = d.Wheels(d.LevelsEnd - d.Origin.X)
	}
	return front, departure.ExtendTo(end, d.Plan.Height())
}

// Ground draws the road between two x of the page.
func (d *Drawing) Ground(from, to geom.MM) {
	d.Level(GroundLine().For("ground", "ground"), 0, from, to)
}

// Step draws one guide.
type Step struct {
	Guide request.Guide
	Draw  func()
}

// DrawFigure draws the outline if asked for, the levels and the steps, as far as their guides are wanted.
func (d *Drawing) DrawFigure(outline bool, steps ...Step) {
	if outline && d.Wants("outline") {
		d.Outline()
	}
	d.DrawLevels()
	d.DrawSteps(steps...)
}

// DrawSteps draws those of the steps whose guides are wanted.
func (d *Drawing) DrawSteps(steps ...Step) {
	for _, s := range steps {
		if d.Wants(s.Guide) {
			s.Draw()
		}
	}
}

// Outline draws the body over the guides: fills first, hair lines inside.
func (d *Drawing) Outline() {
	body := outline.Of(d.Plan)
	d.body = &body
	for _, l := range body.Lines {
		id, style, fill, chords := "outline-"+l.Name, OutlineLine(), d.Inks.Side, 8
		switch l.Kind {
		case outline.Body:
			id, style, fill = "outline", BodyLine(), d.Inks.Body
		case outline.Lamp:
			style, chords = DetailLine(), 4
		case outline.Hairline:
			style, fill, chords = DetailLine(), nil, 4
		case outline.Dashed:
			style, fill = raisedLine(), nil
		}
		path := d.Path(l.Path)
		d.Fill("outline", "", fill, path)
		d.Curve(style.For("outline", id), path, chords)
	}
}

// The styles of line that guides have.
func GroundLine() draft.LineStyle    { return draft.NewLineStyle(draft.Wide, draft.Strong) }
func TyreLine() draft.LineStyle      { return draft.NewLineStyle(draft.Wide, draft.Strong) }
func RimLine() draft.LineStyle       { return draft.NewLineStyle(draft.Hair, draft.Plain) }
func CountedLine() draft.LineStyle   { return draft.NewLineStyle(draft.Fine, draft.Plain, 12, 3) }
func SpareLine() draft.LineStyle     { return draft.NewLineStyle(draft.Fine, draft.Plain, 1.2, 3) }
func AxleLine() draft.LineStyle      { return draft.NewLineStyle(draft.Narrow, draft.Muted, 24, 3, 2, 3) }
func RoofLine() draft.LineStyle      { return draft.NewLineStyle(draft.Narrow, draft.Plain, 24, 3) }
func SillLine() draft.LineStyle      { return draft.NewLineStyle(draft.Narrow, draft.Plain, 6, 3) }
func ClearanceLine() draft.LineStyle { return draft.NewLineStyle(draft.Narrow, draft.Plain, 2, 2) }
func GlassLine() draft.LineStyle     { return draft.NewLineStyle(draft.Narrow, draft.Plain, 24, 3, 6, 3) }
func AngleLine() draft.LineStyle     { return draft.NewLineStyle(draft.Narrow, draft.Strong, 16, 4) }
func GuideLine() draft.LineStyle     { return draft.NewLineStyle(draft.Narrow, draft.Plain) } // belt, arches, lamps, nose, tail
func PillarLine() draft.LineStyle    { return draft.NewLineStyle(draft.Wide, draft.Accent) }
func AimLine() draft.LineStyle {
	return draft.NewLineStyle(draft.Narrow, draft.Accent, 24, 3, 2, 3, 2, 3)
}
func bandLine() draft.LineStyle    { return draft.NewLineStyle(draft.Hair, draft.Accent) }
func RingLine() draft.LineStyle    { return draft.NewLineStyle(draft.Narrow, draft.Accent) }
func BodyLine() draft.LineStyle    { return draft.NewLineStyle(draft.MediumWide, draft.Body) }
func OutlineLine() draft.LineStyle { return draft.NewLineStyle(draft.Narrow, draft.Soft) }
func DetailLine() draft.LineStyle  { return draft.NewLineStyle(draft.Hair, draft.Soft) }
func raisedLine() draft.LineStyle  { return draft.NewLineStyle(draft.Hair, draft.Soft, 12, 6) } // the roof of an open car
func levelLine() draft.LineStyle   { return draft.NewLineStyle(draft.Hair, draft.Plain) }

// BodyStyle returns the style of a line of the vehicle. In flat views the contour is one edge among others.
func BodyStyle(kind view.LineKind) draft.LineStyle {
	switch kind {
	case view.ContourLine:
		return draft.NewLineStyle(.35, draft.Soft)
	case view.DetailLine:
		return DetailLine()
	}
	return OutlineLine()
}
