package layout

import (
	"hubrule/internal/geom"
	"hubrule/segments"
)

// frame is what the stages of one solve stand on: the typical plan after tweaks and pins of given figures, none of which the solve moves.
type frame struct {
	profile *segments.Profile // with the tyres of the brief
	segment segments.Values   // what the ends ride along from: the unmodified segment's typical plan
	typical segments.Values   // after tweaks; every figure of the form
	q       float64           // rear ÷ front tyre diameter
	rise    float64           // tangent of the belt's rise
	drop    float64           // header below the roof
	foot    float64           // x of the typical A-pillar's foot
}

func newFrame(p *segments.Profile, typical segments.Values) frame {
	return frame{
		profile: p, segment: typicalValues(p), typical: typical,
		q:    typical[segments.RearWheel] / typical[segments.Wheel],
		rise: geom.Degrees(typical[segments.BeltRise]).Tan(),
		drop: typical[segments.HeaderDrop],
		foot: typical[segments.PillarFoot],
	}
}

// isEnd tells the figures that ride along with the body: in its stage they stand in limits and pins, but never pull.
func isEnd(f segments.Figure) bool {
	switch f {
	case segments.Cowl, segments.BonnetEdge, segments.Deck, segments.Chin, segments.ChinSetback, segments.TailLow,
		segments.TailSetback, segments.LampDepth, segments.LampOffset, segments.Track:
		return true
	}
	return false
}

// isPillar tells the figures of the A-pillar's line, which has a stage of its own.
func isPillar(f segments.Figure) bool {
	switch f {
	case segments.PillarAim, segments.PillarRake, segments.PillarFoot, segments.PillarHead:
		return true
	}
	return false
}

// figure returns a declared or derived figure of the body as a form over the working variables.
// The ratio is no such form: see ratioForm.
func (fr frame) figure(f segments.Figure) linear {
	switch f {
	case segments.GlassEnd:
		if fr.profile.GlassFromFront {
			return variable(f).and(-1, variable(segments.WheelsBetween))
		}
	case segments.BodySide:
		t := fr.typical[segments.GreenhouseToBody]
		return variable(segments.Height).and(-1, variable(segments.Sill)).and(-1, variable(segments.GreenhouseToBody)).times(1 / (1 + t))
	case segments.Greenhouse:
		return variable(segments.Height).and(-1, fr.figure(segments.Belt))
	case segments.Belt:
		return variable(segments.Sill).and(1, fr.figure(segments.BodySide))
	case segments.Wheelbase:
		return variable(segments.WheelsBetween).plusJust((1 + fr.q) / 2)
	case segments.Length:
		return variable(segments.FrontOverhang).and(1, fr.figure(segments.Wheelbase)).and(1, variable(segments.RearOverhang)).plusJust(.5 + fr.q/2)
	case segments.FrontLamp:
		return variable(segments.ArchGap).and(1, variable(segments.LampOffset)).plusJust(1)
	case segments.RearLamp:
		return fr.figure(segments.FrontLamp).and(1, variable(segments.LampDepth))
	}
	return variable(f)
}

// ratioForm is 0 where greenhouse ÷ body side is r.
func (fr frame) ratioForm(r float64) linear {
	return fr.figure(segments.Greenhouse).and(-r, fr.figure(segments.BodySide))
}

// beltAt is the height of the belt line over a place.
func (fr frame) beltAt(x linear) linear {
	return fr.figure(segments.Belt).and(fr.rise, x.and(-.5, fr.figure(segments.Wheelbase)))
}

// centres are the working variables of the typical plan.
func (fr frame) centres() amounts {
	var x amounts
	for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
		if fr.profile.Form.Has(f) && !isPillar(f) {
			x[slot(f)] = fr.typical[f]
		}
	}
	x[slot(segments.GreenhouseToBody)] = 0
	if fr.profile.GlassFromFront {
		x[slot(segments.GlassEnd)] += fr.typical[segments.WheelsBetween]
	}
	return x
}

// half returns what counts as one step of a working variable: the figure's half-range in the unmodified segment.
func (fr frame) half(f segments.Figure) float64 {
	half := fr.profile.Figures[f].Range.HalfWidth()
	switch f {
	case segments.GreenhouseToBody:
		return half * fr.typical[segments.BodySide]
	case segments.Sill:
		return half / 3 // a pin on belt, greenhouse or body side must not move it
	}
	return half
}

// values turns the working variables of a solved body into figures. The pillar's are left to its own stage.
func (fr frame) values(x amounts) segments.Values {
	v := fr.typical
	for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
		if fr.profile.Form.Has(f) && !isPillar(f) {
			v[f] = fr.figure(f).at(x)
		}
	}
	for _, f := range []segments.Figure{segments.Wheelbase, segments.Length, segments.Belt, segments.BodySide,
		segments.Greenhouse, segments.FrontLamp, segments.RearLamp} {
		v[f] = fr.figure(f).at(x)
	}
	v[segments.GreenhouseToBody] = v[segments.Greenhouse] / v[segments.BodySide]
	return v
}
