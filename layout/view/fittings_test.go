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
	return map[string]float64{
		"mirror's side view": float64(seen.Min.Sub(box.Min).Len() + seen.Max.Sub(box.Max).Len()),
		"mirror's outer end": widest - s.width/2 - float64(MirrorReach),
		"mirror's gap":       math.Max(0, narrowest-float64(s.HalfWidth(box.Min.Lerp(box.Max, .5)))),
	}
}
