package report

import (
	"fmt"
	"strings"

	"hubrule/segments"
	"hubrule/segments/reading"
)

// Narrowing is what one more thing that is known of a picture would gain, as JSON.
type Narrowing struct {
	Mark   string `json:"mark"`
	With   string `json:"with,omitempty"`
	Count  int    `json:"count"`
	Figure string `json:"figure"`
	PM     any    `json:"pm"`
	From   any    `json:"from"`
	Text   string `json:"text"`
}

// NarrowingOf returns it with its sentence.
func NarrowingOf(n reading.Narrowing) Narrowing {
	return Narrowing{n.What, n.With, n.Count, n.Figure.String(), Six(n.PM), Six(n.From), narrowingWords(n)}
}

// narrowingWords is a sentence like "4 points on the lower edge of each far tyre would narrow front overhang from ± 0.21 to ± 0.06".
func narrowingWords(n reading.Narrowing) string {
	axle := "the " + n.What[strings.LastIndex(n.What, "-")+1:] // "the front"
	if n.With != "" {
		axle = "each"
	}
	set := ""
	switch n.What {
	case "tyre-front", "tyre-rear":
		set = fmt.Sprintf("%d more points on the edge of %s near tyre", n.Count, axle)
	case "far-front", "far-rear":
		set = fmt.Sprintf("%d points on the lower edge of %s far tyre", n.Count, axle)
	case "ground":
		set = "marking where both near tyres meet the road"
	case "focal":
		set = "knowing the lens's focal length"
	default: // half-width
		set = "naming a segment that it is like"
	}
	decimals, unit := 2, ""
	if n.Figure.Info().Unit == segments.InDegrees {
		decimals, unit = 1, "°"
	}
	for decimals < 4 && Number(n.From, decimals) == Number(n.PM, decimals) {
		decimals++
	}
	return fmt.Sprintf("%s would narrow %s from ± %s%s to ± %s%s", set, strings.ReplaceAll(n.Figure.String(), "-", " "),
		Number(n.From, decimals), unit, Number(n.PM, decimals), unit)
}
