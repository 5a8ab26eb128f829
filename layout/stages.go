package layout

import "hubrule/segments"

// bodyEquations writes the pins of body and ends as equations.
func (s solver) bodyEquations() []equation {
	var out []equation
	for _, t := range s.pins {
		switch f := t.pin.Figure; {
		case isPillar(f):
		case f == segments.GreenhouseToBody:
			atRatio := s.figure(segments.Greenhouse).addScaled(-t.value, s.figure(segments.BodySide)) // 0 there
			out = append(out, equation{f, atRatio, t.slack * (s.typical[segments.Height] - s.typical[segments.Sill])})
		default:
			out = append(out, equation{f, s.figure(f).plus(-t.value), t.slack})
		}
	}
	return out
}

// bodyStage moves everything but the pillar. The ends take part so that limits and pins see them, with steps so long
// that they never pull the body.
func (s solver) bodyStage() stage {
	const weak = 1e4
	st := stage{centre: s.centres()}
	for _, f := range s.bodyFigures() {
		st.free(f, st.centre[index(f)], s.step(f))
		if isEnd(f) || f == segments.GlassEnd && s.profile.GlassFromFront && s.isPinned(f) {
			// A pinned glass end has no place behind the front axle to keep, which the wheelbase would have to follow.
			st.step[index(f)] *= weak
		}
	}
	return st
}

// endsStage moves the ends alone over a solved body, from typical values that follow it.
func (s solver) endsStage(body vector) stage {
	st := stage{centre: body, slack: 10 * tolerance} // the body's stage may have used up the tolerance
	moved := func(f segments.Figure) float64 { return s.figure(f).value(body) - s.segment[f] }
	belt, sill, width := moved(segments.Belt), moved(segments.Sill), moved(segments.Width)
	// Measured bodies (Transport Canada, Canadian Vehicle Specifications, 2011-2023; SEEN).
	const trackOfWidth = .855
	for _, f := range s.bodyFigures() {
		if !isEnd(f) {
			continue
		}
		by := 0.
		switch f {
		case segments.Cowl, segments.BonnetEdge, segments.Deck:
			by = belt
		case segments.Chin, segments.TailLow:
			by = sill
		case segments.Track:
			by = float64(trackOfWidth * width)
		}
		st.free(f, s.typical[f]+by, s.step(f))
	}
	return st
}

// slackOf sums up what the last digits of some pins leave open.
func (s solver) slackOf(of func(segments.Figure) bool) float64 {
	var sum float64
	for _, t := range s.pins {
		if of(t.pin.Figure) {
			sum += t.slack
		}
	}
	return sum
}
