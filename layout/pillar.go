package layout

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// pillar lays the A-pillar's line over the solved body. Where only the side glass stands in its way the glass gives way, as far
// as the tail lets it.
func (s solver) pillar(sol *solution, p part) {
	v := sol.values
	eqs, st := s.pillarEquations(p, v), s.pillarStage(v)
	st.slack = 4*quantum + s.slackOf(p, carries) // rounding to the quantum moves a plan's own figures
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
			sol.stops[f] = l.name
		}
	}
	if givesWay {
		v[segments.GlassEnd] = v[segments.PillarHead] + .4 - v[segments.Wheelbase] - s.q/2
		sol.stops[segments.GlassEnd] = headBeforeGlass
	}
	sol.values = v
}

// pillarStage moves the line's height over the typical foot and its slope.
func (s solver) pillarStage(body segments.Values) stage {
	height, slope := slot(segments.PillarAim), slot(segments.PillarRake)
	rake, half := s.typical[segments.PillarRake], s.profile.Figures[segments.PillarRake].Range.HalfWidth()
	tan := func(deg float64) float64 { return geom.Degrees(deg).Tan() }
	st := stage{moving: []int{height, slope}}
	st.centre[height], st.half[height] = beltOver(body, s.rise, s.foot), s.profile.Figures[segments.PillarAim].Range.HalfWidth()
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

// carries tells the figures of the body that the A-pillar stands on.
func carries(f segments.Figure) bool {
	switch f {
	case segments.WheelsBetween, segments.FrontOverhang, segments.RearOverhang, segments.Sill, segments.Height,
		segments.GreenhouseToBody, segments.GlassEnd, segments.Wheelbase, segments.Length, segments.Belt,
		segments.BodySide, segments.Greenhouse:
		return true
	}
	return false
}

// rearmostGlass is the x where the side glass has to end at the latest.
func (s solver) rearmostGlass(body segments.Values) float64 {
	return body[segments.Wheelbase] + s.q/2 + body[segments.RearOverhang] - .1
}
