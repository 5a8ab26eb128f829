package layout

import (
	"math"

	"hubrule/segments"
)

// fixed is a figure that the solve has to meet: a pin or a kept figure.
type fixed struct {
	pin   segments.Pin
	kept  bool
	value float64 // in the figure's own unit
	slack float64 // half its last digit
}

// solver holds one brief in the solve's terms.
type solver struct {
	frame
	pins   []fixed // of declared and derived figures, in the figures' fixed order
	limits []limit // of body and ends
}

// solution is what the three stages come to.
type solution struct {
	values segments.Values
	stops  map[segments.Figure]string // the limits that stop figures
	pillar bool                       // failed in the pillar's stage, else in the body's
	failed bool
	pins   []int    // failed: indices of pins that stand in the way, perhaps more than needed
	limits []string // failed: names of the limits
}

// part is the choice of pins and limits that an attempt is made with.
type part struct {
	pins    []int           // indices, rising
	without map[string]bool // names of limits left out
	other   *instead        // another value for one pin, or nil
	exact   bool            // every pin to the letter, not to half its last digit
}

// instead is another value for a pin.
type instead struct {
	pin          int
	value, slack float64
}

// all is the whole brief.
func (s solver) all() part {
	var p part
	for i := range s.pins {
		p.pins = append(p.pins, i)
	}
	return p
}

// attempt solves with the pins and limits of p: body, ends, pillar.
func (s solver) attempt(p part) solution {
	body, limits := s.bodyEquations(p), s.kept(p)
	out := s.bodyStage(p).solve(body, limits)
	if out.failed {
		return failure(out, limits)
	}
	sol := solution{stops: map[segments.Figure]string{}}
	s.mark(&sol, out, limits, func(f segments.Figure) bool { return !isEnd(f) }) // the ends find their own place
	ends := s.endsStage(out.at)
	ends.slack += s.slackOf(p, func(f segments.Figure) bool { return !isPillar(f) }) // where the body leaned on the last digits of its pins its ends have to as well
	last := ends.solve(body, limits)
	if last.failed {
		// The body's stage ended within rounding of where this one has nothing left to choose.
		last = out
	}
	s.mark(&sol, last, limits, isEnd)
	s.markPinned(&sol, p, last.at)
	sol.values = s.values(last.at)
	s.pillar(&sol, p)
	return sol
}

// kept lists the limits that p does not leave out.
func (s solver) kept(p part) []limit {
	if len(p.without) == 0 {
		return s.limits
	}
	var out []limit
	for _, l := range s.limits {
		if !p.without[l.name] {
			out = append(out, l)
		}
	}
	return out
}

func failure(out outcome, limits []limit) solution {
	sol := solution{failed: true, pins: out.pins}
	for _, i := range out.limits {
		sol.limits = append(sol.limits, limits[i].name)
	}
	return sol
}

// wanted returns the value of a pin in p and how far it may be off where others settle it.
func (s solver) wanted(p part, i int) (value, slack float64) {
	switch {
	case p.other != nil && p.other.pin == i:
		return p.other.value, p.other.slack
	case p.exact:
		return s.pins[i].value, 0
	}
	return s.pins[i].value, s.pins[i].slack
}

// mark notes which of a stage's figures its limits stop.
func (s solver) mark(sol *solution, out outcome, limits []limit, of func(segments.Figure) bool) {
	for k, i := range out.limits {
		for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
			if of(f) && math.Abs(out.pushed[k][slot(f)]) > quantum && sol.stops[f] == "" {
				sol.stops[f] = limits[i].name
			}
		}
	}
}

// markPinned names beside a pinned figure of body or ends the limit that it stands at; of several the one about the fewest figures.
func (s solver) markPinned(sol *solution, p part, at amounts) {
	for _, i := range p.pins {
		f := s.pins[i].pin.Figure
		if isPillar(f) || f == segments.GreenhouseToBody {
			continue
		}
		fewest := variables + 1
		for _, l := range s.limits {
			if n := count(l.room.of); n < fewest && l.room.at(at) < 10*hair+s.pins[i].slack && along(l.room.of, s.figure(f).of) {
				sol.stops[f], fewest = l.name, n
			}
		}
	}
}

// count is how many working variables a form is about.
func count(of amounts) int {
	n := 0
	for _, c := range of {
		if c != 0 {
			n++
		}
	}
	return n
}

// along reports whether a limit is about a figure: about nothing else, or about all that the figure is made of.
func along(limit, figure amounts) bool {
	for i, c := range figure {
		if c != 0 && limit[i] == 0 {
			return false
		}
	}
	return true
}

func (s solver) isPinned(p part, f segments.Figure) bool {
	for _, i := range p.pins {
		if s.pins[i].pin.Figure == f {
			return true
		}
	}
	return false
}
