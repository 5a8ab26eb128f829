package layout

import (
	"math"
	"slices"

	"hubrule/segments"
)

// target is a figure with a fixed value: a pin or a kept figure.
type target struct {
	pin   segments.Pin
	kept  bool
	value float64 // in the figure's own unit
	slack float64 // how far it may be off where others determine it: half its last digit
}

// solver holds one brief in the solve's terms: its pins and limits, and the typical plan after tweaks and pins of given figures.
type solver struct {
	profile *segments.Profile // with the tyres of the brief
	segment segments.Values   // the unmodified segment's typical plan, from which the ends follow the body
	typical segments.Values   // after tweaks; every figure of the form
	q       float64           // rear ÷ front tyre diameter
	rise    float64           // tangent of the belt's rise
	drop    float64           // header below the roof
	foot    float64           // x of the typical A-pillar's foot
	pins    []target          // of declared and derived figures, in the figures' fixed order
	limits  []limit           // of body and ends
	omitted map[string]bool   // names of limits left out
}

// solution is what the three stages come to.
type solution struct {
	values segments.Values
	stops  map[segments.Figure]string // the limits that stop figures
	pillar bool                       // failed in the pillar's stage, else in the body's
	failed bool
	pins   []segments.Figure // failed: the pinned figures that stand in the way, perhaps more than needed
	limits []string          // failed: names of the limits
}

// attempt solves body, ends and pillar.
func (s solver) attempt() solution {
	body, limits := s.bodyEquations(), s.kept(s.limits)
	out := s.bodyStage().solve(body, limits, byDigits)
	if out.failed {
		return failure(out, limits)
	}
	sol := solution{stops: map[segments.Figure]string{}}
	s.mark(&sol, out, limits, func(f segments.Figure) bool { return !isEnd(f) }) // the ends have a stage of their own
	ends := s.endsStage(out.at)
	// Where the body used the last digits of its pins its ends have to as well.
	ends.slack += s.slackOf(func(f segments.Figure) bool { return !isPillar(f) })
	last := ends.solve(body, limits, byDigits)
	if last.failed {
		// The body's stage ended within rounding of where this one has nothing left to choose.
		last = out
	}
	s.mark(&sol, last, limits, isEnd)
	s.markPinned(&sol, last.at)
	sol.values = s.values(last.at)
	s.pillar(&sol)
	return sol
}

// kept lists the limits that are not left out.
func (s solver) kept(limits []limit) []limit {
	return slices.DeleteFunc(slices.Clone(limits), func(l limit) bool { return s.omitted[l.name] })
}

// withPins returns s with the pins of some figures only.
func (s solver) withPins(figures []segments.Figure) solver {
	s.pins = slices.DeleteFunc(slices.Clone(s.pins), func(t target) bool { return !slices.Contains(figures, t.pin.Figure) })
	return s
}

func failure(out outcome, limits []limit) solution {
	sol := solution{failed: true, pins: out.pins}
	for _, i := range out.limits {
		sol.limits = append(sol.limits, limits[i].name)
	}
	return sol
}

// mark records which of a stage's figures its limits stop.
func (s solver) mark(sol *solution, out outcome, limits []limit, of func(segments.Figure) bool) {
	for k, i := range out.limits {
		for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
			if of(f) && math.Abs(out.displacements[k][index(f)]) > quantum && sol.stops[f] == "" {
				sol.stops[f] = limits[i].name
			}
		}
	}
}

// markPinned records for each pinned figure of body or ends the limit that it stands at; of several the one about the fewest figures.
func (s solver) markPinned(sol *solution, at vector) {
	for _, t := range s.pins {
		f := t.pin.Figure
		if isPillar(f) || f == segments.GreenhouseToBody {
			continue
		}
		fewest := variables + 1
		for _, l := range s.limits {
			n := l.room.variablesBeside(s.figure(f))
			if n > 0 && n < fewest && l.room.value(at) < 10*tolerance+t.slack {
				sol.stops[f], fewest = l.name, n
			}
		}
	}
}

func (s solver) isPinned(f segments.Figure) bool {
	return slices.ContainsFunc(s.pins, func(t target) bool { return t.pin.Figure == f })
}

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
