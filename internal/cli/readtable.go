package cli

import (
	"fmt"
	"io"
	"math"
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
	fmt.Fprintln(w, headOf(r))
	if r.Camera != nil {
		fmt.Fprintln(w, cameraWords(r))
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
		wide = max(wide, utf8.RuneCountInString(differenceWords(r, d)))
	}
	fmt.Fprintf(t, "  %-*s  most of the ± from\n", wide, words)
	for f := range segments.FigureCount {
		if v := r.Figures[f]; isMeasured(f) && v.State != "" && v.State != reading.Absent {
			d, _ := slice.Find(differences, func(d reading.Difference) bool { return d.Figure == f })
			fmt.Fprintf(t, "%s  %-*s  %s\n", figureRow(r, f), wide, differenceWords(r, d), v.MostFrom)
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
		fmt.Fprintf(w, "\n%s\n", rankingLine(all))
	}
	for _, text := range r.Messages {
		fmt.Fprintln(w, text)
	}
}

// headOf names the vehicle: "side, read from side.jpg, like sedan, on 225/50R17".
func headOf(r reading.Reading) string {
	out := []string{r.Name}
	if r.Student != "" {
		out = append(out, r.Student)
	}
	out = append(out, "read from "+r.Source)
	if r.Like != nil {
		out = append(out, "like "+r.Like.Name)
	}
	if r.Wheel.Diameter > 0 {
		out = append(out, "on "+tyreWords(r.Wheel))
	}
	return strings.Join(out, ", ")
}

// cameraWords says where the picture was taken from.
func cameraWords(r reading.Reading) string {
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

// figureRow is the line of one figure.
func figureRow(r reading.Reading, f segments.Figure) string {
	v, unit := r.Figures[f], f.Info().Unit
	mm, mmPM := "", ""
	if x, ok := onVehicle(r, f, v.Value); ok {
		pm, _ := onVehicle(r, f, v.PM)
		mm, mmPM = report.Number(x, 0), report.Number(pm, 0)
	}
	return strings.Join([]string{f.String(), report.Value(v.Value, unit), report.Value(v.PM, unit), mm, mmPM, string(v.State), ""}, "\t")
}

// differenceWords says how a figure lies to what it is held against; nothing of the zero Difference.
func differenceWords(r reading.Reading, d reading.Difference) string {
	if d == (reading.Difference{}) {
		return ""
	}
	unit := d.Figure.Info().Unit
	between := report.Value(d.Range.Lo, unit)
	if d.Range.Hi > d.Range.Lo {
		between += " to " + report.Value(d.Range.Hi, unit)
	}
	where := "above"
	if d.Beyond < 0 {
		where = "below"
	}
	off := fmt.Sprintf("%s %s %s", report.Value(math.Abs(d.Beyond), unit), where, between)
	exact := d.Range.Hi == d.Range.Lo
	switch {
	case d.CannotTell && d.Move == 0 && !exact:
		return fmt.Sprintf("in %s, ± %s: cannot tell", between, report.Value(d.Read.PM, unit))
	case d.CannotTell:
		return fmt.Sprintf("%s, ± %s: cannot tell", off, report.Value(d.Read.PM, unit))
	case d.Move == 0 && exact:
		return "near " + between
	case d.Move == 0:
		return "in " + between
	}
	return off + r.OnPaper(d, ", ")
}

// absentFigures lists what a picture could have shown and did not.
func absentFigures(r reading.Reading) string {
	var names []string
	for f := range segments.FigureCount {
		if v := r.Figures[f]; isMeasured(f) && f.Info().Role != segments.Given && (v.State == "" || v.State == reading.Absent) {
			names = append(names, f.String())
		}
	}
	return strings.Join(names, ", ")
}
