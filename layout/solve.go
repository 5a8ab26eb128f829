package layout

import (
	"math"
	"slices"

	"hubrule/geom"
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
	values  segments.Values
	stopped [segments.FigureCount]string // the limit that stops a figure; "" where none does
	pillar  bool                         // failed in the pillar's stage, else in the body's
	failed  bool
	pins    []int    // failed: indices of pins that stand in the way, perhaps more than needed
	limits  []string // failed: names of the limits
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
	var sol solution
	s.mark(&sol, out, limits, func(f segments.Figure) bool { return !isEnd(f) }) // the ends find their own place
	ends := s.endsStage(out.at)
	ends.slack += s.allSlack(p) // where the body leaned on the last digits of its pins its ends have to as well
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

// bodyEquations writes the pins of body and ends as equations.
func (s solver) bodyEquations(p part) []equation {
	var out []equation
	for _, i := range p.pins {
		f := s.pins[i].pin.Figure
		v, slack := s.wanted(p, i)
		switch {
		case isPillar(f):
		case f == segments.GreenhouseToBody:
			out = append(out, equation{i, s.ratioForm(v), slack * (s.typical[segments.Height] - s.typical[segments.Sill])})
		default:
			out = append(out, equation{i, s.figure(f).plusJust(-v), slack})
		}
	}
	return out
}

// bodyStage moves everything but the pillar. The ends take part so that limits and pins see them, with steps so long
// that they never pull the body.
func (s solver) bodyStage(p part) stage {
	const loose = 1e4
	st := stage{centre: s.centres()}
	for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
		if !s.profile.Form.Has(f) || isPillar(f) {
			continue
		}
		st.moving = append(st.moving, slot(f))
		st.half[slot(f)] = s.half(f)
		if isEnd(f) || f == segments.GlassEnd && s.profile.GlassFromFront && s.isPinned(p, f) {
			// A pinned glass end has no place behind the front axle to keep, which the wheelbase would have to follow.
			st.half[slot(f)] *= loose
		}
	}
	return st
}

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

// mark notes which of a stage's figures its limits stop.
func (s solver) mark(sol *solution, out outcome, limits []limit, of func(segments.Figure) bool) {
	for k, i := range out.limits {
		for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
			if of(f) && math.Abs(out.pushed[k][slot(f)]) > door && sol.stopped[f] == "" {
				sol.stopped[f] = limits[i].name
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
				sol.stopped[f], fewest = l.name, n
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

// pillar lays the A-pillar's line over the solved body. Where only the side glass stands in its way the glass gives way, as far
// as the tail lets it.
func (s solver) pillar(sol *solution, p part) {
	v := sol.values
	eqs, st := s.pillarEquations(p, v), s.pillarStage(v)
	st.slack = s.bodySlack(p)
	limits := s.pillarLimits(v)
	limits = slices.DeleteFunc(limits, func(l limit) bool { return p.without[l.name] })
	head := slices.IndexFunc(limits, func(l limit) bool { return l.name == headBeforeGlass })
	givesWay := false
	out := st.solveTight(eqs, limits)
	if out.failed && head >= 0 && !s.isPinned(p, segments.GlassEnd) {
		limits[head] = limit{glassBeforeTail, s.lineAt(s.rearmostGlass(v) - .4).plusJust(-(v[segments.Height] - s.drop))}
		if p.without[glassBeforeTail] {
			limits = slices.Delete(limits, head, head+1)
		}
		givesWay = true
		out = st.solveTight(eqs, limits)
	}
	if out.failed {
		out = st.solve(eqs, limits)
	}
	if out.failed {
		failed := failure(out, limits)
		*sol = solution{failed: true, pillar: true, values: v, pins: failed.pins, limits: failed.limits}
		return
	}
	s.setLine(&v, out.at)
	s.mark(sol, out, limits, isPillar)
	for _, l := range limits {
		if f, ok := pillarLimitOf(l.name); ok && s.isPinned(p, f) && l.room.at(out.at) < 10*hair+st.slack {
			sol.stopped[f] = l.name
		}
	}
	if givesWay {
		v[segments.GlassEnd] = v[segments.PillarHead] + .4 - v[segments.Wheelbase] - s.q/2
		sol.stopped[segments.GlassEnd] = headBeforeGlass
	}
	sol.values = v
}

// pillarLimitOf returns the figure that a limit of the pillar is about.
func pillarLimitOf(name string) (segments.Figure, bool) {
	switch name {
	case steepEnough, flatEnough:
		return segments.PillarRake, true
	case footBehindNose:
		return segments.PillarFoot, true
	case headBeforeGlass, glassBeforeTail:
		return segments.PillarHead, true
	}
	return 0, false
}

// bodySlack is what the last digits of the body's pins leave open where the A-pillar stands on it: at least what rounding at the
// door does to a plan's own figures.
func (s solver) bodySlack(p part) float64 {
	sum := 4 * door
	for _, i := range p.pins {
		switch s.pins[i].pin.Figure {
		case segments.WheelsBetween, segments.FrontOverhang, segments.RearOverhang, segments.Sill, segments.Height,
			segments.GreenhouseToBody, segments.GlassEnd, segments.Wheelbase, segments.Length, segments.Belt,
			segments.BodySide, segments.Greenhouse:
			_, slack := s.wanted(p, i)
			sum += slack
		}
	}
	return sum
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

// rearmostGlass is the x where the side glass has to end at the latest.
func (s solver) rearmostGlass(body segments.Values) float64 {
	return body[segments.Wheelbase] + s.q/2 + body[segments.RearOverhang] - .1
}

func (s solver) isPinned(p part, f segments.Figure) bool {
	for _, i := range p.pins {
		if s.pins[i].pin.Figure == f {
			return true
		}
	}
	return false
}

// pillarStage moves the line's height over the typical foot and its slope.
func (s solver) pillarStage(body segments.Values) stage {
	height, slope := slot(segments.PillarAim), slot(segments.PillarRake)
	rake, half := s.typical[segments.PillarRake], s.profile.Figures[segments.PillarRake].Range.Half()
	tan := func(deg float64) float64 { return geom.Degrees(deg).Tan() }
	st := stage{moving: []int{height, slope}}
	st.centre[height], st.half[height] = beltOver(body, s.rise, s.foot), s.profile.Figures[segments.PillarAim].Range.Half()
	st.centre[slope] = tan(rake)
	st.half[slope] = (tan(math.Min(rake+half, 88)) - tan(rake-half)) / 2
	return st
}

// pillarEquations writes the pins of the pillar as equations over a solved body.
func (s solver) pillarEquations(p part, body segments.Values) []equation {
	slope := geom.Degrees(s.typical[segments.PillarRake]).Tan()
	var out []equation
	for _, i := range p.pins {
		v, slack := s.wanted(p, i)
		switch s.pins[i].pin.Figure {
		case segments.PillarAim:
			out = append(out, equation{i, s.lineAt(0).plusJust(-v), slack})
		case segments.PillarRake:
			m := geom.Degrees(v).Tan()
			out = append(out, equation{i, variable(segments.PillarRake).plusJust(-m), slack * math.Pi / 180 * (1 + float64(m*m))})
		case segments.PillarFoot:
			out = append(out, equation{i, s.lineAt(v).plusJust(-beltOver(body, s.rise, v)), slack * (slope - s.rise)})
		case segments.PillarHead:
			out = append(out, equation{i, s.lineAt(v).plusJust(-(body[segments.Height] - s.drop)), slack * slope})
		}
	}
	return out
}

// setLine fills in the pillar's figures from the stage's variables.
func (s solver) setLine(v *segments.Values, at amounts) {
	c, m := at[slot(segments.PillarAim)], at[slot(segments.PillarRake)]
	aim := c - float64(m*s.foot)
	v[segments.PillarAim] = aim
	v[segments.PillarRake] = math.Atan(m) * 180 / math.Pi
	v[segments.PillarFoot] = (beltOver(*v, s.rise, 0) - aim) / (m - s.rise)
	v[segments.PillarHead] = (v[segments.Height] - s.drop - aim) / m
}
