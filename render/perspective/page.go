package perspective

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// The room round a perspective, in mm: lanes for words beside the box, and over and under it.
const (
	roomLeft  geom.MM = 24
	roomRight geom.MM = 26
	roomAbove geom.MM = 6
	roomBelow geom.MM = 14
)

// page draws one sheet, with the near wheel as tall as fits or as asked for.
func (p Sheets) page(o counting.Page, s *projection) (render.Page, error) {
	d := newDrawing(draft.NewSurface(o.Space, draft.InksOf(p.Ink(o.Kind))), s, p.Setting.Units, o.Enlargement)
	d.onScreen = p.OnScreen
	d.Space.Max.Y -= draft.TitleBlockHeight + 3
	switch o.Kind {
	case request.Steps:
		return p.steps(o, d)
	case request.Demonstration:
		return p.demonstration(o, d)
	}
	if p.HasBlanks() {
		d.Space.Min.Y += draft.NewBlankGrid(d.blanks(p.Setting.GivenLevel()), o.Space).Height()
	}
	room := d.Space
	room.Min, room.Max = room.Min.Add(draft.Pt(roomLeft, roomAbove)), room.Max.Sub(draft.Pt(roomRight, roomBelow))
	wheel, err := p.nearWheel(o, geom.MM(float64(s.focalFor(room))*float64(s.nearHeight())))
	if err != nil {
		return render.Page{}, err
	}
	d.mapping = s.place(room, o.FromPaper(wheel)/geom.MM(s.nearHeight()), .62)
	title := counting.Caption(p.Request, o.Plan, p.Setting.Camera.Spec.Description())
	switch o.Kind {
	case request.Trace:
		d.trace(p.Setting.Guides)
	case request.Practice:
		d.practice(p.Setting.GivenLevel())
		sentence := practiceTasks[p.Setting.GivenLevel()] + ", then write what you read, in " + counting.UnitName(d.units) + "."
		draft.Form{Heading: "Practice", Sentence: sentence, Blanks: d.blanks(p.Setting.GivenLevel())}.Write(o.Fixed)
		title = draft.Caption{Heading: title.Heading, Sub: "practice in perspective, facing " + string(p.Setting.Facing)}
	case request.Answer:
		d.answer(p.Setting)
		sentence := counting.AnswerSentence(d.units, " or 2°")
		draft.Form{Heading: "Answer", Sentence: sentence, Filled: true, Blanks: d.blanks(p.Setting.GivenLevel())}.Write(o.Fixed)
	default:
		if d.full(p.Setting); p.Setting.Legend && !d.Legend(o.OverTitleBlock(), legendEntries()) {
			// all kinds of sheet share the near wheel, which does not give way
			return render.Page{}, fmt.Errorf("%s: no room for the legend on %s with a near wheel of %s; want a smaller --near-wheel",
				o.Plan.Profile.Name, o.Paper.Name, draft.FormatMM(wheel))
		}
	}
	p.titleBlock(o, title, d.facts(wheel, p.Setting.Camera.Spec))
	page := o.Finish(fmt.Sprintf("%s, %s, perspective", o.Plan.Profile.Title, o.Kind), d.Surface, o.Fixed, p.Setting.Facing)
	page.Data = d.data(o, p.Setting.Facing)
	return page, nil
}

// titleBlock writes the title block with the facts; on a trace sheet all but the unit of lengths in two lines.
func (p Sheets) titleBlock(o counting.Page, title draft.Caption, facts [][]draft.Fact) {
	if o.Kind == request.Trace {
		o.TraceTitle(p.Request, facts[0][0], cameraRemark(facts[:3]))
	} else {
		o.TitleBlock(o.Fixed, title, facts, o.Number)
	}
}

// nearWheel returns the near wheel on paper, in mm: as asked for, or the largest even size that fits in largest, which is on the canvas.
func (p Sheets) nearWheel(o counting.Page, largest geom.MM) (geom.MM, error) {
	most := o.FloorEven(largest)
	switch asked := p.Setting.Camera.NearWheel; {
	case most < counting.LeastWheel:
		return 0, fmt.Errorf("%s does not fit on %s in perspective: not even with a near wheel of %s; %s",
			o.Plan.Profile.Name, o.Paper.Name, draft.FormatMM(counting.LeastWheel), o.Paper.Cure())
	case asked > most:
		return 0, fmt.Errorf("%s does not fit on %s with a near wheel of %s; --near-wheel %gmm fits",
			o.Plan.Profile.Name, o.Paper.Name, draft.FormatMM(asked), float64(most))
	case asked > 0:
		return asked, nil
	}
	return most, nil
}

// draw draws the parts of a guide in order, if it is chosen.
func (d *drawing) draw(guide request.Guide, parts ...func()) {
	if d.wants(guide) {
		for _, part := range parts {
			part()
		}
	}
}

// wants reports whether a guide is drawn.
func (d *drawing) wants(guide request.Guide) bool {
	return d.guides == nil || slices.Contains(d.guides, guide)
}

// asked reports whether what the body hides of a guide is drawn: where the guide was chosen by its name, and where the body is not drawn.
func (d *drawing) asked(guide request.Guide) bool {
	return d.construction || slices.Contains(d.guides, guide)
}

// choose leaves out all guides but those chosen. Without an outline nothing hides them.
func (d *drawing) choose(guides []request.Guide) {
	d.guides = guides
	d.noBody = !d.wants("outline")
}

// full draws everything chosen, back to front.
func (d *drawing) full(s request.Setting) {
	d.choose(s.Guides)
	d.construction = s.Outline == request.OutlineOff
	if !d.noBody {
		d.look(!d.construction, d.wants("sections"))
	}
	d.draw("grid", d.grid)
	d.draw("horizon", d.horizon)
	if s.Outline != request.OutlineOff {
		d.draw("outline", d.fills)
		d.body()
	}
	d.draw("sections", d.crossSections, d.centreLine)
	d.draw("box", d.enclosure, d.thirds)
	d.draw("between", d.between)
	d.draw("wheels", d.farWheels, d.nearWheels)
	d.draw("axles", d.axlePlanes, d.uprights)
	d.nearAxes()
	d.draw("pillar", d.pillars, d.aim)
	d.draw("heights", func() { d.levels(s.Labels != request.NoLabels) })
	if s.Labels != request.NoLabels {
		d.draw("between", d.counts)
		d.draw("wheels", d.ellipseLabels)
		d.draw("vanishing", d.vanishing)
	}
}

// trace draws what is traced by hand, without words.
func (d *drawing) trace(guides []request.Guide) {
	d.choose(guides)
	if !d.noBody {
		d.look(false, false)
	}
	d.draw("horizon", d.horizon)
	d.Restyle = func(k draft.LineStyle) draft.LineStyle {
		if k.Role == draft.Soft { // the body's lines must stand out among wheels and box
			k.Role = draft.Plain
		}
		return k
	}
	d.body()
	d.draw("sections", d.centreLine)
	d.Restyle = nil
	d.draw("box", d.enclosure)
	d.draw("wheels", d.farWheels, d.nearWheels)
	d.draw("axles", d.uprights)
	d.nearAxes()
	d.draw("pillar", d.pillars, d.aim)
}

// facts are the columns of the title block: what is needed to check the image with a ruler.
func (d *drawing) facts(wheel geom.MM, asked view.CameraSpec) [][]draft.Fact {
	st := d.camera.Spec
	eye := fmt.Sprintf("%.0f mm", float64(d.plan.OnVehicle(st.Eye)))
	distance := fmt.Sprintf("%.1f m", float64(d.plan.OnVehicle(st.Distance))/1000)
	columns := [][]draft.Fact{
		{{Name: "near wheel on paper", Value: draft.FormatMM(wheel)}, {Name: "eye at", Value: eye}},
		{{Name: "distance", Value: distance}},
		{{Name: "turn", Value: draft.FormatFixed(float64(st.Turn), 0) + "°"}},
		counting.UnitFacts(d.units, d.plan),
	}
	if asked.Distance == 0 && asked.DistanceMM == 0 { // otherwise the distance was given, not the lens
		columns[1] = append(columns[1], draft.Fact{Name: "lens", Value: draft.FormatTrimmed(float64(st.Lens), 1) + " mm"})
	}
	if st.Tilt != 0 {
		columns[2] = append(columns[2], draft.Fact{Name: "looks down", Value: draft.FormatFixed(float64(st.Tilt), 0) + "°"})
	}
	return columns
}

// cameraRemark is all facts but the first in one line.
func cameraRemark(columns [][]draft.Fact) string {
	return strings.Join(slice.Map(slices.Concat(columns...)[1:], func(f draft.Fact) string { return f.Name + " " + f.Value }), ", ")
}

// data records the camera and the mapping for other programs. Facing right, the drawing is mirrored about the middle of its space, but
// readers of the file mirror about the middle of the page: the origin is shifted so that both agree.
func (d *drawing) data(o counting.Page, facing request.Facing) []render.Datum {
	rounded := func(grain, x float64) string { return strconv.FormatFloat(math.Round(x*grain)/grain+0, 'f', -1, 64) }
	origin := d.origin
	if facing == request.Right {
		origin.X += o.FromPaper(o.Paper.Width) - o.Space.Min.X - o.Space.Max.X
	}
	e := d.camera.Eye
	return []render.Datum{
		{Name: "eye", Value: rounded(1e9, float64(e.X)) + " " + rounded(1e9, float64(e.Y)) + " " + rounded(1e9, float64(e.Z))},
		{Name: "turn", Value: rounded(1e6, float64(d.camera.Spec.Turn))},
		{Name: "tilt", Value: rounded(1e6, float64(d.camera.Spec.Tilt))},
		{Name: "scale", Value: rounded(1e6, float64(d.focal)*o.Enlargement)},
		{Name: "origin", Value: rounded(1e6, float64(origin.X)*o.Enlargement) + " " + rounded(1e6, float64(origin.Y)*o.Enlargement)},
	}
}
