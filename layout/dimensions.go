package layout

import (
	"hubrule/internal/geom"
	"hubrule/segments"
)

// Dimensions are the plan's sizes on the vehicle, as a data sheet gives them.
// Overhangs are ISO 612's: from the wheel centre to the foremost or rearmost point.
type Dimensions struct {
	Wheelbase, Length, Height, Width         geom.MM
	FrontOverhang, RearOverhang, Track       geom.MM
	GroundClearance                          geom.MM
	ApproachAngle, DepartureAngle, Breakover geom.Degrees
}

// Dimensions returns the plan's sizes in millimetres and degrees.
func (p Plan) Dimensions() Dimensions {
	return Dimensions{
		Wheelbase:       p.OnVehicle(p.Wheelbase()),
		Length:          p.OnVehicle(p.Length()),
		Height:          p.OnVehicle(p.Height()),
		Width:           p.OnVehicle(geom.Wheels(p.Value(segments.Width))),
		FrontOverhang:   p.OnVehicle(-p.Nose()),
		RearOverhang:    p.OnVehicle(p.Tail() - p.Wheelbase()),
		Track:           p.OnVehicle(geom.Wheels(p.Value(segments.Track))),
		GroundClearance: p.OnVehicle(p.Clearance()),
		ApproachAngle:   p.Approach(),
		DepartureAngle:  p.Departure(),
		Breakover:       p.Breakover(),
	}
}
