package layout

import (
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// typicalValues returns every figure of a profile's typical plan.
func typicalValues(p *segments.Profile) segments.Values {
	var v segments.Values
	for f := range segments.FigureCount {
		v[f] = math.NaN()
		if f.Info().Role != segments.Derived && p.Form.Has(f) {
			v[f] = p.Figures[f].Value
		}
	}
	return derive(v)
}

// sumMoves adds up all moves of the tweaks, figure by figure, each from the unmodified typical plan at: so order means nothing.
func sumMoves(p *segments.Profile, at segments.Values, tweaks []segments.AppliedTweak) segments.Values {
	var by segments.Values
	for _, d := range tweaks {
		if d.Tweak.NoEffect(p) != "" {
			continue
		}
		for _, m := range slices.Concat(d.Tweak.Moves, d.Tweak.ByForm[p.Form]) {
			if p.Form.Has(m.Figure) {
				by[m.Figure] += moveBy(p, at, m, d.Strength)
			}
		}
	}
	return by
}

// moveBy is one move at a strength, in the figure's own unit.
func moveBy(p *segments.Profile, at segments.Values, m segments.Move, strength float64) float64 {
	g := m.Toward
	switch {
	case m.Below != nil && strength < 0:
		return -strength * *m.Below
	case g == nil && m.HalfRanges:
		return strength * m.By * p.Figures[m.Of].Range.HalfWidth()
	case g == nil:
		return strength * m.By
	case strength < 0:
		return -strength * g.Below
	}
	goal := g.Value
	if g.BeforeTail {
		goal = at[segments.RearWheel]/at[segments.Wheel]/2 + at[segments.RearOverhang] - g.Value
	}
	return math.Min(strength, g.Until) * g.Share * (goal - at[m.Figure])
}

// applyTweaks returns the typical plan of p after the tweaks. A part (greenhouse, body-side, wheelbase, pillar-foot) is moved by
// itself, the others kept, and the declared figures are read back. What follows the body (cowl, chin …) is left to the solve.
func applyTweaks(p *segments.Profile, tweaks []segments.AppliedTweak) segments.Values {
	at := typicalValues(p)
	if len(tweaks) == 0 {
		return at
	}
	by := sumMoves(p, at, tweaks)
	by[segments.WheelsBetween] += by[segments.Wheelbase]
	v := at
	for f := range segments.FigureCount {
		if a := f.Info(); a.Role != segments.Derived {
			// Past what makes sense for any vehicle a stranger's tweak stops; the solve's own limits say the rest.
			v[f] = geom.Clamp(v[f]+by[f], a.Lo, a.Hi)
		}
	}

	// Height and ratio move what stands on the sill; then the sill lifts it all and the parts grow by themselves.
	ratio := v[segments.GreenhouseToBody]
	side := (at[segments.Height] + by[segments.Height] - at[segments.Sill]) / (1 + ratio)
	house := float64(ratio*side) + by[segments.Greenhouse]
	side += by[segments.BodySide]
	side, house = math.Max(side, .1), math.Max(house, .1)
	v[segments.GreenhouseToBody] = house / side
	v[segments.Height] = v[segments.Sill] + side + house

	// 5° more than the belt's rise: nearer to it the A-pillar would never meet the belt.
	v[segments.PillarRake] = geom.Clamp(v[segments.PillarRake], math.Max(leastRake, v[segments.BeltRise]+5), mostRake)
	v[segments.TailRake] = geom.Clamp(v[segments.TailRake], math.Min(10, at[segments.TailRake]), math.Max(86, at[segments.TailRake]))
	v[segments.Rim] = geom.Clamp(v[segments.Rim], math.Min(.45, at[segments.Rim]), math.Max(.85, at[segments.Rim]))

	// The foot stays where it is unless it is moved; aim and rake follow.
	foot := at[segments.PillarFoot] + by[segments.PillarFoot]
	v = derive(v)
	slope, rise := geom.Degrees(v[segments.PillarRake]).Tan(), geom.Degrees(v[segments.BeltRise]).Tan()
	onBelt := v[segments.Belt] + float64(rise*(foot-v[segments.Wheelbase]/2))
	v[segments.PillarAim] = onBelt - float64(slope*foot) + by[segments.PillarAim]
	if p.GlassFromFront {
		// A cab keeps its place behind the front axle, and grows with a foot that moves back.
		v[segments.GlassEnd] += math.Max(0, by[segments.PillarFoot]) - (v[segments.Wheelbase] - at[segments.Wheelbase])
	}
	return derive(v)
}
