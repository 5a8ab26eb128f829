package cli

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"hubrule/internal/geom"
	"hubrule/internal/job"
	"hubrule/layout"
	"hubrule/segments"
)

func newFigures() *cobra.Command {
	var format string
	var plan planFlags
	c := &cobra.Command{
		Use:   "figures [SEGMENT]",
		Short: "Print every figure of a segment's side view with its range, in wheels and millimetres",
		Long: "figures prints the side view of a segment or brief in figures: each with its range, in wheels and in\n" +
			"millimetres on the vehicle, and how it came to its value. Without a segment it ranks the segments by the\n" +
			"pinned figures alone, like those of a data sheet.\n\n" + caution,
		Example: "  hubrule figures suv\n" +
			"  hubrule figures suv --tweak sporty=0.8 --pin length=4600mm\n" +
			"  hubrule figures suv --format json\n" +
			"  hubrule figures --pin wheelbase=2690mm --pin length=4450mm --pin height=1520mm --pin width=1800mm\n" +
			"  hubrule figures ./mine.yaml --format csv > mine.csv",
		Args:              argCount(0, 1, "figures wants one segment; found %d"),
		ValidArgsFunction: completeSegments,
		RunE: func(c *cobra.Command, args []string) error {
			if err := checkFormat(format, "table", "json", "csv"); err != nil {
				return err
			}
			if len(args) == 0 {
				pins, err := plan.PinsAlone()
				if err != nil {
					return err
				}
				return rankPins(c, pins, format)
			}
			b, err := job.LoadVehicle(args[0])
			if err != nil {
				return err
			}
			b, notes, err := plan.Apply(b)
			if err != nil {
				return err
			}
			return printFigures(c, b, notes, format)
		},
	}
	c.Flags().StringVar(&format, "format", "table", "`FORMAT`: table, json or csv")
	plan.register(c)
	completeFlag(c, "format", "table", "json", "csv")
	return c
}

// printFigures solves a brief and prints its figures, or its clash: as JSON on standard output where that is the format.
func printFigures(c *cobra.Command, b segments.Brief, notes []string, format string) error {
	plan, err := layout.Solve(b)
	var clash *layout.Clash
	if errors.As(err, &clash) {
		if format == "json" {
			if err := clashJSON(c.OutOrStdout(), clash); err != nil {
				return err
			}
		}
		return clashError(clash)
	}
	if err != nil {
		return err
	}
	tell(c.ErrOrStderr(), "note", slices.Concat(notes, gaveWay(b), b.Notes())...)
	switch format {
	case "json":
		return figuresJSON(c.OutOrStdout(), plan)
	case "csv":
		figuresCSV(c.OutOrStdout(), plan)
	default:
		figuresTable(c.OutOrStdout(), plan)
	}
	return nil
}

// figuresTable prints a table for people. That standard output fails need not be checked here: [files.Run] reports it.
func figuresTable(w io.Writer, plan layout.Plan) {
	standingsTable(w, plan)
	verdict := plan.ReadsAs(segments.All())
	fmt.Fprintf(w, "\n%s\nnearest: %s\n", verdict.Line, nearestWords(verdict.Nearest))
	fmt.Fprintln(w, "\ndimensions (overhangs from the wheel centres, ISO 612)")
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	for _, d := range dimensions(plan) {
		fmt.Fprintf(t, "%s\t"+d.format+"\t\n", d.name, d.value)
	}
	t.Flush()
	checksTable(w, plan.Checks())
	fmt.Fprintf(w, "\n%s\n", caution)
}

// extremeWords warns of a plan that reads as no segment, with the two figures that are farthest out of their ranges; "" for others.
func extremeWords(p layout.Plan) string {
	v := p.ReadsAs(segments.All())
	if !v.None {
		return ""
	}
	out := slices.DeleteFunc(p.FigureStatuses(), func(s layout.FigureStatus) bool { return s.Beyond == 0 })
	slices.SortStableFunc(out, func(a, b layout.FigureStatus) int { return cmp.Compare(b.Beyond, a.Beyond) })
	var words []string
	for _, s := range out[:min(2, len(out))] {
		off, where := s.Range.Lo-s.Value, "below"
		if off < 0 {
			off, where = s.Value-s.Range.Hi, "above"
		}
		words = append(words, fmt.Sprintf("%s %s %s its range", s.Figure, shown(off, s.Figure.Info().Unit), where))
	}
	return strings.TrimSuffix(p.Profile.Name+" "+v.Short+": "+strings.Join(words, ", "), ": ")
}

// standingsTable writes each figure with its range and state, and below what stops those that cannot have what was asked.
func standingsTable(w io.Writer, plan layout.Plan) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "figure\tvalue\tmm\ttypical\tfrom\tto\tbeyond\tstate\t")
	for _, s := range plan.FigureStatuses() {
		unit := s.Figure.Info().Unit
		if unit == segments.AsWord {
			fmt.Fprintf(t, "%s\t%s\t\t\t\t\t\t%s\t\n", s.Figure, plan.Profile.Form, s.State)
			continue
		}
		mm, moved, lo, hi, beyond := "", "", "", "", ""
		if text := shown(s.Typical, unit); text != shown(s.Value, unit) {
			moved = text
		}
		if v, ok := inMM(plan, s); ok {
			mm = number(v, 0)
		}
		if s.Range != nil {
			lo, hi = shown(s.Range.Lo, unit), shown(s.Range.Hi, unit)
		}
		if s.Beyond >= .05 {
			beyond = fmt.Sprintf("%.1f", s.Beyond)
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t\n", s.Figure, shown(s.Value, unit), mm, moved, lo, hi, beyond, s.State)
	}
	t.Flush()
	for _, s := range plan.FigureStatuses() {
		if s.Limit != "" {
			fmt.Fprintf(w, "%s is stopped: %s\n", s.Figure, s.Limit)
		}
	}
}

// nearestWords lists the three nearest segments with their distances in half-ranges.
func nearestWords(near []layout.SegmentDistance) string {
	var words []string
	for _, n := range near[:min(3, len(near))] {
		words = append(words, n.Segment+" "+number(n.Distance, 2))
	}
	return strings.Join(words, ", ")
}

// checksTable prints the plausibility checks, each with its limit, value and source.
func checksTable(w io.Writer, checks []layout.Check) {
	fmt.Fprintln(w, "\nchecks")
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

// caution stands wherever figures could be taken for more than they are.
const caution = "A sketching aid, never an approval: lamp heights, angles and clearances are to be checked against\n" +
	"the regulation in force, with a licensed test service."

// inMM returns a figure in millimetres on the vehicle; ratios, degrees and words have none.
func inMM(plan layout.Plan, s layout.FigureStatus) (float64, bool) {
	switch s.Figure.Info().Unit {
	case segments.InMM:
		return s.Value, true
	case segments.InWheels, segments.AsCount:
		return float64(plan.OnVehicle(geom.Wheels(s.Value))), true
	}
	return 0, false
}

type dimension struct {
	name   string
	value  float64
	format string // of the value in a table
}

// dimensions lists p's sizes on the vehicle in the order of the JSON contract. Overhangs are ISO 612's: from the wheel centre to
// the foremost or rearmost point; they stand under two names, of which the longer is also a figure's.
func dimensions(p layout.Plan) []dimension {
	const inMM, inDegrees = "%.0f mm", "%.1f°"
	mm := func(w geom.Wheels) float64 { return float64(p.OnVehicle(w)) }
	return []dimension{
		{"wheelbase", mm(p.Wheelbase()), inMM},
		{"length", mm(p.Length()), inMM},
		{"height", mm(p.Height()), inMM},
		{"width", mm(geom.Wheels(p.Value(segments.Width))), inMM},
		{"front-overhang", mm(-p.Nose()), inMM},
		{"rear-overhang", mm(p.Tail() - p.Wheelbase()), inMM},
		{"front-overhang-axle", mm(-p.Nose()), inMM},
		{"rear-overhang-axle", mm(p.Tail() - p.Wheelbase()), inMM},
		{"track", mm(geom.Wheels(p.Value(segments.Track))), inMM},
		{"ground-clearance", mm(p.Clearance()), inMM},
		{"approach-angle", float64(p.Approach()), inDegrees},
		{"departure-angle", float64(p.Departure()), inDegrees},
		{"breakover-angle", float64(p.Breakover()), inDegrees},
	}
}
