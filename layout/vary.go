package layout

import (
	"math"

	"hubrule/segments"
)

// Vary returns the vehicle of a solved plan with its declared figures moved inside their ranges, as far towards their ends as turns
// says: −1 to the lower end, 1 to the upper one. What the brief pins or keeps stays. A figure that stands outside its range already moves towards it, or not at all.
//
// It reports false where this is impossible: where pins and limits together would push some figure farther than most (0 to 1) of
// its way to either end.
func Vary(p Plan, turns segments.Values, most float64) (Plan, bool) {
	b := p.Brief
	b.Profile = p.Profile // a typical plan was asked for by no brief
	s := newSolver(b)
	typical := s.typical
	for f := range segments.FigureCount {
		if p.isFree(f) {
			typical[f] = p.Value(f) + wayTo(p, f, turns[f])
		} else if f.Info().Role != segments.Derived {
			typical[f] = p.Value(f)
		}
	}
	// The A-pillar's foot moves too: aim and rake are moved independently.
	typical = derive(typical)
	foot := typical[segments.PillarFoot]
	s = s.withTypical(typical)
	s.foot, s.segment = foot, typical // the ends have moved already: they follow only what the solve itself moves
	sol := s.attempt()
	if sol.failed {
		return Plan{}, false
	}
	out := s.plan(b, sol)
	out.Varied = true
	for f := range segments.FigureCount {
		if !p.isFree(f) {
			continue
		}
		if moved := out.Value(f) - p.Value(f); moved > wayTo(p, f, most)+quantum || moved < wayTo(p, f, -most)-quantum {
			return Plan{}, false
		}
	}
	return out, true
}

// WithValues returns the varied plan of p whose values Vary gave before: they are all that has to be kept of it.
func (p Plan) WithValues(varied segments.Values) Plan {
	out := Place(p.Profile, varied)
	out.Brief, out.exact, out.states, out.Varied = p.Brief, p.exact, p.states, true
	return out
}

// isFree reports whether a figure is p's to vary: declared, and neither pinned nor kept.
func (p Plan) isFree(f segments.Figure) bool {
	return f.Info().Role == segments.Declared && p.Profile.Form.Has(f) && p.states[f] != statePinned && p.states[f] != stateKept
}

// wayTo returns a share of the way from a figure's value to the end of its range; from outside there is only a way back.
func wayTo(p Plan, f segments.Figure, share float64) float64 {
	r := p.Profile.Figures[f].Range
	if share < 0 {
		return -float64(share * math.Min(0, r.Lo-p.Value(f)))
	}
	return float64(share * math.Max(0, r.Hi-p.Value(f)))
}

// InSideView reports whether figure f is a declared one that a side view of p shows.
func (p Plan) InSideView(f segments.Figure) bool {
	return f != segments.Width && f != segments.Track && f != segments.Tumblehome && f.Info().Role == segments.Declared && p.Profile.Form.Has(f)
}
