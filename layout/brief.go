package layout

import (
	"cmp"
	"slices"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// Solve lays out the plan of a brief: as near to the tweaked typical plan as its pins and the limits of a vehicle allow, counted in
// half-ranges (docs/solve.md). Pins are met exactly. The error is a *Clash, which says which pins cannot hold together and what would work.
// A tweak that makes no sense on the segment is an error in a sentence.
func Solve(b segments.Brief) (Plan, error) {
	if err := b.Refusal(); err != nil {
		return Plan{}, err
	}
	s := newSolver(b)
	sol := s.attempt()
	if sol.failed {
		return Plan{}, s.clash(b)
	}
	return s.plan(b, sol), nil
}

// newSolver turns a brief into the solve's terms. Kept figures become pins at the value that they have without tweaks, but with all pins.
func newSolver(b segments.Brief) solver {
	s := newSolverWithoutKeeps(b, b.Tweaks)
	if len(b.Keeps) == 0 {
		return s
	}
	untweaked := newSolverWithoutKeeps(b, nil)
	sol := untweaked.attempt()
	if sol.failed {
		return untweaked // the pins clash even without tweaks: report that
	}
	typical := s.typical
	for _, k := range b.Keeps {
		if k.Figure.Info().Role == segments.Given {
			typical[k.Figure] = untweaked.typical[k.Figure]
		} else {
			pin := segments.Pin{Figure: k.Figure, Origin: k.Origin}
			s.pins = append(s.pins, target{pin: pin, kept: true, value: sol.values[k.Figure], slack: quantum})
		}
	}
	return s.withTypical(typical)
}

// newSolverWithoutKeeps returns the solver of a brief with other tweaks and no keeps.
func newSolverWithoutKeeps(b segments.Brief, tweaks []segments.AppliedTweak) solver {
	p := b.FittedProfile()
	typical := applyTweaks(p, tweaks)
	s := solver{profile: p}
	for _, pin := range b.Pins {
		v := pin.Value(p.Wheel.Diameter)
		if pin.Figure.Info().Role == segments.Given {
			typical[pin.Figure] = v
		} else {
			s.pins = append(s.pins, target{pin: pin, value: v, slack: pin.Tolerance(p.Wheel.Diameter)})
		}
	}
	return s.withTypical(typical)
}

// withTypical returns s over a typical plan whose given figures may have changed after its tweaks; the A-pillar keeps its foot.
func (s solver) withTypical(typical segments.Values) solver {
	s.foot = typical[segments.PillarFoot]
	s.segment, s.typical = typicalValues(s.profile), derive(typical)
	s.typical[segments.PillarFoot] = s.foot
	s.q = typical[segments.RearWheel] / typical[segments.Wheel]
	s.rise = geom.Degrees(typical[segments.BeltRise]).Tan()
	s.drop = typical[segments.HeaderDrop]
	s.limits = s.bodyLimits()
	slices.SortStableFunc(s.pins, func(a, b target) int { return cmp.Compare(a.pin.Figure, b.pin.Figure) })
	return s
}

// plan returns the plan of a solution.
func (s solver) plan(b segments.Brief, sol solution) Plan {
	p := Place(s.profile, sol.values)
	p.Brief, p.stops = b, sol.stops
	p.exact, p.states = map[segments.Figure]float64{}, map[segments.Figure]State{}
	for f := range sol.stops {
		p.states[f] = stateLimited
	}
	for _, k := range s.pins {
		if p.isMet(k.pin.Figure, k.value) {
			p.exact[k.pin.Figure] = k.value
		}
	}
	for _, pin := range b.Pins {
		p.states[pin.Figure] = statePinned
	}
	for _, k := range b.Keeps {
		p.states[k.Figure] = stateKept
	}
	return p
}
