package cli

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"
	"unicode/utf8"

	"hubrule/internal/report"
	"hubrule/internal/slice"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// readingTable prints one reading for people.
func readingTable(w io.Writer, r reading.Reading, s standard, i int) {
	fmt.Fprintln(w, report.ReadingHead(r))
	if r.Camera != nil {
		fmt.Fprintln(w, report.CameraWords(r))
	}
	fmt.Fprintln(w)
	differences := s.differences(i, r)
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(t, "figure\tvalue\t±\tmm\t±\tstate\t")
	words, wide := "", 0
	if differences != nil {
		words = "against " + s.name
		wide = len(words)
	}
	for _, d := range differences {
		wide = max(wide, utf8.RuneCountInString(report.DifferenceWords(r, d)))
	}
	fmt.Fprintf(t, "  %-*s  most of the ± from\n", wide, words)
	for f := range segments.FigureCount {
		if v := r.Figures[f]; report.IsMeasured(f) && v.State != "" && v.State != reading.Absent {
			d, _ := slice.Find(differences, func(d reading.Difference) bool { return d.Figure == f })
			fmt.Fprintf(t, "%s  %-*s  %s\n", figureRow(r, f), wide, report.DifferenceWords(r, d), v.MostFrom)
		}
	}
	t.Flush()
	fmt.Fprint(w, "w: outside diameters of the front tyre; ±: holds the true value in 95 of 100 readings; mm: on the vehicle\n")
	for _, state := range []struct {
		reading.State
		means string
	}{
		{reading.Assumed, "taken from the segment, or from what is usual"},
		{reading.Unreadable, "its ± is too wide to use it"},
	} {
		if slices.ContainsFunc(r.Figures[:], func(v reading.Value) bool { return v.State == state.State }) {
			fmt.Fprintf(w, "%s: %s\n", state.State, state.means)
		}
	}
	if absent := absentFigures(r); absent != "" {
		fmt.Fprintf(w, "not marked or not given: %s\n", absent)
	}
	if all := r.Rank(segments.All()); all != nil {
		fmt.Fprintf(w, "\n%s\n", report.RankingLine(all))
	}
	for _, text := range r.Messages {
		fmt.Fprintln(w, text)
	}
}

// figureRow is the line of one figure.
func figureRow(r reading.Reading, f segments.Figure) string {
	v, unit := r.Figures[f], f.Info().Unit
	mm, mmPM := "", ""
	if x, ok := report.OnVehicle(r, f, v.Value); ok {
		pm, _ := report.OnVehicle(r, f, v.PM)
		mm, mmPM = report.Number(x, 0), report.Number(pm, 0)
	}
	return strings.Join([]string{f.String(), report.Value(v.Value, unit), report.Value(v.PM, unit), mm, mmPM, string(v.State), ""}, "\t")
}

// absentFigures lists what a picture could have shown and did not.
func absentFigures(r reading.Reading) string {
	var names []string
	for f := range segments.FigureCount {
		if v := r.Figures[f]; report.IsMeasured(f) && f.Info().Role != segments.Given && (v.State == "" || v.State == reading.Absent) {
			names = append(names, f.String())
		}
	}
	return strings.Join(names, ", ")
}
