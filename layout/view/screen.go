package view

import (
	"math"

	"hubrule/internal/slice"
	"hubrule/segments"
)

// screenEdge returns the A-pillar's edge of the screen at height y: its x and its half-width. Below the cowl it runs on straight.
func (s *Solid) screenEdge(y float64) (x, half float64) {
	cowl := s.places.cowl
	if y <= cowl.y {
		return cowl.x - float64((cowl.y-y)/s.plan.PillarRake().Tan()), s.cowlHalf
	}
	x = s.screen.value(y)
	return x, s.halfOf(x, y, s.form == segments.Open || s.places.hasFoot)
}

// screenCrease returns the crease between screen and roof on the left, from the A-pillar's head up: its normals on either surface.
func (s *Solid) screenCrease() (out [][2]vertex) {
	const steps = 80
	from, to := min(float64(s.plan.PillarHead().Y), s.places.head.y-.02), s.places.head.y-1e-6
	for i := range steps + 1 {
		y := to - crowned(to-from).evenly(1-float64(i)/steps)
		x, _ := s.screenEdge(y)
		out = append(out, [2]vertex{s.screenVertex(place{y, 1}), s.onSurface(place{x, y}, s.form == segments.Open || s.places.hasFoot)})
	}
	return out
}

// screenCentre returns the x of the screen's centre line at height y. Below its foot it runs on straight.
func (s *Solid) screenCentre(y float64) float64 {
	foot, head := s.places.screenFoot, s.places.head
	if y <= foot.y {
		return foot.x - float64((foot.y-y)*(head.x-foot.x)/(head.y-foot.y))
	}
	return s.centre.value(y)
}

// level is the screen at one height: at each it is bowed from its edge, which stands on the plan's A-pillar, to its middle, which is the
// outline's. They meet where the edge has turned into the roof, and so the header closes by itself.
type level struct{ y, x, half, bow float64 }

func (s *Solid) level(y float64) level {
	x, half := s.screenEdge(y)
	return level{y, x, half, math.Max(0, x-s.screenCentre(y))}
}

// at returns the point a share of the half-width from the centre line to the left.
func (l *level) at(share float64) Point3 {
	return point3(l.x-float64(l.bow*(1-float64(share*share))), l.y, l.half*share)
}

// onScreen returns the point of the screen at height q.x, a share q.y of the half-width from the centre line to the left.
func (s *Solid) onScreen(q place) Point3 {
	l := s.level(q.x)
	return l.at(q.y)
}

// underCowl is the height down to which the screen's patch runs on under the bonnet, which hides it.
func (s *Solid) underCowl() float64 { return s.places.screenFoot.y - .06 }

// screenRows returns the heights of the screen's grid, from under the cowl to the header: close together at its foot, where it lies flat,
// and where its edge turns into the roof.
func (s *Solid) screenRows() []float64 {
	const up = 20 // on each part
	low, high := s.places.screenFoot.y, s.places.head.y
	crown := math.Min(float64(s.shape.RoofCrown), (high-low)*.8)
	rows := []float64{s.underCowl()}
	for k := range up {
		rows = append(rows, float64(s.centre.spline[0].At(float64(k)/up).X))
	}
	for k, low := 0, rows[up]; k <= up; k++ {
		rows = append(rows, low+float64((high-crown-low)*float64(k)/up))
	}
	for k := 1; k <= up; k++ {
		rows = append(rows, high-crowned(crown).evenly(1-float64(k)/up))
	}
	return rows
}

// screenPanel is the whole windscreen, from under the cowl to the header.
func (s *Solid) screenPanel() panel {
	const across = 24
	out := panel{at: func(q place, _ boundary) vertex { return s.screenVertex(q) }}
	rows := slice.Map(s.screenRows(), s.levels)
	for i := range across + 1 {
		share := float64(2*i)/across - 1
		column := make([]node, len(rows))
		for k := range rows {
			column[k] = node{rows[k].vertex(share), place{rows[k].own.y, share}, noBoundary}
		}
		out.nodes = append(out.nodes, column)
	}
	return out
}

// screenVertex is onScreen with the outward normal.
func (s *Solid) screenVertex(q place) vertex {
	l := s.levels(q.x)
	return l.vertex(q.y)
}

// levels are the screen at one height, and near it for the normals there: under the header they are those of a height just below.
type levels struct{ own, middle, above, below level }

// slight is the step to both sides over which normals of the screen are taken.
const slight = 1e-5

func (s *Solid) levels(y float64) levels {
	out := levels{own: s.level(y)}
	up := math.Min(y, s.places.head.y-2*slight)
	out.middle = out.own
	if up != y {
		out.middle = s.level(up)
	}
	out.above, out.below = s.level(up+slight), s.level(up-slight)
	return out
}

// vertex returns the point a share of the half-width from the centre line to the left, with the outward normal.
func (l *levels) vertex(share float64) vertex {
	along := l.above.at(share).Sub(l.below.at(share))
	across := l.middle.at(share + slight).Sub(l.middle.at(share - slight))
	return vertex{l.own.at(share), across.Cross(along).Unit()}
}
