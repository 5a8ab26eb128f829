// Package layout turns a profile into a plan: the side view of one vehicle,
// in wheels. It knows no paper.
package layout

import (
	"hubrule/internal/geom"
	"hubrule/segments"
)

// Point is a place in plan space: wheels, x rearwards from the front axle, y up from the ground.
type Point = geom.Point[geom.Wheels]

// Path is a path in plan space.
type Path = geom.Path[geom.Wheels]

// Plan is the solved side view. Every length is in wheels, every angle in degrees.
type Plan struct {
	Profile *segments.Profile
	Values  segments.Values // every figure of the table, in its own unit

	Brief     segments.Brief               // what was asked for; zero at typical values
	states    [segments.FigureCount]State  // "" where a figure's role says it
	stoppedBy [segments.FigureCount]string // the limit that stops a figure; "" where none does
	Varied    bool                         // moved inside the ranges, see Vary

	Q              float64 // rear ÷ front tyre diameter
	RearRadius     geom.Wheels
	WheelsBetween  float64
	Wheelbase      geom.Wheels
	Nose, Tail     geom.Wheels // x of the foremost and the rearmost point
	RearEdge       geom.Wheels // x of the rear tyre's rear edge
	Length         geom.Wheels
	FrontOverhang  geom.Wheels
	RearOverhang   geom.Wheels
	Sill, Height   geom.Wheels
	Belt           geom.Wheels // at mid-wheelbase
	BodySide       geom.Wheels
	Greenhouse     geom.Wheels
	Ratio          float64 // greenhouse ÷ body side
	BeltRise       geom.Degrees
	Clearance      geom.Wheels
	Chin, TailLow  geom.Wheels
	ChinSetback    geom.Wheels
	TailSetback    geom.Wheels
	PillarAim      geom.Wheels
	AimBand        segments.Range // of the aim, w
	PillarRake     geom.Degrees
	PillarFoot     Point       // on the belt line
	PillarHead     Point       // at the header's height
	GlassEnd       geom.Wheels // x, from the front axle
	ArchGap        geom.Wheels
	FrontArch      geom.Wheels // radius
	RearArch       geom.Wheels // radius
	FrontLamp      geom.Wheels // base
	RearLamp       geom.Wheels // base
	LampDepth      geom.Wheels
	BonnetEdge     geom.Wheels
	Cowl           geom.Wheels
	Deck, TailFoot geom.Wheels // zero where the form has none
	TailRake       geom.Degrees
	Rim            float64 // rim ÷ tyre diameter, front
	RearRim        float64
}
