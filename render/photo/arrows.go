package photo

import (
	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// arrows points from where a level, an end or the rear wheel was read to where it is wanted.
func (d *drawing) arrows() {
	sure, _ := d.moves()
	moves := map[segments.Figure]geom.Wheels{}
	for _, m := range sure {
		moves[m.Figure] = geom.Wheels(m.Move)
	}
	onMark := func(n reading.Name, dx, dy geom.Wheels) {
		if at, ok := d.picture.Mark(n, 0); ok {
			depth := d.picture.DepthOf(n, 0)
			d.arrow(d.onPage(at), d.at(dx, .5+dy, depth).Sub(d.at(0, .5, depth)))
		}
	}
	onMark(reading.Roof, 0, moves[segments.Height])
	onMark(reading.SillEdge, 0, moves[segments.Sill])
	onMark(reading.Nose, -moves[segments.FrontOverhang], 0)
	rear := moves[segments.WheelsBetween]
	onMark(reading.Tail, rear+moves[segments.RearOverhang], 0)
	onMark(reading.GlassEnd, rear+moves[segments.GlassEnd], 0)
	middle, radius := d.base/2, d.q/2
	if y, ok := d.length(segments.Belt); ok {
		at := d.at(middle, y, d.picture.DepthOf(reading.BeltLine, 0))
		d.arrow(at, d.at(middle, y+moves[segments.Belt], 0).Sub(d.at(middle, y, 0)))
	}
	if y, ok := d.length(segments.PillarAim); ok {
		d.arrow(d.at(0, y, 0), d.at(0, y+moves[segments.PillarAim], 0).Sub(d.at(0, y, 0)))
	}
	d.arrow(d.at(d.base, radius, 0), d.at(d.base+rear, radius, 0).Sub(d.at(d.base, radius, 0)))
}

// arrow draws an arrow whose tip lies off a point by so much. A short one begins before the point.
func (d *drawing) arrow(from, by draft.Point) {
	const shortest, head, half geom.MM = 6, 2.2, .75
	length := by.Len()
	if length < .05 || !d.shows(from) {
		return
	}
	way := by.Unit()
	tip := from.Add(by)
	style := draft.LeaderLine()
	style.Role, style.Width = draft.Accent, draft.MediumWide
	neck, side := tip.Sub(way.Times(float64(head))), draft.Pt(-way.Y, way.X).Times(float64(half))
	d.Line(style.For("ticks", ""), tip.Sub(way.Times(float64(max(length, shortest)))), neck)
	ink := d.Inks.Colours[draft.Accent]
	d.Fill("ticks", "", &ink, render.Path{}.Move(tip).Line(neck.Add(side)).Line(neck.Sub(side)).Line(tip))
}
