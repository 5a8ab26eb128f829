package view

import (
	"math"

	"hubrule/segments"
)

// cowl is the screen's lower edge, from A-pillar to A-pillar: at the centre line it stands on the screen's base.
func (s *Solid) cowl() Line {
	const steps = 48
	l := Line{Name: "cowl", Kind: GlassLine}
	p := &s.places
	for i := range steps + 1 {
		share := float64(2*i)/steps - 1
		y := mix(p.screenBase.y, p.pillar.y, share*share)
		l.add(s.screenVertex(place{y, share}))
	}
	return l
}

// bonnet is the bonnet's leading edge, parallel to the nose in plan and as wide as the lamps leave room, and its shut lines to the
// feet of the A-pillars: one line, softened in plan and lifted to the surface.
func (s *Solid) bonnet() Line {
	const half, leastBehind, mostBehind, overLamps = 40, .03, .6, .10
	p := &s.places
	reach, _ := s.plan.Profile.Shape.LampReaches()
	full := s.halfOf(p.edge.x+s.nose.depth, p.edge.y-.03, false)
	wide := math.Min(s.width/2*(reach+overLamps), .95*full)
	behind := leastBehind
	lead := func(t float64) place {
		z := t * wide
		return place{p.edge.x + behind + s.nose.inverse(math.Abs(z)/full), z}
	}
	// A low nose carries its lamps in its upper surface: the bonnet begins behind them.
	lamp := s.outline.FrontLamp
	clears := float64(max(lamp.HighOuter.Y, lamp.HighInner.Y) + .02)
	for behind < mostBehind && float64(s.onTop(lead(1).x, wide).p.Y) < clears {
		behind += .02
	}
	corner, foot := lead(1), place{p.cowl.x - .06 - .12*(p.cowl.x-p.screenFoot.x), .94 * s.cowlHalf}
	corner.x = math.Min(corner.x, foot.x-.1)
	var plan []place
	for i := -2 * half; i <= 2*half; i++ {
		t := math.Abs(float64(i)) / half
		q := lead(math.Min(t, 1))
		q.x = math.Min(q.x, corner.x)
		if t > 1 {
			q = corner.mix(foot, t-1)
		}
		q.y = math.Copysign(math.Abs(q.y), float64(i))
		plan = append(plan, q)
	}
	l := Line{Name: "bonnet", Kind: DetailLine, onSurface: true}
	places := softened(plan, .03, 30)
	l.reserve(len(places))
	for _, q := range places {
		l.add(s.onTop(q.x, q.y))
	}
	return l
}

// bumperAt is the height at the centre at which the bumper parts from the body.
func (s *Solid) bumperAt(front bool) float64 {
	if front {
		return float64(s.outline.FrontBumper[0].Y)
	}
	return float64(s.outline.RearBumper[0].Y)
}

// bumper is the line between bumper and body across nose or tail and round the corners to the arches.
func (s *Solid) bumper(name string, front bool) Line {
	ends := s.outline.RearBumper
	if front {
		ends = s.outline.FrontBumper
	}
	return s.round(name, front, ends)
}

// round is a line across nose or tail and round the corners, between two places of the side view: on the silhouette, and on the side.
func (s *Solid) round(name string, front bool, ends [2]point) Line {
	of := strip{front: front}
	places := s.across(of, float64(ends[1].X), float64(ends[0].Y), float64(ends[1].Y))
	first := s.outer(places[0])
	var half Line
	half.reserve(len(places) + endSteps)
	for i := range endSteps { // over a low nose the line keeps under the bonnet, and so begins beside the middle
		if z := mix(0, float64(first.p.Z), float64(i)/endSteps); first.p.Z > .02 {
			half.add(s.onEnd(places[0].y, z, front))
		}
	}
	for _, q := range places {
		half.add(s.outer(q))
	}
	l := Line{Name: name, Kind: DetailLine, onSurface: true, arched: true}
	l.addMirrored(half)
	l.addLine(half)
	return l
}

// faceLines make the face: the bumper's line, grille and intake of the family. They repeat no figure; sizes are judged by eye.
func (s *Solid) faceLines() []Line {
	out := []Line{s.bumper("bumper-front", true)}
	shape, half := s.plan.Profile.Shape, s.width/2
	reach, _ := shape.LampReaches()
	lamp, chin, part, edge := s.outline.FrontLamp, s.places.chin.y, s.bumperAt(true), s.places.edge.y
	opening := func(name string, lo, hi, wide float64) {
		const least = .05
		if hi-lo > least && wide > least {
			out = append(out, s.drawn(name, DetailLine, loop{front: true, heights: span{lo, hi}, exponent: 12, half: constant(wide)}))
		}
	}
	if shape.Face == segments.LowFace {
		top := mix(chin, float64(lamp.LowOuter.Y), .56)
		opening("intake-front", chin+.04, top, .56*half)
		for _, d := range []side{left, right} {
			inlet := s.drawn("inlet", DetailLine,
				loop{front: true, heights: span{chin + .06, top}, exponent: 9, half: constant(.065 * half), aside: .775 * half})
			if d == right {
				inlet = inlet.mirrored()
			}
			inlet.Name = d.suffixed("inlet")
			out = append(out, inlet)
		}
		return out
	}
	under, in, above, share := .035, .10, .035, .62
	if shape.Face == segments.TallFace {
		under, in, above, share = .05, .05, .04, .58
	}
	opening("grille", part+above, math.Min(edge-under, float64(lamp.HighOuter.Y)-.008), (reach*half-in)*s.shape.Grille)
	if shape.Nose.Block { // a skid panel
		opening("intake-front", chin+.02, mix(chin, part, share)-.05, .42*half)
		return out
	}
	opening("intake-front", chin+.05, mix(chin, part, share), .55*half)
	return out
}

// plate is the rear number plate of the common European size, 520 × 110 mm (MEM), upright round height y.
func (s *Solid) plate(y float64) Line {
	wheel := s.plan.Value(segments.Wheel)
	wide, high := 260/wheel, 55/wheel
	return s.drawn("plate-rear", DetailLine, loop{heights: span{y - high, y + high}, exponent: 24, half: constant(wide)})
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
			return s.crown(lean(y), true).top - y
		})
		depth := math.Min(float64(s.shape.RoofCrown), .8*(hi-lo))
		var column []node
		for k := range up + crown + 1 {
			y, r := lo+float64((hi-depth-lo)*float64(k)/up), noBoundary
			if k > up {
				y = hi - crowned(depth).evenly(1-float64(k-up)/crown)
			}
			if k == up+crown {
				r = topBoundary
			}
			column = append(column, out.node(place{lean(y), y}, r, left))
		}
		out.nodes = append(out.nodes, column)
	}
	return out
}
