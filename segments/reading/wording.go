package reading

import (
	"fmt"
	"math"
	"strings"

	"hubrule/segments"
	"hubrule/segments/strict"
)

// wording is how people speak of a figure that is too large or too small.
type wording struct{ name, above, below string }

// words returns the wording of a figure.
func words(f segments.Figure) wording {
	name := strings.ReplaceAll(f.String(), "-", " ")
	switch f {
	case segments.Height:
		return wording{"roof", "high", "low"}
	case segments.Belt, segments.Sill, segments.Clearance, segments.Chin, segments.TailLow, segments.BonnetEdge, segments.Cowl,
		segments.Deck, segments.FrontLamp, segments.RearLamp, segments.LampOffset, segments.PillarAim:
		return wording{name, "high", "low"}
	case segments.ScreenBase, segments.GlassEnd, segments.TailFoot, segments.PillarFoot, segments.PillarHead:
		return wording{name, "too far back", "too far forward"}
	case segments.PillarRake, segments.TailRake, segments.BeltRise:
		return wording{name, "steep", "flat"}
	case segments.Greenhouse, segments.BodySide, segments.GreenhouseToBody, segments.LampDepth:
		return wording{name, "tall", "shallow"}
	case segments.Width, segments.Track, segments.ArchGap:
		return wording{name, "wide", "narrow"}
	}
	return wording{name, "long", "short"}
}

// Words says what to move: "roof 0.05 low"; "" where nothing need move.
func (d Difference) Words() string {
	if d.Move == 0 {
		return ""
	}
	w, decimals, unit := words(d.Figure), 100., ""
	if d.Figure.Info().Unit == segments.InDegrees {
		decimals, unit = 10, "°"
	}
	off := strict.FormatNumber(math.Round(math.Abs(d.Move)*decimals)/decimals) + unit
	if d.Move < 0 {
		return w.name + " " + off + " " + w.above
	}
	return w.name + " " + off + " " + w.below
}

// OnPaper says how far a figure has to move in millimetres, on the sheet under a sketch, else on the vehicle; "" where it need not, or
// where it is no length or the tyre is not known. It begins with a separator.
func (r Reading) OnPaper(d Difference, separator string) string {
	unit := d.Figure.Info().Unit
	if d.Move == 0 || unit != segments.InWheels && unit != segments.AsCount {
		return ""
	}
	if r.Picture != nil && r.Picture.WheelOnSheet() > 0 {
		return fmt.Sprintf("%s%.1f mm on your sheet", separator, math.Abs(d.Move)*float64(r.Picture.WheelOnSheet()))
	}
	if r.Wheel.Diameter > 0 {
		return fmt.Sprintf("%s%.0f mm", separator, math.Abs(d.Move)*float64(r.Wheel.Diameter))
	}
	return ""
}
