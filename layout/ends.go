package layout

import (
	"hubrule/segments"
)

// endsStage moves the ends alone over a solved body, from typical values that ride along with it.
func (s solver) endsStage(body amounts) stage {
	st := stage{centre: body, slack: 10 * hair} // the body's stage may have used up the hair
	belt := s.figure(segments.Belt).at(body) - s.profile.Figures[segments.Sill].Value - typicalBodySide(s.profile)
	sill := body[slot(segments.Sill)] - s.profile.Figures[segments.Sill].Value
	width := body[slot(segments.Width)] - s.profile.Figures[segments.Width].Value
	const trackOfWidth = .855 // measured bodies
	for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
		if !isEnd(f) || !s.profile.Form.Has(f) {
			continue
		}
		st.moving = append(st.moving, slot(f))
		st.half[slot(f)] = s.half(f)
		ride := 0.
		switch f {
		case segments.Cowl, segments.BonnetEdge, segments.Deck:
			ride = belt
		case segments.Chin, segments.TailLow:
			ride = sill
		case segments.Track:
			ride = float64(trackOfWidth * width)
		}
		st.centre[slot(f)] = s.typical[f] + ride
	}
	return st
}

func typicalBodySide(p *segments.Profile) float64 {
	return (p.Figures[segments.Height].Value - p.Figures[segments.Sill].Value) / (1 + p.Figures[segments.GreenhouseToBody].Value)
}

// allSlack is what the last digits of all pins of body and ends leave open.
func (s solver) allSlack(p part) float64 {
	var sum float64
	for _, i := range p.pins {
		if !isPillar(s.pins[i].pin.Figure) {
			_, slack := s.wanted(p, i)
			sum += slack
		}
	}
	return sum
}
