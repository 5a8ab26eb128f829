package layout

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// parameters are the constants of one solve: the typical plan after tweaks and pins of given figures.
type parameters struct {
	profile *segments.Profile // with the tyres of the brief
	segment segments.Values   // the unmodified segment's typical plan, from which the ends follow the body
	typical segments.Values   // after tweaks; every figure of the form
	q       float64           // rear ÷ front tyre diameter
	rise    float64           // tangent of the belt's rise
	drop    float64           // header below the roof
	foot    float64           // x of the typical A-pillar's foot
}

func newParameters(p *segments.Profile, typical segments.Values) parameters {
	return parameters{
		profile: p, segment: typicalValues(p), typical: typical,
		q:    typical[segments.RearWheel] / typical[segments.Wheel],
		rise: geom.Degrees(typical[segments.BeltRise]).Tan(),
		drop: typical[segments.HeaderDrop],
		foot: typical[segments.PillarFoot],
	}
}

// isEnd reports whether figure f follows the body: in the body's stage it takes part in limits and pins, but never pulls.
func isEnd(f segments.Figure) bool {
	return slices.Contains([]segments.Figure{
		segments.Cowl, segments.BonnetEdge, segments.Deck, segments.Chin, segments.ChinSetback, segments.TailLow,
		segments.TailSetback, segments.LampDepth, segments.LampOffset, segments.Track,
	}, f)
}

// isPillar reports whether figure f belongs to the A-pillar's line, which has a stage of its own.
func isPillar(f segments.Figure) bool {
	return slices.Contains([]segments.Figure{segments.PillarAim, segments.PillarRake, segments.PillarFoot, segments.PillarHead}, f)
}

// bodyFigures lists the declared figures of the form but the A-pillar's.
func (fr parameters) bodyFigures() []segments.Figure {
	var out []segments.Figure
	for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
		if fr.profile.Form.Has(f) && !isPillar(f) {
			out = append(out, f)
		}
	}
	return out
}

// figure returns a declared or derived figure of the body as a form over the working variables.
// The ratio is no such form: see ratioForm.
func (fr parameters) figure(f segments.Figure) affine {
	switch f {
	case segments.GlassEnd:
		if fr.profile.GlassFromFront {
			return variable(f).sub(variable(segments.WheelsBetween))
		}
	case segments.BodySide:
		t := fr.typical[segments.GreenhouseToBody]
		return variable(segments.Height).sub(variable(segments.Sill)).sub(variable(segments.GreenhouseToBody)).scaled(1 / (1 + t))
	case segments.Greenhouse:
		return variable(segments.Height).sub(fr.figure(segments.Belt))
	case segments.Belt:
		return variable(segments.Sill).add(fr.figure(segments.BodySide))
	case segments.Wheelbase:
		return variable(segments.WheelsBetween).plus((1 + fr.q) / 2)
	case segments.Length:
		return variable(segments.FrontOverhang).add(fr.figure(segments.Wheelbase)).add(variable(segments.RearOverhang)).plus(.5 + fr.q/2)
	case segments.FrontLamp:
		return variable(segments.ArchGap).add(variable(segments.LampOffset)).plus(1)
	case segments.RearLamp:
		return fr.figure(segments.FrontLamp).add(variable(segments.LampDepth))
	}
	return variable(f)
}

// ratioForm is 0 where greenhouse ÷ body side is r.
func (fr parameters) ratioForm(r float64) affine {
	return fr.figure(segments.Greenhouse).addScaled(-r, fr.figure(segments.BodySide))
}

// beltAt is the height of the belt line over a place.
func (fr parameters) beltAt(x affine) affine {
	return fr.figure(segments.Belt).addScaled(fr.rise, x.addScaled(-.5, fr.figure(segments.Wheelbase)))
}

// centres are the working variables of the typical plan.
func (fr parameters) centres() vector {
	var x vector
	for _, f := range fr.bodyFigures() {
		x[index(f)] = fr.typical[f]
	}
	x[index(segments.GreenhouseToBody)] = 0
	if fr.profile.GlassFromFront {
		x[index(segments.GlassEnd)] += fr.typical[segments.WheelsBetween]
	}
	return x
}

// step returns what counts as one step of a working variable: the figure's half-range in the unmodified segment.
func (fr parameters) step(f segments.Figure) float64 {
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
func (fr parameters) values(x vector) segments.Values {
	v := fr.typical
	for f := range segments.FigureCount {
		if f.Info().Role != segments.Given && fr.profile.Form.Has(f) && !isPillar(f) {
			v[f] = fr.figure(f).value(x)
		}
	}
	v[segments.GreenhouseToBody] = v[segments.Greenhouse] / v[segments.BodySide]
	return v
}
