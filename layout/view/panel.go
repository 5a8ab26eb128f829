package view

import (
	"math"
	"slices"

	"hubrule/internal/parallel"
	"hubrule/segments"
)

// panel is one patch of the surface as a grid of places, each with its point and its outward normal. Places between those of
// the grid lie on the surface too: at takes any place of the panel's own two numbers.
type panel struct {
	nodes [][]node // columns from front to rear, each from bottom to top
	at    func(place, boundary) vertex

	remembering func() func(place, boundary) vertex // at for places one after the other, nil where that gains nothing

	mirrors bool // the panel is the left half: the right one is its mirror image
	arched  bool // the wheel arches are cut out of it
}

// node is one place of a panel's grid or between.
type node struct {
	vertex
	q        place    // the panel's own two numbers; x and y of the side view where it mirrors
	boundary boundary // the body closes over the centre line here
}

// node returns the node at a place of p or, on the right, its mirror image.
func (p panel) node(q place, r boundary, d side) node { return node{p.at(q, r).on(d), q, r} }

// sides lists the sides on which p stands.
func (p panel) sides() []side {
	if p.mirrors {
		return []side{left, right}
	}
	return []side{left}
}

// boundary is the part of the outline on which a place lies where the half-width is 0.
type boundary uint8

const (
	noBoundary boundary = iota
	topBoundary
	faceBoundary
	backBoundary
	rearBoundary // a rear screen on a deck or bed
)

// onBoundary returns the point of the outline at a place next to it, and the outline's normal there.
func (s *Solid) onBoundary(q place, r boundary, cab bool) vertex {
	if r == topBoundary {
		c := s.crown(q.x, cab)
		return vertex{point3(q.x, c.top, 0), point3(-c.slope, 1, 0).Unit()}
	}
	line, outwards := &s.rear, 1.
	switch r {
	case faceBoundary:
		line, outwards = &s.face, -1
	case backBoundary:
		line = &s.back
	}
	x, slope := line.at(q.y)
	return vertex{point3(x, q.y, 0), point3(outwards, -outwards*slope, 0).Unit()}
}

// grid density; the places between are exact, so it only has to catch every fold of the surface.
const (
	alongEnd  = 30  // columns through the length of nose and tail
	alongBody = .06 // between columns elsewhere, in wheels
	upSide    = 26  // rows up the side
	overCrown = 16  // rows over the crown
)

// surfacePanels returns the patches of the body's outer surface.
func (s *Solid) surfacePanels() []panel {
	var out []panel
	for _, z := range s.zones() {
		if z.to > z.from {
			out = append(out, s.loft(z))
		}
	}
	out = append(out, s.screenPanel())
	if s.form == segments.Open {
		out = append(out, s.framePanel())
		out = append(out, s.seatPanels()...)
	}
	return out
}

// columns returns the x at which a zone is cut: close together through nose, tail and the bow of a rear screen.
func (s *Solid) columns(z zone) []float64 {
	nose, tail := float64(s.plan.Nose()), float64(s.plan.Tail())
	xs := []float64{z.from, z.to}
	add := func(x float64) {
		if x > z.from && x < z.to {
			xs = append(xs, x)
		}
	}
	for i := 1; i < alongEnd; i++ {
		t := float64(i) / alongEnd
		add(nose + s.nose.evenly(t))
		add(tail - s.tail.evenly(t))
		if z.cab {
			add(s.places.foot.x - s.bow.evenly(t))
		}
	}
	for i := 1; nose+float64(alongBody*float64(i)) < tail; i++ {
		add(nose + s.nose.depth + float64(alongBody*float64(i)))
	}
	for _, y := range s.screenRows() { // beside the screen, where its own grid ends
		if x, _ := s.screenEdge(y); x > s.places.cowl.x {
			add(x)
		}
	}
	const corner, step = .3, .012 // the lower corners turn within this
	for i := 1; float64(step*float64(i)) < corner; i++ {
		add(nose + float64(step*float64(i)))
		add(tail - float64(step*float64(i)))
	}
	slices.Sort(xs)
	out := xs[:1]
	for _, x := range xs[1:] {
		if x-out[len(out)-1] > 2e-4 || x == z.to {
			out = append(out, x)
		}
	}
	return out
}

// loft builds the left half of a zone.
func (s *Solid) loft(z zone) panel {
	out := panel{mirrors: true, arched: true, at: s.surface(z.cab)}
	out.nodes = parallel.Map(s.columns(z), func(x float64) []node {
		section := s.sectionPlaces(z, x)
		column, r := make([]node, len(section)), s.boundaryAt(z, x)
		for i, q := range section {
			if isUpperEnd := i == len(section)-1; isUpperEnd && r == noBoundary {
				if c := s.crown(q.x, z.cab); c.depth > noCrown && c.top-q.y < 1e-9 {
					r = topBoundary
				}
			}
			column[i] = out.node(q, r, left)
		}
		return column
	})
	return out
}

// boundaryAt returns the boundary on which the section called x lies: the first and the last may be the outline itself. Otherwise only
// a section's upper end may.
func (s *Solid) boundaryAt(z zone, x float64) boundary {
	switch {
	case x == s.side.nose:
		return faceBoundary
	case x == s.side.tail:
		return backBoundary
	case z.cab && x == s.places.foot.x:
		return rearBoundary
	}
	return noBoundary
}

// sectionPlaces returns the places of the side view up one section, from the lower edge to its upper end.
func (s *Solid) sectionPlaces(z zone, x float64) []place {
	plan := s.plan
	mid := float64(plan.Sill() + plan.BodySide()/2)
	lo, reach := z.floor, float64(plan.Height())+.2
	if z.floor == 0 {
		lo = root(-.2, mid, func(y float64) float64 { return s.lowerEdgeAt(z.shift(x, y)) - y })
	} else {
		mid = z.floor
	}
	hi := root(mid, reach, func(y float64) float64 { return z.under(z.shift(x, y), y) })
	rim := s.crown(z.shift(x, hi), z.cab)
	top, depth := rim.top, rim.depth
	shoulder, share := hi, 1.
	if depth > noCrown && hi > top-depth {
		depth = math.Min(depth, .9*(top-lo))
		shoulder = math.Max(lo, top-depth)
		share, _ = crowned(depth).at(top - hi)
	}
	if share == 1 {
		shoulder = lo + float64((hi-lo)*upSide/(upSide+overCrown))
	}
	rows := s.rowsUp(z, lo, shoulder)
	out := make([]place, 0, len(rows)+overCrown+1)
	add := func(y float64) { out = append(out, place{z.shift(x, y), y}) }
	for _, y := range rows {
		add(y)
	}
	crown := crowned(depth)
	end := crown.turnOf(share)
	for k := range overCrown {
		if share < 1 {
			add(top - crown.evenly(1-float64((1-end)*float64(k)/overCrown)))
		} else {
			add(shoulder + float64((hi-shoulder)*float64(k)/overCrown))
		}
	}
	add(hi)
	return out
}

// rowsUp returns the heights of a section's rows from lo up to its shoulder, that left out: even, but at nose and tail more of them, and
// some on the shelf of the bumper, which is lower than the steps between.
func (s *Solid) rowsUp(z zone, lo, shoulder float64) (out []float64) {
	const under, on, over, beside = 10, 10, 16, .03
	out = make([]float64, 0, under+on+over)
	shelf, atNose := s.outline.RearShelf, z.to <= s.places.cowl.x
	if atNose {
		shelf = s.outline.FrontShelf
	}
	add := func(from, to float64, steps int) {
		for i := range steps {
			out = append(out, mix(from, to, float64(i)/float64(steps)))
		}
	}
	if !atNose && z.to < float64(s.plan.Tail()) {
		add(lo, shoulder, upSide)
		return out
	}
	from, to := float64(shelf[0])-beside, math.Min(float64(shelf[1])+beside, shoulder-.02)
	if from < lo+.02 || to < from+.02 {
		from, to = mix(lo, shoulder, .3), mix(lo, shoulder, .6)
	}
	add(lo, from, under)
	add(from, to, on)
	add(to, shoulder, over)
	return out
}

// surface returns the left half over places of the side view, or over the outline's own.
func (s *Solid) surface(cab bool) func(place, boundary) vertex {
	return func(q place, r boundary) vertex {
		if r == noBoundary {
			return s.onSurface(q, cab)
		}
		return s.onBoundary(q, r, cab)
	}
}

// onSurface returns the point of the left half over a place of the side view, and its outward normal.
func (s *Solid) onSurface(q place, cab bool) vertex {
	at := s.halfAndSlopes(q.x, q.y, cab)
	if at.z == 0 {
		return vertex{point3(q.x, q.y, 0), s.rimNormal(q, cab)}
	}
	return vertex{point3(q.x, q.y, at.z), point3(-at.byX, -at.byY, 1/at.z).Unit()}
}

// rimNormal returns the outline's own normal at a place where the half-width is 0.
func (s *Solid) rimNormal(q place, cab bool) Point3 {
	best, nearest := topBoundary, math.Inf(1)
	try := func(r boundary, off float64) {
		if off = math.Abs(off); off < nearest {
			best, nearest = r, off
		}
	}
	if c := s.crown(q.x, cab); c.depth > noCrown {
		try(topBoundary, c.top-q.y)
	}
	try(faceBoundary, q.x-s.face.value(q.y))
	try(backBoundary, q.x-s.back.value(q.y))
	if cab && s.places.hasFoot {
		try(rearBoundary, q.x-s.rear.value(q.y))
	}
	return s.onBoundary(q, best, cab).normal
}
