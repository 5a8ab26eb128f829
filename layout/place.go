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
	plan := Plan{Profile: p, Values: derive(v)}
	plan.read()
	return plan
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

// read fills the plan's named fields from its values.
func (p *Plan) read() {
	v := &p.Values
	w := func(f segments.Figure) geom.Wheels { return geom.Wheels(v[f]) }
	p.Q = v[segments.RearWheel] / v[segments.Wheel]
	p.RearRadius = geom.Wheels(p.Q / 2)
	p.WheelsBetween, p.Wheelbase = v[segments.WheelsBetween], w(segments.Wheelbase)
	p.FrontOverhang, p.RearOverhang = w(segments.FrontOverhang), w(segments.RearOverhang)
	p.RearEdge = p.Wheelbase + p.RearRadius
	p.Nose, p.Tail = -.5-p.FrontOverhang, p.RearEdge+p.RearOverhang
	p.Length = w(segments.Length)

	p.Sill, p.Height, p.Clearance = w(segments.Sill), w(segments.Height), w(segments.Clearance)
	p.Belt, p.BodySide, p.Greenhouse = w(segments.Belt), w(segments.BodySide), w(segments.Greenhouse)
	p.Ratio, p.BeltRise = v[segments.GreenhouseToBody], geom.Degrees(v[segments.BeltRise])
	p.Chin, p.ChinSetback = w(segments.Chin), w(segments.ChinSetback)
	p.TailLow, p.TailSetback = w(segments.TailLow), w(segments.TailSetback)

	p.PillarAim, p.PillarRake = w(segments.PillarAim), geom.Degrees(v[segments.PillarRake])
	p.AimBand = p.Profile.Figures[segments.PillarAim].Range
	p.PillarFoot = Point{X: w(segments.PillarFoot), Y: p.BeltAt(w(segments.PillarFoot))}
	p.PillarHead = Point{X: w(segments.PillarHead), Y: p.Height - w(segments.HeaderDrop)}
	p.GlassEnd = p.RearEdge + w(segments.GlassEnd)

	p.ArchGap = w(segments.ArchGap)
	p.FrontArch, p.RearArch = .5+p.ArchGap, p.RearRadius+p.ArchGap
	p.FrontLamp, p.RearLamp, p.LampDepth = w(segments.FrontLamp), w(segments.RearLamp), w(segments.LampDepth)
	p.BonnetEdge, p.Cowl = w(segments.BonnetEdge), w(segments.Cowl)
	if p.Profile.Form.Has(segments.Deck) {
		p.Deck = w(segments.Deck)
	}
	if p.Profile.Form.Has(segments.TailFoot) {
		p.TailFoot = w(segments.TailFoot)
	}
	p.TailRake = geom.Degrees(v[segments.TailRake])
	p.Rim = v[segments.Rim]
	p.RearRim = p.Rim
	if r := p.Profile.RearWheel; p.Q != 1 && r.RimDiameter > 0 && p.Profile.Wheel.RimDiameter > 0 {
		// Wider rear tyres have a rim of their own; a drawn rim larger than the designation's enlarges both alike.
		own := float64(p.Profile.Wheel.RimDiameter / p.Profile.Wheel.Diameter)
		p.RearRim = p.Rim / own * float64(r.RimDiameter/r.Diameter)
	}
}

// BeltAt returns the height of the belt line at x.
func (p Plan) BeltAt(x geom.Wheels) geom.Wheels {
	return p.Belt + geom.Wheels(float64(x-p.Wheelbase/2)*p.BeltRise.Tan())
}

// OnVehicle returns a length of the plan in millimetres on the vehicle.
func (p Plan) OnVehicle(w geom.Wheels) geom.MM {
	return geom.MM(float64(w) * p.Values[segments.Wheel])
}
