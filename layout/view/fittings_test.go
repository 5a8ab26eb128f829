package view

import (
	"math"

	"hubrule/internal/geom"
)

// holds reports whether q lies in e or its mirror image, or just outside.
func (e superEllipsoid) holds(q Point3) bool {
	const beside = .02
	y, z := e.middle(float64(q.X))
	x := float64(q.X) - e.x
	long := e.behind
	if x < 0 {
		long = e.ahead
	}
	round := math.Pow(math.Abs(float64(q.Y)-y)/(e.up+beside), e.section) +
		math.Pow(math.Abs(math.Abs(float64(q.Z))-z)/(e.across+beside), e.section)
	return math.Pow(math.Abs(x)/(long+beside), e.along)+math.Pow(round, e.along/e.section) < 1
}

// fittingFaults measures by how much what stands on a solid misses its place.
func fittingFaults(s *Solid) map[string]float64 {
	box, widest, narrowest := s.outline.Mirror, 0., math.Inf(1)
	var over []point
	for _, column := range s.mirror().panel().nodes {
		for _, n := range column {
			over = append(over, point{X: n.p.X, Y: n.p.Y})
			widest, narrowest = math.Max(widest, float64(n.p.Z)), math.Min(narrowest, float64(n.p.Z))
		}
	}
	seen := geom.BoxOf(over[0], over...)
	above, ends := 0., 0.
	if rails := s.outline.Rails; rails[1] > rails[0] {
		rail := s.fittings()[1]
		ends = math.Abs(rail.x-rail.ahead-float64(rails[0])) + math.Abs(rail.x+rail.behind-float64(rails[1]))
		for i := range 41 {
			top := rail.at(place{float64(i)/20 - 1, .75}, noBoundary).p
			above = math.Max(above, float64(top.Y)-s.top.value(float64(top.X)))
			if s.HalfWidth(point{X: top.X, Y: top.Y - 2.5*s.plan.Profile.Shape.RoofRails}) < top.Z-.03 {
				above++ // it floats
			}
		}
	}
	edge := 0.
	if spoiler := s.outline.Spoiler; spoiler[0] != spoiler[1] {
		line := s.round("", false, spoiler)
		middle, last := line.Points[len(line.Points)/2], line.Points[len(line.Points)-1]
		edge = math.Abs(s.back.value(float64(spoiler[0].Y))-float64(middle.X)) + math.Abs(float64(last.X-spoiler[1].X))
		for _, q := range line.Points {
			edge = math.Max(edge, math.Abs(math.Abs(float64(q.Z))-float64(s.HalfWidth(point{X: q.X, Y: q.Y}))))
		}
	}
	return map[string]float64{
		"rails over the roof": above, "ends of the rails": ends, "spoiler's edge": edge,
		"mirror's side view": float64(seen.Min.Sub(box.Min).Len() + seen.Max.Sub(box.Max).Len()),
		"mirror's outer end": widest - s.width/2 - float64(MirrorReach),
		"mirror's gap":       math.Max(0, narrowest-float64(s.HalfWidth(box.Min.Lerp(box.Max, .5)))),
	}
}
