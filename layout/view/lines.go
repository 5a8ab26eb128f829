package view

import (
	"hubrule/internal/geom"
	"hubrule/layout/outline"
	"hubrule/segments"
)

// Lines returns the vehicle's own lines, without the contour, which depends on the camera. Names are those of the outline where the
// side view has the line too; what exists on both sides ends in -left or -right.
func (s *Solid) Lines() []Line {
	out := s.centreLine()
	out = append(out, s.sections()...)
	for _, side := range []geom.Wheels{1, -1} {
		out = append(out, s.sideLines(side)...)
		out = append(out, s.screenEdges(side)...)
		out = append(out, s.lowerLines(side)...)
		out = append(out, s.lamps(side)...)
	}
	out = append(out, s.cowl(), s.bonnet())
	out = append(out, s.underLines()...)
	out = append(out, s.faceLines()...)
	out = append(out, s.rearLines()...)
	if s.places.hasFoot {
		out = append(out, s.shelfLines()...)
	}
	if s.places.opening != (span{}) {
		out = append(out, s.wellLines()...)
	}
	return out
}

// sided names a line of one side.
func sided(name string, side geom.Wheels) string {
	if side > 0 {
		return name + "-left"
	}
	return name + "-right"
}

// on adds a point of the skin over a place of the side view.
func (l *Line) on(s *Solid, q place, side geom.Wheels) {
	p, normal := s.onSkin(q, s.isCab(q.x, q.y))
	if side < 0 {
		p, normal = p.Mirror(), normal.Mirror()
	}
	l.Points, l.outs = append(l.Points, p), append(l.outs, normal)
}

// lifted returns a line of the side view on the body's side.
func (s *Solid) lifted(name string, kind LineKind, side geom.Wheels) []Line {
	const chords = 16
	var out []Line
	path := s.anatomy.Outline.Line(name)
	closed := len(path) > 0 && path[len(path)-1].Verb == geom.Close
	for _, run := range path.Flatten(chords) {
		l := Line{Name: sided(name, side), Kind: kind, surface: true, arched: true, Closed: closed}
		for _, p := range run {
			l.on(s, at(p), side)
		}
		out = append(out, l)
	}
	return out
}

// sideLines are the lines of the side view on the body's side, and the arches.
func (s *Solid) sideLines(side geom.Wheels) []Line {
	var out []Line
	for _, l := range []struct {
		name string
		kind LineKind
	}{
		{"cladding", DetailLine}, {"glass", GlassLine}, {"quarter-light", EdgeLine}, {"pillars", EdgeLine}, {"shoulder", DetailLine},
		{"rocker", DetailLine}, {"doors", DetailLine}, {"slide", DetailLine}, {"intake", DetailLine}, {"bed-gap", EdgeLine},
	} {
		out = append(out, s.lifted(l.name, l.kind, side)...)
	}
	for _, a := range []struct {
		name string
		arch outline.Arch
	}{{"arch-front", s.anatomy.FrontArch}, {"arch-rear", s.anatomy.RearArch}} {
		l := Line{Name: sided(a.name, side), Kind: ArchLine}
		for _, p := range s.archLine(a.arch, side) {
			_, normal := s.onSkin(place{float64(p.X), float64(p.Y)}, false)
			if side < 0 {
				normal = normal.Mirror()
			}
			in := Point3{X: a.arch.Centre.X - p.X, Y: a.arch.Centre.Y - p.Y}.Unit()
			l.Points, l.outs = append(l.Points, p), append(l.outs, normal.Add(in).Unit())
		}
		out = append(out, l)
	}
	return out
}

// screenEdges are the A-pillar's edge of the screen from cowl to header, and what of it runs in along the header to the centre.
func (s *Solid) screenEdges(side geom.Wheels) []Line {
	const steps = 80
	p := &s.places
	pillar, header := Line{Name: sided("pillar", side), Kind: PillarLine}, Line{Name: sided("header", side), Kind: GlassLine}
	add := func(l *Line, y float64) {
		q := place{y, float64(side)}
		x, half := s.screenEdge(y)
		normal := s.screenNormal(q)
		if half > 0 {
			_, out := s.onSkin(place{x, y}, s.form == segments.Open)
			if side < 0 {
				out = out.Mirror()
			}
			normal = normal.Add(out).Unit()
		}
		l.Points, l.outs = append(l.Points, s.onScreen(q)), append(l.outs, normal)
	}
	top := min(float64(s.plan.PillarHead().Y), p.head.y-.02)
	for i := range steps + 1 {
		add(&pillar, mix(p.cowl.y, top, float64(i)/steps))
	}
	from, _ := quarter(p.head.y-top, float64(s.shape.RoofCrown), crownSquare)
	for i := range steps + 1 {
		add(&header, p.head.y-evenly(turnOf(from, crownSquare)*(1-float64(i)/steps), float64(s.shape.RoofCrown), crownSquare))
	}
	return []Line{pillar, header}
}

// lowerLines is the lower edge of one side from the middle of the nose to the middle of the tail, broken at the arches.
func (s *Solid) lowerLines(side geom.Wheels) []Line {
	var out []Line
	var run Line
	flush := func() {
		if len(run.Points) > 1 {
			out = append(out, run)
		}
		run = Line{Name: sided("lower-edge", side)}
	}
	flush()
	from, to := s.low.lo, s.low.hi
	n := s.shape
	const steps = 60
	var xs []float64
	for i := range steps + 1 {
		xs = append(xs, from+evenly(float64(i)/steps, float64(n.NoseLength), n.NoseSquare))
	}
	last := to - float64(n.TailLength)
	for i := 1; i < 4*steps; i++ {
		if x := mix(from+float64(n.NoseLength), last, float64(i)/(4*steps)); x < last {
			xs = append(xs, x)
		}
	}
	for i := steps; i >= 0; i-- {
		xs = append(xs, to-evenly(float64(i)/steps, float64(n.TailLength), n.TailSquare))
	}
	for _, x := range xs {
		q := place{x, s.low.value(x)}
		if s.inArch(q) {
			flush()
			continue
		}
		run.on(s, q, side)
		k := len(run.outs) - 1
		run.outs[k] = run.outs[k].Add(Point3{Y: -1}).Unit()
	}
	flush()
	return out
}

// underLines run across under the body where its lower edge meets the arches: they close it where it is seen from low down.
func (s *Solid) underLines() []Line {
	f, r := s.anatomy.FrontArch, s.anatomy.RearArch
	lip := func(a outline.Arch, angle float64) place {
		sin, cos := sincos(geom.Degrees(angle * degree))
		return place{float64(a.Centre.X) + float64(float64(a.Radius)*cos), float64(a.Centre.Y) + float64(float64(a.Radius)*sin)}
	}
	var out []Line
	for _, q := range []place{lip(f, f.To), lip(f, f.From), lip(r, r.To), lip(r, r.From)} {
		half := s.halfOf(q.x, q.y, false)
		down := Point3{Y: -1}
		out = append(out, Line{Name: "under", Points: []Point3{point3(q.x, q.y, half), point3(q.x, q.y, -half)}, outs: []Point3{down, down}})
	}
	return out
}
