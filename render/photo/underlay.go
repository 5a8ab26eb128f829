package photo

import (
	"slices"
	"strings"

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
	before := len(d.Marks)
	defer func() { d.Restyle, d.Marks = nil, append(d.Marks[:before:before], d.clipped(d.Marks[before:])...) }()
	pose, photograph := d.picture.Pose()
	if !photograph {
		d.Restyle = func(k draft.LineStyle) draft.LineStyle {
			k.Role = draft.Accent
			return k
		}
		d.flatUnderlay()
		return nil
	}
	d.Restyle = func(k draft.LineStyle) draft.LineStyle {
		return draft.LineStyle{Width: max(k.Width, draft.Narrow), Dash: k.Dash, Role: draft.Accent}
	}
	const least geom.Wheels = .3 // the contours of door mirrors are shorter
	eye := pose.Eye
	eye.Z += view.NewSolid(*d.Against).Wheels()[0].Centre.Z
	err := perspective.Underlay(d.Surface, *d.Against, view.Sighted(eye, pose.Right, pose.Forward), perspective.Place{
		Axis: d.onPage(pose.Axis), Focal: geom.MM(pose.Focal) * d.scale,
	})
	d.Marks = append(d.Marks[:before:before], edged(d.Marks[before:], d.at(0, .5, 0).Sub(d.at(least, .5, 0)).Len())...)
	return err
}

// edged returns marks without hidden lines, contours shorter than least and what else only crowds others, each over a white line that is
// wider, so that they show on any colour.
func edged(marks []render.Mark, least geom.MM) []render.Mark {
	const edge geom.MM = .12
	under := func(p render.Pen) render.Pen { return render.Pen{Width: p.Width + 2*edge, Ink: white} }
	var edges, lines []render.Mark
	for _, m := range marks {
		tag := *m.Tag()
		crowds := slices.ContainsFunc(noise, func(prefix string) bool { return strings.HasPrefix(tag.ID, prefix) })
		switch m := m.(type) {
		case *render.Stroke:
			if tag.ID == "contour" {
				m.Path = longRuns(m.Path, least)
				crowds = len(m.Path) == 0
			}
			tag.ID = ""
			if crowds = crowds || m.Pen.Dash != nil; !crowds {
				edges = append(edges, &render.Stroke{Tagged: tag, Path: m.Path, Pen: under(m.Pen)})
			}
		case *render.Ellipse:
			tag.ID = ""
			if crowds = crowds || m.Pen.Dash != nil; !crowds {
				edges = append(edges, &render.Ellipse{Tagged: tag, Shape: m.Shape, From: m.From, To: m.To, Pen: under(m.Pen)})
			}
		}
		if !crowds {
			lines = append(lines, m)
		}
	}
	return append(edges, lines...)
}

// longRuns returns the runs of a path that reach so far across or up.
func longRuns(p render.Path, least geom.MM) (out render.Path) {
	for len(p) > 0 {
		box, n := geom.BoxOf(p[0].To), 1
		for ; n < len(p) && p[n].Verb != geom.MoveTo; n++ {
			if p[n].Verb != geom.Close {
				box = geom.BoxOf(box.Min, box.Max, p[n].To)
			}
		}
		if max(box.Width(), box.Height()) >= least {
			out = append(out, p[:n]...)
		}
		p = p[n:]
	}
	return out
}

// noise is what the ids of marks begin with that only crowd the lines beside them.
var noise = []string{"mirror-", "tread-", "wheel-inner-", "plate-"}

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
