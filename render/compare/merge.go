package compare

import (
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// mergeWithin is how far apart two lines may lie to be drawn as one: half the width of a narrow line, where prints no longer show two.
const mergeWithin geom.MM = .12

// leastDashed is the radius below which the circles of several plans are not dashed: they would fall apart.
const leastDashed geom.MM = 3

// piecesPerCubic is into how many pieces a cubic is cut to find which of them are shared.
const piecesPerCubic = 12

// merger finds which lines several surfaces share. Each surface holds the lines of one plan.
type merger struct {
	surfaces []*draft.Surface
	segments []map[request.Guide][]draft.Segment // of each surface
}

func newMerger(surfaces []*draft.Surface) merger {
	o := merger{surfaces: surfaces}
	for _, b := range surfaces {
		lines := map[request.Guide][]draft.Segment{}
		for _, m := range b.Marks {
			if s, ok := m.(*render.Stroke); ok {
				lines[request.Guide(s.Guide)] = append(lines[request.Guide(s.Guide)], draft.Chords(s.Path, 24)...)
			}
		}
		o.segments = append(o.segments, lines)
	}
	return o
}

// The owner of a line is the index of a plan, or one of these.
const (
	shared      = -1 // with a later plan
	drawnBefore = -2 // with an earlier plan
)

// owner returns the owner of a line of surface k; has reports whether another surface has it as well. A line of several of the plans is
// drawn as one of all: in the style of one of them it would seem to be that one's alone.
func (o merger) owner(k int, has func(other int) bool) int {
	owner := k
	for j := range o.surfaces {
		switch {
		case j == k || !has(j):
		case j < k:
			return drawnBefore
		default:
			owner = shared
		}
	}
	return owner
}

// restyle returns the style of a line by its owner: was is its style on its own surface.
type restyle func(owner int, m render.Tagged, was draft.LineStyle) draft.LineStyle

// draw draws the lines of all surfaces on out, each once.
func (o merger) draw(out *draft.Surface, style restyle) {
	for k, b := range o.surfaces {
		for _, m := range b.Marks {
			switch m := m.(type) {
			case *render.Circle:
				owner := o.owner(k, func(j int) bool { return o.hasCircle(j, m) })
				if owner == drawnBefore {
					continue
				}
				line := style(owner, m.Tagged, styleOf(m.Pen)).For(request.Guide(m.Guide), planID(k, m.ID))
				if len(o.surfaces) > 2 && m.R < leastDashed {
					line.Dash = nil
				}
				out.Circle(line, draft.Circle{Centre: m.Centre, R: m.R})
			case *render.Stroke:
				o.stroke(k, m, out, style)
			default:
				panic(fmt.Sprintf("compare: an overlay cannot merge %T", m))
			}
		}
	}
}

// styleOf returns the style of a pen in plain ink.
func styleOf(p render.Pen) draft.LineStyle {
	return draft.LineStyle{Width: p.Width, Dash: p.Dash, Role: draft.Plain}
}

// planID prefixes the ids of all plans on a page but the first.
func planID(k int, id string) string {
	if k == 0 || id == "" {
		return id
	}
	return fmt.Sprintf("p%d-%s", k+1, id)
}

func (o merger) hasCircle(j int, c *render.Circle) bool {
	return slices.ContainsFunc(o.surfaces[j].Marks, func(m render.Mark) bool {
		d, ok := m.(*render.Circle)
		return ok && d.Guide == c.Guide && d.Centre.Sub(c.Centre).Len() < mergeWithin && max(d.R-c.R, c.R-d.R) < mergeWithin
	})
}

// stroke draws a line of surface k on out, cut where its owner changes.
func (o merger) stroke(k int, m *render.Stroke, out *draft.Surface, style restyle) {
	guide, parts := request.Guide(m.Guide), 0
	for _, run := range m.Path.Cubics() {
		var path render.Path
		owner := drawnBefore
		flush := func() {
			if owner != drawnBefore && len(path) > 1 {
				id := planID(k, m.ID)
				if parts++; parts > 1 && id != "" {
					id = fmt.Sprintf("%s-part-%d", id, parts)
				}
				out.Curve(style(owner, m.Tagged, styleOf(m.Pen)).For(guide, id), path, 8)
			}
			path = nil
		}
		for _, c := range run {
			for i := 0; i < piecesPerCubic; {
				next, n := o.pieceOwner(k, guide, piece(c, i, i+1)), i+1
				for n < piecesPerCubic && o.pieceOwner(k, guide, piece(c, n, n+1)) == next {
					n++
				}
				part := piece(c, i, n)
				if next != owner || path == nil {
					flush()
					owner, path = next, render.Path{}.Move(part[0])
				}
				if c == geom.Straight(c[0], c[3]) {
					path = path.Line(part[3])
				} else {
					path = path.Curve(part[1], part[2], part[3])
				}
				i = n
			}
		}
		flush()
	}
}

// piece returns the part of c between two of its pieces' ends.
func piece(c geom.Cubic[geom.MM], from, to int) geom.Cubic[geom.MM] {
	return c.Cut(float64(from)/piecesPerCubic, float64(to)/piecesPerCubic)
}

// pieceOwner returns the owner of a piece, by its ends and its middle.
func (o merger) pieceOwner(k int, guide request.Guide, c geom.Cubic[geom.MM]) int {
	return o.owner(k, func(j int) bool {
		return onAny(c.At(0), o.segments[j][guide]) && onAny(c.At(.5), o.segments[j][guide]) && onAny(c.At(1), o.segments[j][guide])
	})
}

// onAny reports whether p lies on one of the lines.
func onAny(p draft.Point, lines []draft.Segment) bool {
	return slices.ContainsFunc(lines, func(s draft.Segment) bool {
		if !geom.BoxOf(s.A, s.B).Grow(2 * mergeWithin).Contains(geom.BoxOf(p, p)) { // most lines are far away
			return false
		}
		length, u, v := s.B.Sub(s.A).Len(), s.B.Sub(s.A).Unit(), p.Sub(s.A)
		along, off := geom.MM(v.Dot(u)), geom.MM(v.Cross(u))
		return length > 0 && max(off, -off) < mergeWithin && along > -mergeWithin && along < length+mergeWithin
	})
}
