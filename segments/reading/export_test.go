package reading

import "math"

// Trials is trials for tests outside the package.
var Trials = trials

// ConicWheelbase is the wheelbase by the near tyres' ellipses, with its standard deviation.
func ConicWheelbase(m *Marks) (value, sd float64, ok bool) {
	value, variance, ok := conicWheelbase(m.sightings(TyreFront), m.sightings(TyreRear), m.ratioKnown())
	return value, math.Sqrt(variance), ok
}
