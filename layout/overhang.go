package layout

import (
	"fmt"
	"strings"

	"hubrule/segments"
)

// OverhangNotes returns a sentence for each overhang that was pinned from the tyre and was probably meant from the axle, as data sheets
// count it: in a unit of the vehicle, clearly outside its range, where the same length from the wheel's centre lies inside or much nearer.
func OverhangNotes(b segments.Brief) []string {
	const clearly, nearer = .5, .5 // half-ranges, and their share that is left: judged by eye
	var out []string
	p := b.FittedProfile()
	for _, pin := range b.Pins {
		axle := segments.FrontOverhangAxle
		switch pin.Figure {
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
