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
		if r := s.Range; r != nil && math.Max(r.Lo-s.Value, s.Value-r.Hi) > quantum {
			s.Beyond = math.Max(r.Lo-s.Value, s.Value-r.Hi) / r.HalfWidth()
		}
		out = append(out, s)
	}
	return out
}

// derivedRange returns typical ± the root of the sum of squares of each declared figure's half-range
// times the derivative by it: how far a derived figure moves when the declared ones do, independently.
func derivedRange(p *segments.Profile, f segments.Figure) segments.Range {
	at := Typical(p).Values()
	var sum float64
	for g := range segments.FigureCount {
		if g.Info().Role != segments.Declared || !p.Form.Has(g) {
			continue
		}
		// A central difference over a thousandth of the half-range: exact for the linear
		// relations, within 1e-6 of the pillar's.
		half := p.Figures[g].Range.HalfWidth()
		lo, hi := at, at
		lo[g] -= half / 1000
		hi[g] += half / 1000
		d := (derive(hi)[f] - derive(lo)[f]) * 500
		sum += float64(d * d)
	}
	r := math.Sqrt(sum)
	return segments.Range{Lo: at[f] - r, Hi: at[f] + r}
}
