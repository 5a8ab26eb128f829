package layout

import (
	"math"

	"hubrule/segments"
)

// State says how a figure came to its value.
type State string

// Given figures are set by profile, tweaks and pins. Free ones are as near to the tweaked typical value as the rest allows, kept ones
// as they would be without tweaks. Limited ones stopped at a limit; derived ones follow from others.
const (
	stateGiven   State = "given"
	stateFree    State = "free"
	statePinned  State = "pinned"
	stateKept    State = "kept"
	stateLimited State = "limited"
	stateDerived State = "derived"
)

// FigureStatus is one figure of a plan beside its range.
type FigureStatus struct {
	Figure  segments.Figure
	Value   float64         // in the figure's own unit
	Typical float64         // in the segment, before tweaks and pins
	Range   *segments.Range // nil for given figures
	State   State
	Beyond  float64 // half-ranges outside the range, 0 inside
	Limit   string  // what stops the figure; "" where nothing does
}

// FigureStatuses returns every figure the plan's form has, in the figures' order.
func (p Plan) FigureStatuses() []FigureStatus {
	var out []FigureStatus
	typical := typicalValues(p.Profile)
	for f := range segments.FigureCount {
		if !p.Profile.Form.Has(f) {
			continue
		}
		s := FigureStatus{Figure: f, Value: p.Value(f), Typical: typical[f], State: stateGiven}
		switch f.Info().Role {
		case segments.Declared:
			r := p.Profile.Figures[f].Range
			s.State, s.Range = stateFree, &r
		case segments.Derived:
			r := derivedRange(p.Profile, f)
			s.State, s.Range = stateDerived, &r
		}
		if state, ok := p.states[f]; ok {
			s.State = state
		}
		s.Limit = p.stops[f]
		if s.Range != nil {
			s.Beyond = beyond(s.Value, *s.Range)
		}
		out = append(out, s)
	}
	return out
}

// beyond returns by how many half-ranges v lies outside r.
func beyond(v float64, r segments.Range) float64 {
	if out := max(r.Lo-v, v-r.Hi); out > quantum {
		return out / r.HalfWidth()
	}
	return 0
}

// derivedRange returns how far a derived figure moves when the declared ones do within their ranges, independently: on each side of its
// typical value, the root of the sum of squares of what each of them moves it to that side.
func derivedRange(p *segments.Profile, f segments.Figure) segments.Range {
	at := Typical(p).Values()
	var below, above float64 // squares
	for g := range segments.FigureCount {
		if g.Info().Role != segments.Declared || !p.Form.Has(g) {
			continue
		}
		// A central difference over a thousandth of the half-range: exact for the linear
		// relations, within 1e-6 of the pillar's.
		r := p.Figures[g].Range
		lo, hi := at, at
		lo[g] -= r.HalfWidth() / 1000
		hi[g] += r.HalfWidth() / 1000
		d := (derive(hi)[f] - derive(lo)[f]) * 500 / r.HalfWidth()
		one, other := d*(r.Lo-at[g]), d*(r.Hi-at[g])
		below += math.Pow(min(one, other), 2)
		above += math.Pow(max(one, other), 2)
	}
	return segments.Range{Lo: at[f] - math.Sqrt(below), Hi: at[f] + math.Sqrt(above)}
}

// Vary returns the vehicle of a solved plan with its declared figures moved inside their ranges, as far towards their ends as turns
// says: −1 to the lower end, 1 to the upper one. What the brief pins or keeps stays. A figure outside its range moves towards it or
// not at all. It reports false where pins and limits would push some figure farther than most (0 to 1) of its way to either end.
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
	return f.Info().Role == segments.Declared && p.Profile.Form.Has(f) &&
		f != segments.Width && f != segments.Track && f != segments.Tumblehome
}
