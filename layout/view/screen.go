package view

import (
	"math"

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

// onScreen returns the point of the screen at height q.x, a share q.y of the half-width from the centre line to the left. The
// screen's middle lies ahead of its edges, so that these stand on the plan's A-pillar; the bow dies out with the width and so
// the header closes by itself.
func (s *Solid) onScreen(q place) Point3 {
	x, half := s.screenEdge(q.x)
	bow := float64(s.shape.ScreenBow) * float64(half*half) * (1 - float64(q.y*q.y)) / float64(s.cowlHalf*s.cowlHalf)
	return point3(x-bow, q.x, half*q.y)
}

// underCowl is how far the screen's sheet runs on under the bonnet, in wheels: the bonnet hides it.
const underCowl = .12

// screenPanel is the whole windscreen, from under the cowl to the header.
func (s *Solid) screenPanel() panel {
	const across, up = 24, 40
	low, high := s.places.cowl.y-underCowl, s.places.head.y
	crown := math.Min(float64(s.shape.RoofCrown), (high-low)*.8)
	out := panel{at: func(q place, _ rim) vertex { return s.screenVertex(q) }}
	for i := range across + 1 {
		share := float64(2*i)/across - 1
		var column []node
		for k := range up + 1 {
			y := low + float64((high-crown-low)*float64(k)/(up/2))
			if k > up/2 {
				y = high - crowned(crown).evenly(2-float64(2*k)/up)
			}
			column = append(column, out.node(place{y, share}, noRim, left))
		}
		out.nodes = append(out.nodes, column)
	}
	return out
}

// screenVertex is onScreen with the outward normal.
func (s *Solid) screenVertex(q place) vertex { return vertex{s.onScreen(q), s.screenNormal(q)} }

func (s *Solid) screenNormal(q place) Point3 {
	const h = 1e-5
	up := math.Min(q.x, s.places.head.y-2*h)
	along := s.onScreen(place{up + h, q.y}).Sub(s.onScreen(place{up - h, q.y}))
	across := s.onScreen(place{up, q.y + h}).Sub(s.onScreen(place{up, q.y - h}))
	return across.Cross(along).Unit()
}

// framePanel is the left half of an open car's screen frame, from the A-pillar's edge back to its rear edge and over the rail.
func (s *Solid) framePanel() panel {
	const across, up, crown = 14, 24, 16
	p := &s.places
	out := panel{mirrors: true, at: s.surface(true)}
	for i := range across + 1 {
		share := float64(i) / across
		lean := func(y float64) float64 { x, _ := s.screenEdge(y); return mix(x, s.rear.value(y), share) }
		lo := root(p.cowl.y-.1, p.head.y-.1, func(y float64) float64 { return s.top.value(lean(y)) - y })
		hi := root(lo, p.framePeak.y+.1, func(y float64) float64 {
			top, _, _ := s.crown(lean(y), true)
			return top - y
		})
		depth := math.Min(float64(s.shape.RoofCrown), .8*(hi-lo))
		var column []node
		for k := range up + crown + 1 {
			y, r := lo+float64((hi-depth-lo)*float64(k)/up), noRim
			if k > up {
				y = hi - crowned(depth).evenly(1-float64(k-up)/crown)
			}
			if k == up+crown {
				r = topRim
			}
			column = append(column, out.node(place{lean(y), y}, r, left))
		}
		out.nodes = append(out.nodes, column)
	}
	return out
}
