package view

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout/outline"
	"hubrule/segments"
)

// Sections returns cuts across the vehicle where they explain most.
func (s *Solid) Sections() []Line { return slices.Clone(s.cuts()) }

// Lines returns the vehicle's own lines but for the sections, and without the contour, which depends on the camera. Names are those of the
// outline where the side view has the line too; what exists on both sides ends in -left or -right.
func (s *Solid) Lines() []Line { return slices.Clone(s.lines()) }

func (s *Solid) ownLines() []Line {
	out := slices.Concat(s.centreLine(),
		onBothSides(slices.Concat(s.sideLines(), s.screenEdges(), s.lowerLines(), s.lamps(), []Line{s.mirrorGlass()})),
		[]Line{s.cowl().leaning(Point3{Y: 1}), s.bonnet()}, s.underLines(), s.faceLines(), s.rearLines())
	if s.places.hasFoot {
		out = append(out, s.shelfLines()...)
	}
	if s.places.opening != (span{}) {
		out = append(out, s.wellLines()...)
	}
	return out
}

// named returns the vehicle's lines of a name.
func (s *Solid) named(name string) []Line {
	return slices.DeleteFunc(s.Lines(), func(l Line) bool { return l.Name != name })
}

// lifted returns a line of the side view on the body's left side.
func (s *Solid) lifted(name string, kind LineKind) []Line {
	const chords = 16
	var out []Line
	path := s.outline.Line(name)
	closed := len(path) > 0 && path[len(path)-1].Verb == geom.Close
	for _, run := range path.Flatten(chords) {
		l := Line{Name: name, Kind: kind, onSurface: true, arched: true, grazed: true, Closed: closed}
		l.reserve(len(run))
		for _, p := range run {
			l.add(s.outer(at(p)))
		}
		out = append(out, l)
	}
	return out
}

// sideLines are the lines of the side view on the body's left side, and the arches.
func (s *Solid) sideLines() []Line {
	var out []Line
	for _, l := range []struct {
		name string
		kind LineKind
	}{
		{"cladding", DetailLine}, {"glass", GlassLine}, {"pillars", EdgeLine}, {"shoulder", DetailLine},
		{"rocker", DetailLine}, {"doors", DetailLine}, {"slide", DetailLine}, {"intake", DetailLine},
	} {
		out = append(out, s.lifted(l.name, l.kind)...)
	}
	if s.form == segments.Bed { // elsewhere the lines across the tail show it
		out = append(out, s.lifted("opening", EdgeLine)...)
	}
	return append(out, s.archEdge("arch-front", s.outline.FrontArch), s.archEdge("arch-rear", s.outline.RearArch))
}

// archEdge is the left edge of a wheel arch, between the body's side and the inside of the arch.
func (s *Solid) archEdge(name string, a outline.Arch) Line {
	l, arch := Line{Name: name, Kind: ArchLine}, s.archLine(a)
	l.reserve(len(arch))
	for _, p := range arch {
		normal := s.onSurface(place{float64(p.X), float64(p.Y)}, false).normal
		in := Point3{X: a.Centre.X - p.X, Y: a.Centre.Y - p.Y}.Unit()
		l.add(vertex{p, normal}.leaning(in))
	}
	return l
}

// screenEdges are the left A-pillar's edge of the screen from cowl to header, and the left half of the header, from the A-pillar's head to
// the screen's upper end on the centre line.
func (s *Solid) screenEdges() []Line {
	const steps = 80
	p := &s.places
	pillar, header := Line{Name: "pillar", Kind: PillarLine}, Line{Name: "header", Kind: GlassLine}
	edge := func(y float64) vertex {
		v := s.screenVertex(place{y, 1})
		if x, half := s.screenEdge(y); half > 0 {
			return v.leaning(s.onSurface(place{x, y}, s.form == segments.Open).normal)
		}
		return v
	}
	top := min(float64(s.plan.PillarHead().Y), p.head.y-.02)
	head := top
	if s.form == segments.Open { // the frame's upper corners belong to the header
		head = min(top, p.framePeak.y-.8*float64(s.shape.RoofCrown))
	}
	pillar.reserve(steps + 1)
	header.reserve(2*steps + 1)
	for i := range steps + 1 {
		pillar.add(edge(mix(p.pillar.y, head, float64(i)/steps)))
	}
	for i := range steps {
		if y := mix(head, top, float64(i)/steps); y < top {
			header.add(edge(y))
		}
	}
	over := root(p.screenFoot.y, p.head.y, func(y float64) float64 { return float64(s.plan.HeaderTop()) - s.screenCentre(y) })
	header.add(s.screenVertex(place{top, 1}))
	for i := 1; i <= steps; i++ {
		share := 1 - float64(i)/steps
		header.add(s.screenVertex(place{mix(over, top, share*share), share}))
	}
	return []Line{pillar, header}
}

// lowerLines is the lower edge of the left side from the middle of the nose to the middle of the tail, broken at the arches.
func (s *Solid) lowerLines() []Line {
	const steps = 60
	from, to := s.low.lo, s.low.hi
	noseEnd, tailStart := from+s.nose.depth, to-s.tail.depth
	var xs []float64
	for i := range steps + 1 {
		xs = append(xs, from+s.nose.evenly(float64(i)/steps))
	}
	for i := 1; i < 4*steps; i++ {
		if x := mix(noseEnd, tailStart, float64(i)/(4*steps)); x < tailStart {
			xs = append(xs, x)
		}
	}
	for i := steps; i >= 0; i-- {
		xs = append(xs, to-s.tail.evenly(float64(i)/steps))
	}
	out := []Line{{Name: "lower-edge"}}
	for _, x := range xs {
		q := place{x, s.lowerEdgeAt(x)}
		if s.inArch(q) {
			out = append(out, Line{Name: "lower-edge"})
			continue
		}
		out[len(out)-1].add(s.outer(q).leaning(Point3{Y: -1}))
	}
	return slices.DeleteFunc(out, func(l Line) bool { return len(l.Points) < 2 })
}

// underLines run across under the body where its lower edge meets the arches: they close it where it is seen from low down.
func (s *Solid) underLines() []Line {
	var out []Line
	for _, a := range []outline.Arch{s.outline.FrontArch, s.outline.RearArch} {
		arch := s.archLine(a)
		for _, p := range []Point3{arch[len(arch)-1], arch[0]} {
			l, v := Line{Name: "under"}, vertex{p, Point3{Y: -1}}
			l.add(v, v.on(right))
			out = append(out, l)
		}
	}
	return out
}
