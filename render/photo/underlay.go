package photo

import (
	"hubrule/internal/geom"
	"hubrule/layout/outline"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/perspective"
)

// underlay draws the vehicle that the picture is held against: on a photograph as its camera would see it, on a sketch as its sheet does.
func (d *drawing) underlay() error {
	d.Restyle = func(k draft.LineStyle) draft.LineStyle {
		k.Role = draft.Accent
		return k
	}
	defer func() { d.Restyle = nil }()
	pose, ok := d.picture.Pose()
	if !ok {
		d.flatUnderlay()
		return nil
	}
	near := view.NewSolid(*d.Against).Wheels()[0].Centre.Z
	eye := pose.Eye
	eye.Z += near
	return perspective.Underlay(d.Surface, *d.Against, view.Sighted(eye, pose.Right, pose.Forward), perspective.Place{
		Axis: d.onPage(pose.Axis), Focal: geom.MM(pose.Focal) * d.scale,
	})
}

// flatUnderlay draws the outline in the plane of the sheet.
func (d *drawing) flatUnderlay() {
	const chords = 12
	for _, l := range outline.Of(*d.Against).Lines {
		style := counting.OutlineLine()
		switch l.Kind {
		case outline.Body:
			style = counting.BodyLine()
		case outline.Hairline:
			style = counting.DetailLine()
		}
		var path render.Path
		for _, run := range l.Path.Flatten(chords) {
			for i, p := range run {
				if at := d.at(p.X, p.Y, 0); i == 0 {
					path = path.Move(at)
				} else {
					path = path.Line(at)
				}
			}
		}
		d.Curve(style.For("outline", "outline-"+l.Name), path, 1)
	}
	d.circle(counting.TyreLine().For("outline", ""), d.Against.Wheelbase(), d.Against.RearRadius(), d.Against.RearRadius())
	foot, head := d.Against.PillarFoot(), d.Against.PillarHead()
	d.line(counting.PillarLine().For("pillar", "pillar"), d.at(foot.X, foot.Y, 0), d.at(head.X, head.Y, 0))
}
