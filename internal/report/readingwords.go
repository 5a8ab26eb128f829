package report

import (
	"fmt"
	"math"
	"strings"

	"hubrule/layout"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// ReadingHead names the vehicle: "side, read from side.jpg, like sedan, on 225/50R17".
func ReadingHead(r reading.Reading) string {
	out := []string{r.Name}
	if r.Student != "" {
		out = append(out, r.Student)
	}
	out = append(out, "read from "+r.Source)
	if r.Like != nil {
		out = append(out, "like "+r.Like.Name)
	}
	if r.Wheel.Diameter > 0 {
		out = append(out, "on "+TyreWords(r.Wheel))
	}
	return strings.Join(out, ", ")
}

// CameraWords says where the picture was taken from.
func CameraWords(r reading.Reading) string {
	c := r.Camera
	if r.Skew == reading.CannotTell {
		return "skew: cannot tell"
	}
	towards := "nose"
	if c.Yaw > 0 {
		towards = "tail"
	}
	known := "known, and taken out"
	if r.Skew == reading.Weak {
		known = "known roughly; taken out, and the ± of what depends on it is wide"
	}
	distance := fmt.Sprintf("%.1f ± %.1f wheels", c.Distance, c.DistancePM)
	if r.Wheel.Diameter > 0 {
		distance = fmt.Sprintf("%.1f ± %.1f m", c.Distance*float64(r.Wheel.Diameter)/1000, c.DistancePM*float64(r.Wheel.Diameter)/1000)
	}
	return fmt.Sprintf("skew: %s (%s); the camera stood %.1f° ± %.1f° from square-on towards the %s, %s away, with a lens like %.0f mm",
		r.Skew, known, math.Abs(c.Yaw), c.YawPM, towards, distance, c.Focal)
}

// DifferenceWords says how a figure lies to what it is held against; nothing of the zero Difference.
func DifferenceWords(r reading.Reading, d reading.Difference) string {
	if d == (reading.Difference{}) {
		return ""
	}
	unit := d.Figure.Info().Unit
	between := Value(d.Range.Lo, unit)
	if d.Range.Hi > d.Range.Lo {
		between += " to " + Value(d.Range.Hi, unit)
	}
	where := "above"
	if d.Beyond < 0 {
		where = "below"
	}
	off := fmt.Sprintf("%s %s %s", Value(math.Abs(d.Beyond), unit), where, between)
	exact := d.Range.Hi == d.Range.Lo
	switch {
	case d.CannotTell && d.Move == 0 && !exact:
		return fmt.Sprintf("in %s, ± %s: cannot tell", between, Value(d.Read.PM, unit))
	case d.CannotTell:
		return fmt.Sprintf("%s, ± %s: cannot tell", off, Value(d.Read.PM, unit))
	case d.Move == 0 && exact:
		return "near " + between
	case d.Move == 0:
		return "in " + between
	}
	return off + r.OnPaper(d, ", ")
}

// Where the sentence stops; judged by eye.
const (
	noneBeyond  = 3   // standard deviations: beyond it from all segments
	secondNamed = .05 // share from which the sentence names the second segment too
)

// RankingLine says in a sentence what pinned figures read as.
func RankingLine(all []layout.Likeness) string {
	if all[0].Distance > noneBeyond {
		return fmt.Sprintf("reads as none of the %d; nearest %s", len(all), all[0].Segment.Name)
	}
	line := fmt.Sprintf("reads as %s (%.0f %%)", all[0].Segment.Name, 100*all[0].Share)
	if all[1].Share >= secondNamed {
		line += fmt.Sprintf(", or %s (%.0f %%)", all[1].Segment.Name, 100*all[1].Share)
	}
	return line
}

// TyreWords names a tyre with its diameter.
func TyreWords(t segments.Tyre) string {
	if t.Name == "" {
		return fmt.Sprintf("%.0f mm", float64(t.Diameter))
	}
	return fmt.Sprintf("%s, %.0f mm", t.Name, float64(t.Diameter))
}
