package view

import (
	"math"

	"hubrule/internal/geom"
)

// superEllipsoid is a closed body of its own beside the surface: |x|ⁿ + rⁿ = 1 along the vehicle, its sections across it
// |y|ᵐ + |z|ᵐ = rᵐ. Each half has a length of its own, and a line runs through its middle.
type superEllipsoid struct {
	x, ahead, behind, up, across float64
	along, section               float64 // exponents n and m
	middle                       func(x float64) (y, z float64)
}

// at returns the place at q.x, from −1 at the front end to 1 at the rear one, and q.y, from 0 to 1 round the section.
func (e superEllipsoid) at(q place, _ boundary) vertex {
	const h = 1e-5
	sin, cos := sincos(geom.Degrees(90 * math.Abs(q.x)))
	x, r := math.Pow(sin, 2/e.along), math.Pow(cos, 2/e.along)
	down, out := sincos(geom.Degrees(360 * q.y))
	bent := func(v, exponent float64) float64 { return math.Copysign(math.Pow(math.Abs(v), exponent), v) }
	y, z := bent(-down, 2/e.section), bent(out, 2/e.section)
	length := e.behind
	if q.x < 0 {
		length = -e.ahead
	}
	at := e.x + float64(length*x)
	middleY, middleZ := e.middle(at)
	aheadY, aheadZ := e.middle(at - h)
	round := math.Pow(r, e.along-1)
	normalY := float64(round*bent(y, e.section-1)) / e.up
	normalZ := float64(round*bent(z, e.section-1)) / e.across
	normalX := math.Pow(x, e.along-1)/length - float64(normalY*(middleY-aheadY)/h) - float64(normalZ*(middleZ-aheadZ)/h)
	return vertex{point3(at, middleY+float64(e.up*r*y), middleZ+float64(e.across*r*z)), point3(normalX, normalY, normalZ).Unit()}
}

// panel is the whole of e on the left.
func (e superEllipsoid) panel() panel {
	const along, round = 32, 40
	p := panel{mirrors: true, at: e.at}
	for i := range along + 1 {
		var column []node
		for k := range round + 1 {
			column = append(column, p.node(place{float64(2*i)/along - 1, float64(k) / round}, noBoundary, left))
		}
		p.nodes = append(p.nodes, column)
	}
	return p
}

// MirrorReach is how far a door mirror stands out beyond the width, which is measured without mirrors; judged by eye.
const MirrorReach geom.Wheels = .11

// mirror is the left door mirror's housing, at the foot of the side glass: its side view is the outline's.
func (s *Solid) mirror() superEllipsoid {
	const bulge, into = .68, .01 // share of the length that bulges ahead; how deep it stands in the body
	box := s.outline.Mirror
	long, y := float64(box.Width()), float64(box.Min.Y+box.Max.Y)/2
	x := float64(box.Min.X) + bulge*long
	inner := s.halfOf(x, y, s.isCab(x, y)) - into
	outer := s.width/2 + float64(MirrorReach)
	return superEllipsoid{x, bulge * long, (1 - bulge) * long, float64(box.Height()) / 2, (outer - inner) / 2, 2.3, 3.2,
		func(float64) (float64, float64) { return y, (outer + inner) / 2 }}
}

// MirrorEnds are the outermost places of the door mirrors.
func (s *Solid) MirrorEnds() []Point3 {
	end := s.mirror().at(place{}, noBoundary).p
	return []Point3{end, end.Mirror()}
}

// closedBodies are the bodies that stand on the left of the surface.
func (s *Solid) closedBodies() []superEllipsoid {
	out := []superEllipsoid{s.mirror()}
	if ends := s.outline.Rails; ends[0] < ends[1] {
		out = append(out, s.roofRail(span{float64(ends[0]), float64(ends[1])}))
	}
	return out
}

// roofRail is the left roof rail. It stands where the roof has begun to turn down into the side, and ends under the roof's highest line:
// the height is the roof's.
func (s *Solid) roofRail(ends span) superEllipsoid {
	const share, half, over, under = .93, .024, .012, .006 // of the roof's half-width; of its own width; the surface; the roof's top
	up, long := float64(s.plan.Profile.Shape.RoofRails)/2, (ends.hi-ends.lo)/2
	z := math.Inf(1)
	for _, x := range [2]float64{ends.lo, ends.hi} {
		top, _, depth := s.crown(x, false)
		z = math.Min(z, s.halfOf(x, top-crowned(depth).inverse(share), false))
	}
	middle := sampled(ends, func(x float64) float64 {
		return math.Min(float64(s.onTop(x, z).p.Y)+over+up, s.top.value(x)-under-up)
	})
	return superEllipsoid{(ends.lo + ends.hi) / 2, long, long, up, half, 6, 2.6,
		func(x float64) (float64, float64) { return middle(x), z }}
}

// sampled returns f between the ends of a span as a smooth curve through some of its values (Catmull and Rom 1974): each costs a search.
func sampled(over span, f func(float64) float64) func(float64) float64 {
	const steps = 24
	step := (over.hi - over.lo) / steps
	var values [steps + 3]float64 // one beyond each end
	for i := range values {
		values[i] = f(geom.Clamp(over.lo+float64(i-1)*step, over.lo, over.hi))
	}
	values[0], values[steps+2] = 2*values[1]-values[2], 2*values[steps+1]-values[steps]
	return func(x float64) float64 {
		at := geom.Clamp((x-over.lo)/step, 0, steps)
		i := min(int(at), steps-1)
		t, v := at-float64(i), values[i:i+4]
		a, b := v[2]-v[0], 2*v[0]-5*v[1]+4*v[2]-v[3]
		c := 3*v[1] - v[0] - 3*v[2] + v[3]
		return v[1] + float64(t*(a+float64(t*(b+float64(t*c)))))/2
	}
}

// mirrorGlass is the edge of the left mirror's glass, seen from behind.
func (s *Solid) mirrorGlass() Line {
	const at, steps = .36, 48 // where it lies on the way to the rear end
	l, m := Line{Name: "mirror-glass", Kind: DetailLine, onSurface: true, Closed: true}, s.mirror()
	for i := range steps + 1 {
		l.add(m.at(place{at, float64(i) / steps}, noBoundary))
	}
	return l
}

// MirrorFromSide is the outline of the left mirror in the side view, closed.
func (s *Solid) MirrorFromSide() []point {
	const steps = 24 // from end to end
	m := s.mirror()
	var out []point
	for i := range 4*steps + 1 {
		q := place{float64(i)/steps - 1, .25} // along the lower edge, then back along the upper one
		if i > 2*steps {
			q = place{3 - float64(i)/steps, .75}
		}
		p := m.at(q, noBoundary).p
		out = append(out, point{X: p.X, Y: p.Y})
	}
	return out
}
