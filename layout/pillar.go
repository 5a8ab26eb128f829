package layout

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// pillar lays the A-pillar's line over the solved body. Where only the side glass is in its way, the glass is shortened, as far
// as the tail lets it.
func (s solver) pillar(sol *solution) {
	v := sol.values
	eqs, st := s.pillarEquations(v), s.pillarStage(v)
	st.slack = 4*quantum + s.slackOf(supportsPillar) // rounding to the quantum moves a plan's own figures
	limits := s.kept(s.pillarLimits(v))
	head := slices.IndexFunc(limits, func(l limit) bool { return l.name == headBeforeGlass })
	shortens := false
	out := st.solve(eqs, limits, unrelaxed)
	if out.failed && head >= 0 && !s.isPinned(segments.GlassEnd) {
		rearmost := v[segments.Wheelbase] + s.q/2 + v[segments.RearOverhang] - glassTailGap
		limits[head] = s.headLimit(glassBeforeTail, rearmost, v)
		if s.omitted[glassBeforeTail] {
			limits = slices.Delete(limits, head, head+1)
		}
		shortens = true
		out = st.solve(eqs, limits, unrelaxed)
	}
	if out.failed {
		out = st.solve(eqs, limits, byDigits)
	}
	if out.failed {
		failed := failure(out, limits)
		*sol = solution{failed: true, pillar: true, values: v, pins: failed.pins, limits: failed.limits}
		return
	}
	s.setLine(&v, out.at)
	s.mark(sol, out, limits, isPillar)
	for _, l := range limits {
		if s.isPinned(l.pillar) && l.room.value(out.at) < 10*tolerance+st.slack {
			sol.stops[l.pillar] = l.name
		}
	}
	if shortens {
		v[segments.GlassEnd] = v[segments.PillarHead] + headGlassGap - v[segments.Wheelbase] - s.q/2
		sol.stops[segments.GlassEnd] = headBeforeGlass
	}
	s.setScreen(&v, sol)
	sol.values = v
}

// pillarStage moves the line's height over the typical foot and its slope.
func (s solver) pillarStage(body segments.Values) stage {
	half := func(f segments.Figure) float64 { return s.profile.Figures[f].Range.HalfWidth() }
	tan := func(deg float64) float64 { return geom.Degrees(deg).Tan() }
	rake, by := s.typical[segments.PillarRake], half(segments.PillarRake)
	var st stage
	st.free(segments.PillarAim, beltOver(body, s.rise, s.foot), half(segments.PillarAim))
	st.free(segments.PillarRake, tan(rake), (tan(math.Min(rake+by, 88))-tan(rake-by))/2)
	st.free(segments.ScreenBase, s.typical[segments.ScreenBase], half(segments.ScreenBase))
	return st
}

// pillarEquations writes the pins of the pillar as equations over a solved body.
func (s solver) pillarEquations(body segments.Values) []equation {
	slope := geom.Degrees(s.typical[segments.PillarRake]).Tan()
	var out []equation
	for _, t := range s.pins {
		v, slack := t.value, t.slack
		switch t.pin.Figure {
		case segments.PillarAim:
			out = append(out, equation{t.pin.Figure, s.lineAt(0).plus(-v), slack})
		case segments.PillarRake:
			m := geom.Degrees(v).Tan()
			out = append(out, equation{t.pin.Figure, variable(segments.PillarRake).plus(-m), slack * math.Pi / 180 * (1 + float64(m*m))})
		case segments.PillarFoot:
			out = append(out, equation{t.pin.Figure, s.lineAt(v).plus(-beltOver(body, s.rise, v)), slack * (slope - s.rise)})
		case segments.ScreenBase:
			out = append(out, equation{t.pin.Figure, variable(segments.ScreenBase).plus(-v), slack})
		case segments.PillarHead:
			out = append(out, equation{t.pin.Figure, s.lineAt(v).plus(-(body[segments.Height] - s.drop)), slack * slope})
		}
	}
	return out
}

// setLine fills in the pillar's figures from the stage's variables.
func (s solver) setLine(v *segments.Values, at vector) {
	c, m := at[index(segments.PillarAim)], at[index(segments.PillarRake)]
	aim := c - float64(m*s.foot)
	v[segments.PillarAim] = aim
	v[segments.PillarRake] = math.Atan(m) * 180 / math.Pi
	v[segments.PillarFoot] = (beltOver(*v, s.rise, 0) - aim) / (m - s.rise)
	v[segments.PillarHead] = (v[segments.Height] - s.drop - aim) / m
}

// supportsPillar reports whether the A-pillar stands on figure f of the body, or stands off it.
func supportsPillar(f segments.Figure) bool {
	return slices.Contains([]segments.Figure{
		segments.WheelsBetween, segments.FrontOverhang, segments.RearOverhang, segments.Sill, segments.Height,
		segments.GreenhouseToBody, segments.GlassEnd, segments.Wheelbase, segments.Length, segments.FrontOverhangAxle,
		segments.RearOverhangAxle, segments.Belt, segments.BodySide, segments.Greenhouse, segments.Cowl, segments.ScreenBase,
	}, f)
}
