package layout

import (
	"fmt"
	"strings"

	"hubrule/segments"
)

// PinNotes returns a sentence for each pin that was probably meant otherwise: a wheel of a rim's size, and an overhang that was pinned
// from the tyre and meant from the axle, as data sheets count it. That is one in a unit of the vehicle, clearly outside its range, where
// the same length from the wheel's centre lies inside or much nearer.
func PinNotes(b segments.Brief) []string {
	const clearly, nearer = .5, .5 // half-ranges, and their share that is left: judged by eye
	var out []string
	p := b.FittedProfile()
	for _, pin := range b.Pins {
		axle := segments.FrontOverhangAxle
		switch pin.Figure {
		case segments.Wheel:
			const least = 500 // mm, from memory: the smallest tyres of cars are some 510 tall
			if d := p.Wheel.Diameter; d < least {
				out = append(out, fmt.Sprintf("%s: %.0f mm is the size of a rim; a wheel is as tall as its tyre, %.0f mm on a typical %s",
					pin.Origin.Place, float64(d), float64(b.Profile.Wheel.Diameter), b.Profile.Name))
			}
			continue
		case segments.FrontOverhang:
		case segments.RearOverhang:
			axle = segments.RearOverhangAxle
		default:
			continue
		}
		v := pin.Value(p.Wheel.Diameter)
		by := beyond(v, p.Figures[pin.Figure].Range)
		if pin.Unit() == "w" || by < clearly || beyond(v, derivedRange(p, axle)) > nearer*by {
			continue
		}
		cure := fmt.Sprintf("%s=%s", axle, pin.Text)
		if flag := "--pin "; strings.HasPrefix(pin.Origin.Place, flag) {
			cure = flag + cure
		} else if pin.Origin.InFile {
			cure = fmt.Sprintf("%s: %s", axle, pin.Text)
		}
		side := "above"
		if v < p.Figures[pin.Figure].Range.Lo {
			side = "below"
		}
		out = append(out, fmt.Sprintf("%s: %s counts from the tyre, and lies %.1f half-ranges %s the range of %s; "+
			"if this is the data sheet's overhang, from the wheel's centre, write %s", pin.Origin.Place, pin.Figure, by, side, p.Name,
			cure))
	}
	return out
}
