package layout

import (
	"slices"

	"hubrule/segments"
)

// isEnd reports whether figure f follows the body: in the body's stage it takes part in limits and pins, but never pulls.
func isEnd(f segments.Figure) bool {
	return slices.Contains([]segments.Figure{
		segments.Cowl, segments.BonnetEdge, segments.Deck, segments.Chin, segments.ChinSetback, segments.TailLow,
		segments.TailSetback, segments.LampDepth, segments.LampOffset, segments.Track,
	}, f)
}

// isPillar reports whether figure f belongs to the A-pillar's line or to the screen between the pillars, which have a stage of their own.
func isPillar(f segments.Figure) bool {
	return slices.Contains([]segments.Figure{
		segments.PillarAim, segments.PillarRake, segments.PillarFoot, segments.PillarHead, segments.ScreenBase,
	}, f)
}

// bodyFigures lists the declared figures of the form but the A-pillar's.
func (s solver) bodyFigures() []segments.Figure {
	var out []segments.Figure
	for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
		if s.profile.Form.Has(f) && !isPillar(f) {
			out = append(out, f)
		}
	}
	return out
}

// figure returns a declared or derived figure of the body as a form over the working variables.
// The ratio is no such form: see bodyEquations.
func (s solver) figure(f segments.Figure) affine {
	switch f {
	case segments.GlassEnd:
		if s.profile.GlassFromFront {
			return variable(f).sub(variable(segments.WheelsBetween))
		}
	case segments.BodySide:
		t := s.typical[segments.GreenhouseToBody]
		return variable(segments.Height).sub(variable(segments.Sill)).sub(variable(segments.GreenhouseToBody)).scaled(1 / (1 + t))
	case segments.Greenhouse:
		return variable(segments.Height).sub(s.figure(segments.Belt))
	case segments.Belt:
		return variable(segments.Sill).add(s.figure(segments.BodySide))
	case segments.Wheelbase:
		return variable(segments.WheelsBetween).plus((1 + s.q) / 2)
	case segments.Length:
		return variable(segments.FrontOverhang).add(s.figure(segments.Wheelbase)).add(variable(segments.RearOverhang)).plus(.5 + s.q/2)
	case segments.FrontOverhangAxle:
		return variable(segments.FrontOverhang).plus(.5)
	case segments.RearOverhangAxle:
		return variable(segments.RearOverhang).plus(s.q / 2)
	case segments.FrontLamp:
		return variable(segments.ArchGap).add(variable(segments.LampOffset)).plus(1)
	case segments.RearLamp:
		return s.figure(segments.FrontLamp).add(variable(segments.LampDepth))
	}
	return variable(f)
}

// beltAt is the height of the belt line over a place.
func (s solver) beltAt(x affine) affine {
	return s.figure(segments.Belt).addScaled(s.rise, x.addScaled(-.5, s.figure(segments.Wheelbase)))
}

// centres are the working variables of the typical plan.
func (s solver) centres() vector {
	var x vector
	for _, f := range s.bodyFigures() {
		x[index(f)] = s.typical[f]
	}
	x[index(segments.GreenhouseToBody)] = 0
	if s.profile.GlassFromFront {
		x[index(segments.GlassEnd)] += s.typical[segments.WheelsBetween]
	}
	return x
}

// step returns what counts as one step of a working variable: the figure's half-range in the unmodified segment.
func (s solver) step(f segments.Figure) float64 {
	half := s.profile.Figures[f].Range.HalfWidth()
	switch f {
	case segments.GreenhouseToBody:
		return half * s.typical[segments.BodySide]
	case segments.Sill:
		return half / 3 // a pin on belt, greenhouse or body side must not move it
	}
	return half
}

// values turns the working variables of a solved body into figures. The pillar's are left to its own stage.
func (s solver) values(x vector) segments.Values {
	v := s.typical
	for f := range segments.FigureCount {
		if f.Info().Role != segments.Given && s.profile.Form.Has(f) && !isPillar(f) {
			v[f] = s.figure(f).value(x)
		}
	}
	v[segments.GreenhouseToBody] = v[segments.Greenhouse] / v[segments.BodySide]
	return v
}

// variables is how many working variables the solve has: one for each declared figure.
const variables = int(segments.Tumblehome-segments.WheelsBetween) + 1

// index returns the index of a declared figure's working variable. The variable is the figure itself, except for
//   - greenhouse-to-body: greenhouse − typical ratio · body side, which is linear and zero at typical proportions;
//   - glass-end, where the profile measures it from the front axle: glass-end + wheels-between;
//   - pillar-aim and pillar-rake: the line's height over the typical foot, and its slope.
func index(f segments.Figure) int { return int(f - segments.WheelsBetween) }

// vector holds a number for each working variable.
type vector [variables]float64

// affine is an affine form over the working variables: Σ coefficients[i]·x[i] + constant. The zero affine is 0.
type affine struct {
	coefficients vector
	constant     float64
}

func constant(x float64) affine { return affine{constant: x} }

// variable is the form that is one working variable.
func variable(f segments.Figure) affine {
	var l affine
	l.coefficients[index(f)] = 1
	return l
}

// addScaled returns l + by·m.
func (l affine) addScaled(by float64, m affine) affine {
	for i := range l.coefficients {
		l.coefficients[i] += float64(by * m.coefficients[i])
	}
	l.constant += float64(by * m.constant)
	return l
}

func (l affine) add(m affine) affine { return l.addScaled(1, m) }

func (l affine) sub(m affine) affine { return l.addScaled(-1, m) }

func (l affine) plus(x float64) affine { l.constant += x; return l }

func (l affine) scaled(by float64) affine { return affine{}.addScaled(by, l) }

// variablesBeside counts the working variables of l; 0 if it lacks one that m has.
func (l affine) variablesBeside(m affine) (n int) {
	for i, c := range l.coefficients {
		if c != 0 {
			n++
		} else if m.coefficients[i] != 0 {
			return 0
		}
	}
	return n
}

// value returns the form's value at x.
func (l affine) value(x vector) float64 {
	sum := l.constant
	for i, c := range l.coefficients {
		sum += float64(c * x[i])
	}
	return sum
}
