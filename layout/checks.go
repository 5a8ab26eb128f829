package layout

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// CheckResult is the result of a check.
type CheckResult uint8

// Unknown means that the plan lacks a figure that the check needs.
const (
	Unknown CheckResult = iota
	Met
	Missed
)

// Check is one plausibility check of a plan: an aid to sketching, never an approval. The regulation in force decides, and a
// licensed test service judges.
type Check struct {
	Name   string        // begins with the lamp's or angle's word
	Value  float64       // mm or degrees; a count of criteria; NaN where it is not known
	Unit   segments.Unit // InMM, InDegrees or AsCount
	Limit  string        // "at least 500 mm"
	Result CheckResult
	Source string
}

// Sources. The US and German texts were read in public copies (SEEN); UN R48, 09 series, in a transcription that cites its
// clauses (2nd-hand), as was the US lower beam's cell; M1G in a quotation of Dir. 87/403/EEC (2nd-hand), which is now part of
// Reg. (EU) 2018/858 (MEM). UN R48 and StVZO mean the unladen vehicle, 49 CFR the one at curb weight.
const (
	unECE  = "UN R48 (transcription)"
	german = "StVZO"
	us     = "49 CFR 571.108 Table I-a"
	usOff  = "49 CFR 523.5(b)(2)"
	euOff  = "M1G, Dir. 87/403/EEC"
)

// atLeast and atMost are checks of one value against one limit; a value on the limit meets it.
func atLeast(name string, value, limit float64, unit segments.Unit, source string) Check {
	return Check{name, value, unit, "at least " + limitText(limit, unit), judge(value, value-limit), source}
}

func atMost(name string, value, limit float64, unit segments.Unit, source string) Check {
	return Check{name, value, unit, "at most " + limitText(limit, unit), judge(value, limit-value), source}
}

// checkTolerance is how far a value may miss a limit: what rounding to the quantum leaves, a thousandth of a millimetre or degree.
const checkTolerance = 1e-3

func judge(value, room float64) CheckResult {
	switch {
	case math.IsNaN(value):
		return Unknown
	case room >= -checkTolerance:
		return Met
	}
	return Missed
}

func limitText(limit float64, unit segments.Unit) string {
	if unit == segments.InDegrees {
		return fmt.Sprintf("%g°", limit)
	}
	return fmt.Sprintf("%g mm", limit)
}

// Checks returns every check that the plan's figures allow.
func (p Plan) Checks() []Check { return append(p.LampChecks(), p.OffRoadChecks()...) }

// LampChecks holds the lamps' heights against their limits. The front lamp's box is taken for dipped beam, position lamp and
// direction indicator in one, the rear lamp's for position and stop. Lamps that the plan does not know, as an extra high stop
// lamp, are never judged. Boxes are judged by their edges (UN R48 5.8: the highest point of the apparent surface for a maximum,
// the lowest for a minimum) and by their centres (49 CFR 571.108 S6.1.4).
func (p Plan) LampChecks() []Check {
	mm := func(w geom.Wheels) float64 { return float64(p.OnVehicle(w)) }
	low, high := mm(p.FrontLamp()), mm(p.FrontLamp()+p.LampDepth())
	rearLow, rearHigh := mm(p.RearLamp()), mm(p.RearLamp()+p.LampDepth())
	centre, rearCentre := (low+high)/2, (rearLow+rearHigh)/2
	const edgeLow, edgeHigh, atCentre = ", lower edge", ", upper edge", ", centre"
	in := segments.InMM
	return []Check{
		atLeast("dipped beam"+edgeLow, low, 500, in, unECE+" 6.2.4; StVZO §50(3)"),
		atMost("dipped beam"+edgeHigh, high, 1200, in, unECE+" 6.2.4; StVZO §50(3)"),
		atLeast("headlamp"+atCentre, centre, 558.8, in, us),
		atMost("headlamp"+atCentre, centre, 1371.6, in, us),
		atLeast("front direction indicator"+edgeLow, low, 350, in, unECE+" 6.5.4"),
		atMost("front direction indicator"+edgeHigh, high, 1500, in, unECE+" 6.5.4"),
		atLeast("front position lamp"+edgeLow, low, 250, in, unECE+" 6.9.4"),
		atLeast("front position lamp"+edgeLow+", Germany", low, 350, in, german+" §51(3)"),
		atMost("front position lamp"+edgeHigh, high, 1500, in, unECE+" 6.9.4"),
		atLeast("rear position lamp"+edgeLow, rearLow, 350, in, unECE+" 6.10.4; StVZO §53(1)"),
		atMost("rear position lamp"+edgeHigh, rearHigh, 1500, in, unECE+" 6.10.4; StVZO §53(1)"),
		atLeast("stop lamp"+edgeLow, rearLow, 350, in, unECE+" 6.7.4; StVZO §53(2)"),
		atMost("stop lamp"+edgeHigh, rearHigh, 1500, in, unECE+" 6.7.4; StVZO §53(2)"),
		atLeast("tail and stop lamp"+atCentre, rearCentre, 381, in, us),
		atMost("tail and stop lamp"+atCentre, rearCentre, 1828.8, in, us),
	}
}

// OffRoadChecks holds the ground angles and clearances against two lists of off-road criteria. The room under the axles is
// not known: no guide of the side view shows it.
func (p Plan) OffRoadChecks() []Check {
	approach, departure, ramp := float64(p.Approach()), float64(p.Departure()), float64(p.Breakover())
	clear, axle := float64(p.OnVehicle(p.Clearance())), math.NaN()
	deg, in := segments.InDegrees, segments.InMM
	american := []Check{
		atLeast("approach angle, off-road, US", approach, 28, deg, usOff),
		atLeast("breakover angle, off-road, US", ramp, 14, deg, usOff),
		atLeast("departure angle, off-road, US", departure, 20, deg, usOff),
		atLeast("clearance, running, off-road, US", clear, 200, in, usOff),
		atLeast("clearance under both axles, off-road, US", axle, 180, in, usOff),
	}
	european := []Check{
		atLeast("approach angle, off-road, EU", approach, 25, deg, euOff),
		atLeast("departure angle, off-road, EU", departure, 20, deg, euOff),
		atLeast("breakover angle, off-road, EU", ramp, 20, deg, euOff),
		atLeast("clearance under the front axle, off-road, EU", axle, 180, in, euOff),
		atLeast("clearance under the rear axle, off-road, EU", axle, 180, in, euOff),
		atLeast("clearance between the axles, off-road, EU", clear, 200, in, euOff),
	}
	out := append(american, countMet("off-road criteria, US", american, 4, usOff))
	return append(append(out, european...), countMet("off-road criteria, EU, up to 2 t", european, 5, euOff))
}

// countMet reports whether enough of the criteria are met, unknown where the unknown ones could change the answer.
func countMet(name string, criteria []Check, need int, source string) Check {
	met, open := 0, 0
	for _, c := range criteria {
		switch c.Result {
		case Met:
			met++
		case Unknown:
			open++
		}
	}
	c := Check{name, float64(met), segments.AsCount, fmt.Sprintf("%d of %d", need, len(criteria)), Unknown, source}
	switch {
	case met >= need:
		c.Result = Met
	case met+open < need:
		c.Result = Missed
	}
	return c
}
