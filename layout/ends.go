package layout

import (
	"hubrule/segments"
)

// endsStage moves the ends alone over a solved body, from typical values that ride along with it.
func (s solver) endsStage(body vector) stage {
	st := stage{centre: body, slack: 10 * tolerance} // the body's stage may have used up the hair
	moved := func(f segments.Figure) float64 { return s.figure(f).value(body) - s.segment[f] }
	belt, sill, width := moved(segments.Belt), moved(segments.Sill), moved(segments.Width)
	// Measured bodies (Transport Canada, Canadian Vehicle Specifications, 2011-2023; SEEN).
	const trackOfWidth = .855
	for _, f := range s.bodyFigures() {
		if !isEnd(f) {
			continue
		}
		st.moving = append(st.moving, index(f))
		st.step[index(f)] = s.step(f)
		ride := 0.
		switch f {
		case segments.Cowl, segments.BonnetEdge, segments.Deck:
			ride = belt
		case segments.Chin, segments.TailLow:
			ride = sill
		case segments.Track:
			ride = float64(trackOfWidth * width)
		}
		st.centre[index(f)] = s.typical[f] + ride
	}
	return st
}

// slackOf is what the last digits of some pins leave open, all added up.
func (s solver) slackOf(p selection, of func(segments.Figure) bool) float64 {
	var sum float64
	for _, i := range p.pins {
		if of(s.pins[i].pin.Figure) {
			_, slack := s.wanted(p, i)
			sum += slack
		}
	}
	return sum
}
