package sheet

import (
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/request"
	"hubrule/segments"
)

// in returns words in the role of plan k: the accent for all but the base.
func in(k int, ws ...word) []word {
	for i := range ws {
		if k > 0 {
			ws[i].role = accent
		}
	}
	return ws
}

// rungs lists the levels of all plans; one that all share is named once.
func (o *overlayPage) rungs(all *drawing) []rung {
	var out []rung
	for _, l := range []struct {
		guide request.Guide
		of    func(layout.Plan) geom.Wheels
	}{
		{"roof", func(p layout.Plan) geom.Wheels { return p.Height() }},
		{"belt", func(p layout.Plan) geom.Wheels { return p.Belt() }},
		{"sill", func(p layout.Plan) geom.Wheels { return p.Sill() }},
	} {
		if !all.wants(l.guide) {
			continue
		}
		shared := true
		for _, p := range o.plans {
			off := all.long(l.of(p) - l.of(o.plans[0]))
			shared = shared && max(off, -off) < one
		}
		for k, p := range o.plans {
			d := o.drawing(p, all.place)
			text := name(string(l.guide) + ", " + o.names[k] + " ")
			if shared {
				text = name(string(l.guide) + " ")
			}
			out = append(out, rung{l.of(p), .3, newLabel(in(k, text, value(d.length(l.of(p)))))})
			if shared {
				break
			}
		}
	}
	return out
}

// pillars writes the rake of every A-pillar at the end of a level arm, where there is room for it; the table has it in any case.
func (o *overlayPage) pillars(all *drawing) {
	if !all.wants("pillar") {
		return
	}
	said := map[string]bool{}
	for k, p := range o.plans {
		at := fmt.Sprintf("%.3f %.3f", p.PillarFoot(), p.PillarHead())
		if said[at] {
			continue
		}
		said[at] = true
		d := o.drawing(p, all.place)
		d.board = all.board
		d.pillarArm(newLabel(in(k, name("A-pillar, "+o.names[k]+" "), value(angle(p.PillarRake())))))
	}
}

// key explains the lines, in the corner over the vehicle, which no figure reaches.
func (o *overlayPage) key(b *board) {
	x, y := o.canvas.space.Min.X, o.canvas.space.Min.Y+2
	line := func(i int, k lineKind, ws []word) {
		l := newLabel([]word{shortened(ws[0], o.canvas.space.Width()-keyLong-3)})
		at := y + keyPitch*geom.MM(i)
		b.line("labels", "", k, point{X: x, Y: at}, point{X: x + keyLong, Y: at})
		b.write("labels", l, x+keyLong+3, at-l.lift(), render.Start)
	}
	full := callings(o.plans, o.canvas.space.Width())
	for k := range o.plans {
		pen := lineKind{narrow, []float64{4, 2}, plain}
		if k > 0 {
			pen = variantLine(k)
		}
		line(k, pen, in(k, name(full[k])))
	}
	line(len(o.plans), guideLine(), []word{note("shared by all, drawn once")})
}

// strip returns what the strip of an overlay says.
func (o *overlayPage) strip(wheel geom.MM) (heading, sub string, columns [][]fact) {
	names := callings(o.plans, o.canvas.space.Width())
	heading = o.plans[0].Profile.Title
	for i, p := range o.plans {
		if !slices.ContainsFunc(o.plans[:i], func(q layout.Plan) bool { return q.Profile.Title == p.Profile.Title }) && i > 0 {
			heading += ", " + p.Profile.Title
		}
	}
	sub = "overlay of " + names[0]
	for _, n := range names[1:] {
		sub += " and " + n
	}
	if o.job.Setting.Title != "" {
		heading, sub = o.job.Setting.Title, heading+", "+sub
	}
	first := []fact{{"wheel on paper", onPaper(wheel)}, {lengthsIn, unitName(o.job.Setting.Units)}}
	for _, p := range o.plans {
		if p.OnVehicle(1) != o.plans[0].OnVehicle(1) {
			// Tyre and scale are each vehicle's own: only what all have in common is said of the sheet.
			return heading, sub, [][]fact{first, {{"scale", "by each wheel"}, {"wheels", "see the table"}}}
		}
	}
	own := facts(o.plans[0], wheel, o.job.Setting.Units)
	return heading, sub, [][]fact{first, {own[0][1], own[1][0]}}
}

// unseen reports figures that a side view does not show, and those that are words.
func unseen(f segments.Figure) bool {
	return f == segments.Width || f == segments.Track || f == segments.Tumblehome || f.Info().Unit == segments.AsWord
}
