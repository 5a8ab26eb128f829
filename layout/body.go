package layout

import (
	"hubrule/segments"
)

// bodyEquations writes the pins of body and ends as equations.
func (s solver) bodyEquations(p selection) []equation {
	var out []equation
	for _, i := range p.pins {
		f := s.pins[i].pin.Figure
		v, slack := s.wanted(p, i)
		switch {
		case isPillar(f):
		case f == segments.GreenhouseToBody:
			out = append(out, equation{i, s.ratioForm(v), slack * (s.typical[segments.Height] - s.typical[segments.Sill])})
		default:
			out = append(out, equation{i, s.figure(f).plus(-v), slack})
		}
	}
	return out
}

// bodyStage moves everything but the pillar. The ends take part so that limits and pins see them, with steps so long
// that they never pull the body.
func (s solver) bodyStage(p selection) stage {
	const loose = 1e4
	st := stage{centre: s.centres()}
	for _, f := range s.bodyFigures() {
		st.moving = append(st.moving, index(f))
		st.step[index(f)] = s.step(f)
		if isEnd(f) || f == segments.GlassEnd && s.profile.GlassFromFront && s.isPinned(p, f) {
			// A pinned glass end has no place behind the front axle to keep, which the wheelbase would have to follow.
			st.step[index(f)] *= loose
		}
	}
	return st
}
