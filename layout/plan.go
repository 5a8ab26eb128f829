// Package layout turns a profile into a plan: the side view of one vehicle,
// in wheels. It knows no paper.
package layout

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// Point is a place in plan space: wheels, x rearwards from the front axle, y up from the ground.
type Point = geom.Point[geom.Wheels]

// Path is a path in plan space.
type Path = geom.Path[geom.Wheels]

// Plan is the solved side view. Its methods return lengths in wheels, angles in degrees and NaN for figures that the form lacks.
type Plan struct {
	Profile *segments.Profile
	Brief   segments.Brief // zero at typical values
	Varied  bool           // moved inside the ranges, see Vary

	figures segments.Values             // every figure in its own unit, quantised
	exact   map[segments.Figure]float64 // unrounded values of pinned and kept figures that are met
	states  map[segments.Figure]State   // of figures whose role does not say it
	stops   map[segments.Figure]string  // the limits that stop figures
}

// Value returns figure f in its own unit; a pin that is met has the value that was asked for.
func (p Plan) Value(f segments.Figure) float64 {
	if v, ok := p.exact[f]; ok {
		return v
	}
	return p.figures[f]
}

// Values returns the value of every figure.
func (p Plan) Values() segments.Values {
	v := p.figures
	for f, exact := range p.exact {
		v[f] = exact
	}
	return v
}

func (p Plan) length(f segments.Figure) geom.Wheels { return geom.Wheels(p.figures[f]) }
func (p Plan) angle(f segments.Figure) geom.Degrees { return geom.Degrees(p.figures[f]) }

// Along the ground. Nose, Tail, RearEdge and GlassEnd are x from the front axle; TailFoot counts from the rear axle,
// setbacks from nose and tail, overhangs from the outer edges of the tyres.

func (p Plan) Wheelbase() geom.Wheels     { return p.length(segments.Wheelbase) }
func (p Plan) Length() geom.Wheels        { return p.length(segments.Length) }
func (p Plan) FrontOverhang() geom.Wheels { return p.length(segments.FrontOverhang) }
func (p Plan) RearOverhang() geom.Wheels  { return p.length(segments.RearOverhang) }
func (p Plan) ChinSetback() geom.Wheels   { return p.length(segments.ChinSetback) }
func (p Plan) TailSetback() geom.Wheels   { return p.length(segments.TailSetback) }
func (p Plan) TailFoot() geom.Wheels      { return p.length(segments.TailFoot) }
func (p Plan) WheelsBetween() float64     { return p.figures[segments.WheelsBetween] }
func (p Plan) Nose() geom.Wheels          { return -.5 - p.FrontOverhang() }
func (p Plan) Tail() geom.Wheels          { return p.RearEdge() + p.RearOverhang() }
func (p Plan) GlassEnd() geom.Wheels      { return p.RearEdge() + p.length(segments.GlassEnd) }

// RearEdge returns the x of the rear tyre's rear edge.
func (p Plan) RearEdge() geom.Wheels { return p.Wheelbase() + p.RearRadius() }

// ScreenBase returns the x of the screen's foot on the centre line.
func (p Plan) ScreenBase() geom.Wheels { return p.length(segments.ScreenBase) }

// Heights. Those of the lamps are their bases; Belt is the belt's at mid-wheelbase.

func (p Plan) Sill() geom.Wheels       { return p.length(segments.Sill) }
func (p Plan) Height() geom.Wheels     { return p.length(segments.Height) }
func (p Plan) Belt() geom.Wheels       { return p.length(segments.Belt) }
func (p Plan) BodySide() geom.Wheels   { return p.length(segments.BodySide) }
func (p Plan) Clearance() geom.Wheels  { return p.length(segments.Clearance) }
func (p Plan) Chin() geom.Wheels       { return p.length(segments.Chin) }
func (p Plan) TailLow() geom.Wheels    { return p.length(segments.TailLow) }
func (p Plan) PillarAim() geom.Wheels  { return p.length(segments.PillarAim) }
func (p Plan) ArchGap() geom.Wheels    { return p.length(segments.ArchGap) }
func (p Plan) FrontLamp() geom.Wheels  { return p.length(segments.FrontLamp) }
func (p Plan) RearLamp() geom.Wheels   { return p.length(segments.RearLamp) }
func (p Plan) LampDepth() geom.Wheels  { return p.length(segments.LampDepth) }
func (p Plan) BonnetEdge() geom.Wheels { return p.length(segments.BonnetEdge) }
func (p Plan) Cowl() geom.Wheels       { return p.length(segments.Cowl) }
func (p Plan) Deck() geom.Wheels       { return p.length(segments.Deck) }

// GreenhouseToBody returns greenhouse ÷ body side.
func (p Plan) GreenhouseToBody() float64 { return p.figures[segments.GreenhouseToBody] }

// AimRange returns the range of the A-pillar's aim, in wheels.
func (p Plan) AimRange() segments.Range { return p.Profile.Figures[segments.PillarAim].Range }

// Slopes, from the horizontal.

func (p Plan) BeltRise() geom.Degrees   { return p.angle(segments.BeltRise) }
func (p Plan) PillarRake() geom.Degrees { return p.angle(segments.PillarRake) }
func (p Plan) TailRake() geom.Degrees   { return p.angle(segments.TailRake) }

// TyreRatio returns rear ÷ front tyre diameter.
func (p Plan) TyreRatio() float64 { return p.figures[segments.RearWheel] / p.figures[segments.Wheel] }

// RearRadius returns the radius of the rear tyre; the front one's is ½.
func (p Plan) RearRadius() geom.Wheels { return geom.Wheels(p.TyreRatio() / 2) }

// FrontArch returns the radius of the front arch.
func (p Plan) FrontArch() geom.Wheels { return .5 + p.ArchGap() }

// RearArch returns the radius of the rear arch.
func (p Plan) RearArch() geom.Wheels { return p.RearRadius() + p.ArchGap() }

// Rim returns rim ÷ tyre diameter of the front wheel.
func (p Plan) Rim() float64 { return p.figures[segments.Rim] }

// RearRim returns rim ÷ tyre diameter of the rear wheel. Wider rear tyres have a rim of their own; a drawn rim larger than
// the designation's enlarges both alike.
func (p Plan) RearRim() float64 {
	front, rear := p.Profile.Wheel, p.Profile.RearWheel
	if p.TyreRatio() == 1 || rear.RimDiameter <= 0 || front.RimDiameter <= 0 {
		return p.Rim()
	}
	return p.Rim() / float64(front.RimDiameter/front.Diameter) * float64(rear.RimDiameter/rear.Diameter)
}

// PillarFoot returns the point of the A-pillar's line on the belt line.
func (p Plan) PillarFoot() Point {
	x := p.length(segments.PillarFoot)
	return Point{X: x, Y: p.BeltAt(x)}
}

// PillarHead returns the point of the A-pillar's line at the header's height.
func (p Plan) PillarHead() Point {
	return Point{X: p.length(segments.PillarHead), Y: p.Height() - p.length(segments.HeaderDrop)}
}

// BeltAt returns the height of the belt line at x.
func (p Plan) BeltAt(x geom.Wheels) geom.Wheels {
	return p.Belt() + geom.Wheels(float64(x-p.Wheelbase()/2)*p.BeltRise().Tan())
}

// OnVehicle returns a length of the plan in millimetres on the vehicle.
func (p Plan) OnVehicle(w geom.Wheels) geom.MM {
	return geom.MM(float64(w) * p.figures[segments.Wheel])
}

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
	v[segments.FrontOverhangAxle] = v[segments.FrontOverhang] + .5
	v[segments.RearOverhangAxle] = v[segments.RearOverhang] + q/2
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
