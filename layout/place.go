package layout

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// quantum is the step of a plan's figures: declared and given values are rounded to it once, on
// the way in, because Tan, Sin and Atan differ in their last bits between processors.
const quantum = 1e-6

// Quantise rounds v to the nearest millionth of its unit. It never returns −0.
func Quantise[T ~float64](v T) T { return T(math.Round(float64(v)/quantum)*quantum) + 0 }

// Typical returns the plan of a profile with every figure at its typical value.
func Typical(p *segments.Profile) Plan { return Place(p, typicalValues(p)) }

// Place computes the plan in which profile p has the given and declared figures v, each in
// its own unit; what v says of derived figures is ignored. Figures the form lacks are NaN.
func Place(p *segments.Profile, v segments.Values) Plan {
	for f := range v {
		v[f] = Quantise(v[f])
	}
	return Plan{Profile: p, figures: derive(v)}
}

// derive fills in the derived figures of v: one line a relation, in the order of the table in docs/figures.md.
func derive(v segments.Values) segments.Values {
	q := v[segments.RearWheel] / v[segments.Wheel]
	m := geom.Degrees(v[segments.PillarRake]).Tan()
	rise := geom.Degrees(v[segments.BeltRise]).Tan()

	v[segments.Wheelbase] = v[segments.WheelsBetween] + (1+q)/2
	v[segments.Length] = v[segments.FrontOverhang] + .5 + v[segments.Wheelbase] + q/2 + v[segments.RearOverhang]
	v[segments.BodySide] = (v[segments.Height] - v[segments.Sill]) / (1 + v[segments.GreenhouseToBody])
	v[segments.Greenhouse] = float64(v[segments.GreenhouseToBody] * v[segments.BodySide])
	v[segments.Belt] = v[segments.Sill] + v[segments.BodySide]
	atAxle := v[segments.Belt] - float64(v[segments.Wheelbase]/2*rise)
	v[segments.PillarFoot] = (atAxle - v[segments.PillarAim]) / (m - rise)
	v[segments.PillarHead] = (v[segments.Height] - v[segments.HeaderDrop] - v[segments.PillarAim]) / m
	v[segments.FrontLamp] = 1 + v[segments.ArchGap] + v[segments.LampOffset]
	v[segments.RearLamp] = v[segments.FrontLamp] + v[segments.LampDepth]
	return v
}
