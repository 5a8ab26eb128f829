package compare

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// one is how near two lines lie on paper when they are drawn as one: half the width of a narrow line, so that they would print as one.
const mergeWithin geom.MM = .12

// pieces is how many parts of each cubic are judged on their own, whether they are shared.
const piecesPerCubic = 12

// merger decides line by line what several boards share. Each board holds the lines of one plan.
type merger struct {
	boards []*draft.Board
	flat   []map[request.Guide][]draft.Segment // of each board, by guide
}

func newMerger(boards []*draft.Board) merger {
	o := merger{boards: boards}
	for _, b := range boards {
		lines := map[request.Guide][]draft.Segment{}
		for _, m := range b.Marks {
			if s, ok := m.(*render.Stroke); ok {
				for _, run := range s.Path.Flatten(24) {
					for i := 1; i < len(run); i++ {
						lines[request.Guide(s.Guide)] = append(lines[request.Guide(s.Guide)], draft.Segment{A: run[i-1], B: run[i]})
					}
				}
			}
		}
		o.flat = append(o.flat, lines)
	}
	return o
}

// owner says whose a line is: of all, of one plan, or drawn already with an earlier one.
const (
	shared      = -1
	drawnBefore = -2
)

// owner judges a line of board k; also reports which other boards have it as well.
func (o merger) owner(k int, also func(other int) bool) int {
	all, earlier := true, false
	for j := range o.boards {
		switch {
		case j == k:
		case also(j):
			earlier = earlier || j < k
		default:
			all = false
		}
	}
	switch {
	case earlier:
		return drawnBefore
	case all:
		return shared
	}
	return k
}

// onto draws the lines of all boards on out, each once: pen says how a line is drawn that is owner's.
func (o merger) onto(out *draft.Board, pen func(owner int, m render.Tagged, was draft.LineStyle) draft.LineStyle) {
	for k, b := range o.boards {
		for _, m := range b.Marks {
			switch m := m.(type) {
			case *render.Circle:
				who := o.owner(k, func(j int) bool { return o.hasCircle(j, m) })
				if who != drawnBefore {
					out.Circle(request.Guide(m.Guide), planID(k, m.ID), pen(who, m.Tagged, styleOf(m.Pen)), draft.Circle{Centre: m.Centre, R: m.R})
				}
			case *render.Stroke:
				o.stroke(k, m, out, pen)
			default:
				panic(fmt.Sprintf("compare: an overlay cannot share %T", m))
			}
		}
	}
}

// styleOf is the kind of line that a pen draws, without its role.
func styleOf(p render.Pen) draft.LineStyle {
	return draft.LineStyle{Width: p.Width, Dash: p.Dash, Role: draft.Plain}
}

// planID prefixes the ids of the second plan on a page and those after it.
func planID(k int, id string) string {
	if k == 0 || id == "" {
		return id
	}
	return fmt.Sprintf("p%d-%s", k+1, id)
}

func (o merger) hasCircle(j int, c *render.Circle) bool {
	for _, m := range o.boards[j].Marks {
		if d, ok := m.(*render.Circle); ok && d.Guide == c.Guide && d.Centre.Sub(c.Centre).Len() < mergeWithin && max(d.R-c.R, c.R-d.R) < mergeWithin {
			return true
		}
	}
	return false
}

// stroke cuts one line of board k where its owner changes.
func (o merger) stroke(k int, m *render.Stroke, out *draft.Board, pen func(int, render.Tagged, draft.LineStyle) draft.LineStyle) {
	parts := 0
	for _, run := range m.Path.Cubics() {
		var path render.Path
		who := drawnBefore
		end := func() {
			if who != drawnBefore && len(path) > 1 {
				id := planID(k, m.ID)
				if parts++; parts > 1 && id != "" {
					id = fmt.Sprintf("%s-part-%d", id, parts)
				}
				out.Curve(request.Guide(m.Guide), id, pen(who, m.Tagged, styleOf(m.Pen)), path, 8)
			}
			path = nil
		}
		for _, c := range run {
			for i := 0; i < piecesPerCubic; {
				next := o.ownerOf(k, request.Guide(m.Guide), piece(c, i, i+1))
				n := i + 1
				for n < piecesPerCubic && o.ownerOf(k, request.Guide(m.Guide), piece(c, n, n+1)) == next {
					n++
				}
				part := piece(c, i, n)
				if next != who || path == nil {
					end()
					who, path = next, render.Path{}.Move(part[0])
				}
				if c == geom.Straight(c[0], c[3]) {
					path = path.Line(part[3])
				} else {
					path = path.Curve(part[1], part[2], part[3])
				}
				i = n
			}
		}
		end()
	}
}

// ownerOf judges a short piece of a line.
func (o merger) ownerOf(k int, guide request.Guide, c geom.Cubic[geom.MM]) int {
	return o.owner(k, func(j int) bool {
		for _, t := range []float64{0, .5, 1} {
			if !onAny(c.At(t), o.flat[j][guide]) {
				return false
			}
		}
		return true
	})
}

// onAny reports whether p is on one of the lines.
func onAny(p draft.Point, lines []draft.Segment) bool {
	for _, s := range lines {
		d := s.B.Sub(s.A)
		long := d.Len()
		if long == 0 {
			continue
		}
		u := d.Unit()
		v := p.Sub(s.A)
		along := geom.MM(v.X*u.X) + geom.MM(v.Y*u.Y)
		off := geom.MM(v.X*u.Y) - geom.MM(v.Y*u.X)
		if max(off, -off) < mergeWithin && along > -mergeWithin && along < long+mergeWithin {
			return true
		}
	}
	return false
}

// piece returns the part of c between the shares from and to of its pieces: de Casteljau's division, twice.
func piece(c geom.Cubic[geom.MM], from, to int) geom.Cubic[geom.MM] {
	if to < piecesPerCubic {
		c = head(c, float64(to)/piecesPerCubic)
	}
	if from > 0 {
		c = turned(head(turned(c), 1-float64(from)/float64(to)))
	}
	return c
}

// head returns c up to t.
func head(c geom.Cubic[geom.MM], t float64) geom.Cubic[geom.MM] {
	a, b, e := c[0].Lerp(c[1], t), c[1].Lerp(c[2], t), c[2].Lerp(c[3], t)
	ab, be := a.Lerp(b, t), b.Lerp(e, t)
	return geom.Cubic[geom.MM]{c[0], a, ab, ab.Lerp(be, t)}
}

// turned returns c from its end to its start.
func turned(c geom.Cubic[geom.MM]) geom.Cubic[geom.MM] {
	return geom.Cubic[geom.MM]{c[3], c[2], c[1], c[0]}
}
