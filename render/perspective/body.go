package perspective

import (
	"cmp"
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/tidy"
)

// fills paints the silhouette and the near tyres, then the visible glass and lamps.
func (d *drawing) fills() {
	body := d.loops(d.silhouette())
	for _, w := range d.wheels[:2] {
		e := render.Ellipse{Shape: d.ellipse(w.Outer)}
		if e.Shape.Short > 0 {
			body = append(body, e.Path()...)
		}
	}
	d.Fill("outline", "", d.Inks.Body, body)
	for _, pane := range d.panes() {
		d.Fill("outline", "", d.Inks.Side, d.loops([][]view.ImagePoint{pane}))
	}
}

// loops maps closed lines to the page.
func (d *drawing) loops(lines [][]view.ImagePoint) render.Path {
	var out render.Path
	for _, l := range lines {
		if len(l) > 2 {
			out = append(out, d.path([][]view.ImagePoint{l}).Close()...)
		}
	}
	return out
}

// body draws the visible lines of the body and its contour, but for sections, centre line and A-pillars.
func (d *drawing) body() {
	d.linesOf(view.EdgeLine, view.DetailLine, view.GlassLine, view.ArchLine, view.LampLine, view.ContourLine)
}

// detailGuides are the guides of lines of the body that can be left out by themselves.
var detailGuides = map[view.LineKind]request.Guide{view.ArchLine: "arches", view.LampLine: "lamps"}

// canvas is where the body's lines are drawn, with the edges of its tyres.
func (d *drawing) canvas() tidy.Canvas {
	const chords = 96
	out := tidy.Canvas{Focal: d.focal, Wheel: d.length(d.nearHeight())}
	for _, w := range d.wheels {
		for _, e := range []view.Ellipse{w.Outer, w.Inner} {
			var run []view.ImagePoint
			for k := range chords + 1 {
				run = append(run, e.At(2*math.Pi*float64(k)/chords))
			}
			out.Others = append(out.Others, run)
		}
	}
	return out
}

// tidied returns the body's lines with what is seen of them, without double strokes and stray dashes.
func (d *drawing) tidied() []lineRuns {
	out := slices.Clone(d.lines())
	lines := slice.Map(out, func(l lineRuns) tidy.Line {
		if l.kind == view.PillarLine && !d.wants("pillar") {
			return tidy.Line{Kind: l.kind}
		}
		return tidy.Line{Kind: l.kind, Runs: l.seen, Fixed: l.kind == view.PillarLine}
	})
	for i, runs := range d.canvas().Lines(lines) {
		out[i].seen = runs
	}
	return out
}

// linesOf draws the visible parts of the body's lines of some kinds, each in the style of its kind.
func (d *drawing) linesOf(kinds ...view.LineKind) {
	lines, lenses := d.tidyLines(), [][]view.ImagePoint(nil)
	for _, l := range lines {
		if l.kind == view.LampLine && d.wants("lamps") {
			lenses = append(lenses, l.seen...)
		}
	}
	for _, l := range lines {
		if l.kind == view.DetailLine {
			l.seen = tidy.Outside(l.seen, lenses)
		}
		guide := cmp.Or(detailGuides[l.kind], "outline")
		if slices.Contains(kinds, l.kind) && d.wants(guide) {
			d.polylines(guide, l.name, counting.BodyStyle(l.kind), l.seen)
		}
	}
}

// cuts draws sections or the centre line: what is visible, or all of it.
func (d *drawing) cuts(lines []lineRuns, style draft.LineStyle, whole bool) {
	for _, l := range lines {
		runs := l.seen
		if whole {
			runs = l.whole
		}
		d.polylines("sections", l.name, style, runs)
	}
}

func (d *drawing) crossSections() { d.cuts(d.sections(), sectionLine(), d.noBody) }
func (d *drawing) centreLine()    { d.centre(d.noBody) }

// centre draws the centre line: what is visible, or all of it.
func (d *drawing) centre(whole bool) {
	lines := slices.DeleteFunc(slices.Clone(d.lines()), func(l lineRuns) bool { return l.kind != view.CentreLine })
	d.cuts(lines, centreLine(), whole)
}

// pillars draws both A-pillars from foot to head as far as they are seen; where they are asked for, hidden parts too, in dashes.
func (d *drawing) pillars() {
	for _, l := range d.lines() {
		switch {
		case l.kind != view.PillarLine:
		case d.noBody || len(l.hidden) == 0:
			d.polylines("pillar", l.name, counting.PillarLine(), l.whole)
		case d.asked("pillar"):
			d.polylines("pillar", l.name, hiddenPillarLine(), l.whole)
			d.polylines("pillar", "", counting.PillarLine(), l.seen)
		default:
			foot, head := l.whole[0][0], l.whole[0][len(l.whole[0])-1]
			d.polylines("pillar", l.name, counting.PillarLine(), slices.DeleteFunc(slices.Clone(l.seen), func(run []view.ImagePoint) bool {
				between := run[0] != foot && run[len(run)-1] != head // two hidden parts a bit reads as a dash
				return between && d.canvas().Length(run) < d.canvas().Short()
			}))
		}
	}
}

// aim extends the near A-pillar to its aim on the front axle's upright. The extension is straight in side view, from the pillar's foot on
// the body out to the plane of the tyre's outer edge.
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
		d.Circle(counting.RingLine().For("pillar", "pillar-mark"), draft.Circle{Centre: d.toPage(run[chords]), R: .9})
	}
}
