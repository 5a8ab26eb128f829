package reading

import "math"

// bodyPoint is a mark on the body, with where it lies across.
type bodyPoint struct {
	name     Name
	at       vec     // pixels from the picture's centre
	sd       float64 // of each of its coordinates
	inboard  float64 // wheels inside half the width; of a point on the centre plane, beyond it
	depthSD  float64
	onCentre bool
}

// inputs are all numbers that figures follow from.
type inputs struct {
	camera       parameters
	points       []bodyPoint
	half, inset  float64    // half the width, and how far the wheels' plane lies inside it
	round        [3]float64 // of nose, tail and crown; 0 where the mark is no silhouette
	assumedSlope float64    // of a belt of which one point was marked
	flat         bool       // everything lies in one plane: a drawing
}

// The places in inputs.round.
const roundNose, roundTail, roundCrown = 0, 1, 2

// inputs gathers what figures follow from, but for the camera.
func (m *Marks) inputs() inputs {
	in := inputs{half: m.halfWidth().mean, inset: usualInset, round: m.rounds(), flat: m.Sheet != nil}
	for n := firstOfBody; n < nameCount; n++ {
		for i, k := range m.Points[n] {
			in.points = append(in.points, m.bodyPoint(n, i, k, in.round))
		}
	}
	return in
}

// bodyPoint places the mark k, number i of its name.
func (m *Marks) bodyPoint(n Name, i int, k Mark, round [3]float64) bodyPoint {
	info := n.Info()
	p := bodyPoint{name: n, inboard: info.Inboard, depthSD: info.Deviation, onCentre: info.OnCentre}
	p.at, p.sd = m.seen(k)
	switch {
	case n == APillar && i == 1:
		p.inboard, p.depthSD = pillarHeadInboard, pillarHeadDeviation
	case n == Roof && round[roundCrown] > 0:
		p.inboard, p.depthSD, p.onCentre = 0, crownDeviation, true
	}
	if k.Inboard != nil {
		p.inboard, p.onCentre = float64(*k.Inboard), false
	}
	return p
}

// crownDeviation is how far the point of a crowned roof that is seen may lie from where its roundness says, in wheels; judged by eye.
const crownDeviation = .05

// rounds returns how round nose, tail and roof are. A drawing has no silhouettes, and a mark whose depth was given is none.
func (m *Marks) rounds() [3]float64 {
	out := usualRoundness
	if m.Like != nil {
		s := m.Like.Solid
		out[roundNose], out[roundTail] = asParabola(float64(s.NoseLength), s.NoseSquare), asParabola(float64(s.TailLength), s.TailSquare)
	}
	for i, given := range []*float64{(*float64)(m.Round.Nose), (*float64)(m.Round.Tail), (*float64)(m.Round.Crown)} {
		marks := m.Points[[]Name{Nose, Tail, Roof}[i]]
		if given != nil {
			out[i] = *given
		}
		if m.Sheet != nil || len(marks) > 0 && marks[0].Inboard != nil {
			out[i] = 0
		}
	}
	return out
}

// usualSlope is that of the line of sight past an end times half the width: from 10 to 15 m, a little askew, in wheels.
const usualSlope = .35

// asParabola returns the g of x₀ + g·(z/half)² that a line of sight of the usual slope touches as far out as the super-ellipse of a
// segment's end: over a length the half-width grows to its whole by an exponent. With s the slope, s·z/half − x is at most s²/(4g) on the
// parabola; on the super-ellipse it is length·((1 + (s/length)^q)^(1/q) − 1), 1/q + 1/exponent = 1, by Hölder's inequality.
func asParabola(length, exponent float64) float64 {
	q := exponent / (exponent - 1)
	most := length * (math.Pow(1+math.Pow(usualSlope/length, q), 1/q) - 1)
	return usualSlope * usualSlope / (4 * most)
}

// depth returns how far p lies from the wheels' plane, negative farther from the camera.
func (in *inputs) depth(p *bodyPoint) float64 {
	switch {
	case in.flat:
		return 0
	case p.onCentre:
		return in.inset - in.half - p.inboard
	}
	return in.inset - p.inboard
}

// roofEdge is how far inside half the width the edge of a crowned roof lies, in wheels; judged by eye.
const roofEdge = .38

// onBody returns where in the body p lies, silhouettes traced to the centre plane.
func (in *inputs) onBody(p *bodyPoint) vec {
	depth := in.depth(p)
	at, _ := newView(&in.camera, depth).back(p.at)
	if !p.onCentre || in.flat {
		return at
	}
	switch p.name {
	case Nose, Chin:
		return in.silhouette(p, at.x, depth, in.round[roundNose], 1)
	case Tail, TailLow:
		return in.silhouette(p, at.x, depth, in.round[roundTail], -1)
	case Roof:
		slope, edge := in.risingSight(at.y, depth), in.half-roofEdge
		if crown := in.round[roundCrown]; crown > 0 {
			at.y -= slope * slope * edge * edge / (4 * crown)
		}
	}
	return at
}

// sightSlope returns the slope dx/dz of the line of sight to a point of the body at x and a depth.
func (in *inputs) sightSlope(x, depth float64) float64 {
	eye := in.camera.eye()
	return (x - float64(eye.X)) / (depth - float64(eye.Z))
}

// risingSight is sightSlope for a height.
func (in *inputs) risingSight(y, depth float64) float64 {
	eye := in.camera.eye()
	return (y - in.camera.hubHeight() - float64(eye.Y)) / (depth - float64(eye.Z))
}

// silhouette returns where on the centre plane an end of the body stands whose outermost seen point is p and would lie at x on that plane.
// Seen from above the end is x₀ + end·g·(z/half)², end being 1 for a nose and −1 for a tail: the line of sight touches it off the centre,
// or passes its corner.
func (in *inputs) silhouette(p *bodyPoint, x, depth, g, end float64) vec {
	z := 0.
	if g > 0 {
		z = in.sightSlope(x, depth) * end * in.half * in.half / (2 * g)
		z = min(max(z, -in.half), in.half)
	}
	at, _ := newView(&in.camera, depth+z).back(p.at)
	at.x -= end * g * z * z / (in.half * in.half)
	return at
}
