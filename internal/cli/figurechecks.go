package cli

import (
	"fmt"
	"io"
	"math"
	"text/tabwriter"

	"hubrule/internal/report"
	"hubrule/layout"
	"hubrule/segments"
)

// dimensionsTable prints the sizes on the vehicle, each with what it measures.
func dimensionsTable(w io.Writer, plan layout.Plan) {
	fmt.Fprintln(w, "\ndimensions on the vehicle (overhangs from the wheel centres, ISO 612; angles from the ground)")
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	for _, d := range report.Dimensions(plan) {
		if d.About != "" {
			fmt.Fprintf(t, "%s\t"+d.Format+"\t  %s\n", d.Name, d.Value, d.About)
		}
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
