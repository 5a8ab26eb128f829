package layout

import (
	"math"
	"slices"
	"strconv"

	"hubrule/segments"
)

// clashPin finds the nearest value of figure f that works with the other pins. In a clash of the A-pillar only its own pins
// and the glass's have one: the body's pins are met before the pillar is placed.
func (s solver) clashPin(f segments.Figure, pillar bool) ClashPin {
	i := slices.Index(s.figures(), f)
	k := s.pins[i]
	c := ClashPin{Figure: f, Value: k.value, Kept: k.kept, Origin: k.pin.Origin, Written: k.pin.Text, Nearest: math.NaN()}
	if c.AlreadyMet = pillar && !isPillar(f) && f != segments.GlassEnd; c.AlreadyMet {
		return c
	}
	rest := s
	rest.pins = slices.Delete(slices.Clone(s.pins), i, i+1)
	free := rest.attempt()
	if free.failed {
		return c
	}
	decimals := 3
	if f.Info().Unit == segments.InDegrees {
		decimals = 1
	}
	// A suggestion uses neither the last digits of other pins nor its own, unless nothing else works.
	for _, exact := range []bool{true, false} {
		t := trial{s, i, free.values[f], exact, decimals}
		if exact {
			t.solver = s.withoutSlack()
		}
		if edge, ok := t.edge(); ok {
			c.Nearest = readable(edge, t.free, decimals, t.worksWritten(1))
			c.Suggestion = t.suggestion(edge)
		}
		if !math.IsNaN(c.Nearest) && c.Suggestion != "" {
			break
		}
	}
	return c
}

// withoutSlack returns s with pins that hold exactly, not to half their last digit.
func (s solver) withoutSlack() solver {
	s.pins = slices.Clone(s.pins)
	for i := range s.pins {
		s.pins[i].slack = 0
	}
	return s
}

// trial looks for another value of one pin.
type trial struct {
	solver
	pin   int     // index of its target
	free  float64 // the figure's value without the pin
	exact bool    // pins hold exactly, not to half their last digit

	decimals int // of a suggestion in the figure's own unit
}

// works reports whether the pin at v holds with the others, within slack.
func (t trial) works(v, slack float64) bool {
	if a := t.pins[t.pin].pin.Figure.Info(); v < a.Lo || v > a.Hi {
		return false // such a pin is refused
	}
	t.pins = slices.Clone(t.pins)
	t.pins[t.pin].value, t.pins[t.pin].slack = v, slack
	return !t.attempt().failed
}

// edge finds the working value nearest to the wanted one by bisection between that, which fails, and the value without the pin.
func (t trial) edge() (float64, bool) {
	bad, good := t.pins[t.pin].value, t.free
	if !t.works(good, 0) && !t.works(good, math.Min(1e-6, t.pins[t.pin].slack)) {
		return 0, false
	}
	for math.Abs(good-bad) >= 1e-5 {
		if mid := (bad + good) / 2; t.works(mid, 0) {
			good = mid
		} else {
			bad = mid
		}
	}
	return good, true
}

// worksWritten returns whether a number works as it would be written, in a unit of so many of the figure's own: exactly, or to half
// its last digit.
func (t trial) worksWritten(unit float64) func(x float64) bool {
	return func(x float64) bool {
		slack := 0.
		if !t.exact {
			slack = t.pins[t.pin].pin.WithNumber(strconv.FormatFloat(x, 'f', -1, 64)).Tolerance(t.profile.Wheel.Diameter)
		}
		return t.works(float64(x*unit), slack)
	}
}

// readable rounds a working value to so many decimals, away from the edge and towards what works; NaN if no rounded value works.
func readable(edge, inside float64, decimals int, works func(float64) bool) float64 {
	step := math.Pow10(-decimals)
	for ; decimals <= 3; decimals, step = decimals+1, step/10 {
		n, on := math.Floor(edge/step), -1.
		if inside > edge {
			n, on = math.Ceil(edge/step), 1
		}
		for k := -1.; k < 3; k++ { // from one step too near: the edge itself may be a round number
			if try := (n + float64(on*k)) / math.Round(1/step); works(try) {
				return try
			}
		}
	}
	return math.NaN()
}

// suggestion writes a working value as the pin was written: in its unit, whole millimetres, otherwise three decimals; "" if there is none.
func (t trial) suggestion(edge float64) string {
	k := t.pins[t.pin]
	wheel, unit := t.profile.Wheel.Diameter, k.pin.Unit()
	decimals := t.decimals
	switch {
	case k.kept && k.pin.Figure.Info().Unit == segments.InWheels:
		unit = "w"
	case unit == "mm":
		decimals = 0
	case unit == "cm", unit == "in":
		decimals = 1
	}
	written := func(x float64) float64 { return k.pin.FromFigureUnit(x, wheel) }
	v := readable(written(edge), written(t.free), decimals, t.worksWritten(1/written(1)))
	if math.IsNaN(v) {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64) + unit
}
