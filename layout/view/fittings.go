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
func (e superEllipsoid) at(q place, _ boundary) vertex { return e.meet(e.cut(q.x), e.round(q.y)) }

// remembering returns at for places one after the other: what it knows of a cut, or of a turn round the section, it keeps for the next
// place.
func (e superEllipsoid) remembering() func(place, boundary) vertex {
	cut, round := remembered(e.cut), remembered(e.round)
	return func(q place, _ boundary) vertex { return e.meet(cut(q.x), round(q.y)) }
}

// remembered returns f with its last value kept.
func remembered[T any](f func(float64) T) func(float64) T {
	var value T
	at := math.NaN()
	return func(v float64) T {
		if v != at {
			at, value = v, f(v)
		}
		return value
	}
}

// cut is a section: where it lies, its middle and how that moves along x, its size as a share, and the share of its normals along and
// across.
type cut struct{ x, y, z, byY, byZ, r, along, across float64 }

func (e superEllipsoid) cut(at float64) cut {
	const h = 1e-5
	sin, cos := sincos(geom.Degrees(90 * math.Abs(at)))
	x, r := powers(sin, 2/e.along, e.along-1), powers(cos, 2/e.along, e.along-1)
	length := e.behind
	if at < 0 {
		length = -e.ahead
	}
	out := cut{x: e.x + float64(length*x[0]), r: r[0], along: x[1] / length, across: r[1]}
	out.y, out.z = e.middle(out.x)
	y, z := e.middle(out.x - h)
	out.byY, out.byZ = (out.y-y)/h, (out.z-z)/h
	return out
}

// turn is a direction round a section: the place there and its normal, where the section is as large as its bounds.
type turn struct{ y, z, normalY, normalZ float64 }

func (e superEllipsoid) round(at float64) turn {
	down, out := sincos(geom.Degrees(360 * at))
	y, z := powers(math.Abs(down), 2/e.section, e.section-1), powers(math.Abs(out), 2/e.section, e.section-1)
	return turn{math.Copysign(e.up*y[0], -down), math.Copysign(e.across*z[0], out),
		math.Copysign(y[1]/e.up, -down), math.Copysign(z[1]/e.across, out)}
}

// meet returns the place of a cut in a direction.
func (e superEllipsoid) meet(c cut, t turn) vertex {
	y, z := float64(c.across*t.normalY), float64(c.across*t.normalZ)
	x := c.along - float64(y*c.byY) - float64(z*c.byZ)
	return vertex{point3(c.x, c.y+float64(c.r*t.y), c.z+float64(c.r*t.z)), point3(x, y, z).Unit()}
}

// powers returns a power of v, which is not negative, and a power of that.
func powers(v, first, second float64) [2]float64 {
	ln := first * math.Log(v)
	return [2]float64{math.Exp(ln), math.Exp(second * ln)}
}

// panel is the whole of e on the left.
func (e superEllipsoid) panel() panel {
	const along, round = 32, 40
	p := panel{mirrors: true, at: e.at, remembering: e.remembering}
	var turns [round + 1]turn
	for k := range turns {
		turns[k] = e.round(float64(k) / round)
	}
	for i := range along + 1 {
		at := float64(2*i)/along - 1
		column, cut := make([]node, len(turns)), e.cut(at)
		for k := range column {
			column[k] = node{e.meet(cut, turns[k]), place{at, float64(k) / round}, noBoundary}
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
		c := s.crown(x, false)
		z = math.Min(z, s.halfOf(x, c.top-crowned(c.depth).inverse(share), false))
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
