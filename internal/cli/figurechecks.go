package cli

import (
	"fmt"
	"io"
	"math"
	"text/tabwriter"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/segments"
)

type dimension struct {
	name   string
	value  float64
	format string // of the value in a table
	about  string // what it measures
}

// dimensions lists p's sizes on the vehicle in the order of the JSON contract. Overhangs are ISO 612's: from the wheel centre to
// the foremost or rearmost point; they stand under two names, of which the longer is also a figure's.
func dimensions(p layout.Plan) []dimension {
	const inMM, inDegrees = "%.0f mm", "%.1f°"
	mm := func(w geom.Wheels) float64 { return float64(p.OnVehicle(w)) }
	return []dimension{
		{"wheelbase", mm(p.Wheelbase()), inMM, "axle to axle"},
		{"length", mm(p.Length()), inMM, "nose to tail"},
		{"height", mm(p.Height()), inMM, "ground to roof"},
		{"width", mm(geom.Wheels(p.Value(segments.Width))), inMM, "without mirrors"},
		{"front-overhang", mm(-p.Nose()), inMM, "nose ahead of the front wheel's centre"},
		{"rear-overhang", mm(p.Tail() - p.Wheelbase()), inMM, "tail behind the rear wheel's centre"},
		{"front-overhang-axle", mm(-p.Nose()), inMM, "the same, under the figure's name"},
		{"rear-overhang-axle", mm(p.Tail() - p.Wheelbase()), inMM, "the same, under the figure's name"},
		{"track", mm(geom.Wheels(p.Value(segments.Track))), inMM, "between the tyres' centre lines, at the ground"},
		{"ground-clearance", mm(p.Clearance()), inMM, "ground to the lowest underbody point between the axles"},
		{"approach-angle", float64(p.Approach()), inDegrees, "steepest ramp ahead of the front tyre that the lower front corner clears"},
		{"departure-angle", float64(p.Departure()), inDegrees, "steepest ramp behind the rear tyre that the lower rear corner clears"},
		{"breakover-angle", float64(p.Breakover()), inDegrees, "sharpest crest (change of slope) that the underbody clears"},
	}
}

// dimensionsTable prints the sizes on the vehicle, each with what it measures.
func dimensionsTable(w io.Writer, plan layout.Plan) {
	fmt.Fprintln(w, "\ndimensions on the vehicle (overhangs from the wheel centres, ISO 612; angles from the ground)")
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	for _, d := range dimensions(plan) {
		fmt.Fprintf(t, "%s\t"+d.format+"\t  %s\n", d.name, d.value, d.about)
	}
	t.Flush()
}

// checksTable prints plausibility checks under a title, each with its value, limit, result and source.
func checksTable(w io.Writer, title string, checks []layout.Check) {
	fmt.Fprintf(w, "\n%s\n", title)
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, c := range checks {
		value := "not known"
		switch {
		case math.IsNaN(c.Value):
		case c.Unit == segments.AsCount:
			value = fmt.Sprintf("%.0f met", c.Value)
		case c.Unit == segments.InMM:
			value = fmt.Sprintf("%.1f mm", c.Value)
		case c.Unit == segments.InDegrees:
			value = fmt.Sprintf("%.2f°", c.Value)
		}
		fmt.Fprintf(t, "  %s\t%s\t%s\t%s\t%s\n", c.Name, value, c.Limit, holdsWords(c), c.Source)
	}
	t.Flush()
}

// holdsWords returns the result of a check: criteria met, missed or not known. Nothing is approved here.
func holdsWords(c layout.Check) string {
	switch c.Result {
	case layout.Met:
		return "meets"
	case layout.Missed:
		return "misses"
	}
	return "not known"
}
