package layout

import (
	"hubrule/segments"
)

// bodyEquations writes the pins of body and ends as equations.
func (s solver) bodyEquations(p part) []equation {
	var out []equation
	for _, i := range p.pins {
		f := s.pins[i].pin.Figure
		v, slack := s.wanted(p, i)
		switch {
		case isPillar(f):
		case f == segments.GreenhouseToBody:
			out = append(out, equation{i, s.ratioForm(v), slack * (s.typical[segments.Height] - s.typical[segments.Sill])})
		default:
			out = append(out, equation{i, s.figure(f).plusJust(-v), slack})
		}
	}
	return out
}

// bodyStage moves everything but the pillar. The ends take part so that limits and pins see them, with steps so long
// that they never pull the body.
func (s solver) bodyStage(p part) stage {
	const loose = 1e4
	st := stage{centre: s.centres()}
	for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
		if !s.profile.Form.Has(f) || isPillar(f) {
			continue
		}
		st.moving = append(st.moving, slot(f))
		st.half[slot(f)] = s.half(f)
		if isEnd(f) || f == segments.GlassEnd && s.profile.GlassFromFront && s.isPinned(p, f) {
			// A pinned glass end has no place behind the front axle to keep, which the wheelbase would have to follow.
			st.half[slot(f)] *= loose
		}
	}
	return st
}
