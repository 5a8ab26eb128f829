package cli

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"hubrule/internal/files"
	"hubrule/internal/job"
	"hubrule/internal/report"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// figuresArgs are the flags about what is printed.
type figuresArgs struct{ format, checks string }

// The checks that a table lists. Off-road criteria are long, and matter to few vehicles.
const lampChecks, offRoadChecks = "lamps", "off-road"

// check refuses checks that there are not, and any without a segment.
func (a figuresArgs) check(c *cobra.Command, segment bool) error {
	switch {
	case a.checks != lampChecks && a.checks != offRoadChecks:
		return usagef("--checks: %s", strict.Unknown("list of checks", a.checks, []string{lampChecks, offRoadChecks}))
	case !segment && c.Flags().Changed("checks"):
		return usagef("--checks looks at the plan of a segment; want one")
	}
	return nil
}

func newFigures(*files.Set) *cobra.Command {
	var a figuresArgs
	var plan planFlags
	c := &cobra.Command{
		Use:   "figures [SEGMENT]",
		Short: "Print every figure of a segment's side view with its range, in wheels and millimetres",
		Long: "figures prints the side view of a segment or brief in figures: each with its range, in wheels and in\n" +
			"millimetres on the vehicle, and how it came to its value. Without a segment it ranks the segments by the\n" +
			"pinned figures alone, like those of a data sheet. A brief or profile is the path of a file, or - for standard input.\n\n" + caution,
		Example: "  hubrule figures suv\n" +
			"  hubrule figures suv --tweak sporty=0.8 --pin length=4600mm\n" +
			"  hubrule figures off-roader --checks off-road\n" +
			"  hubrule figures suv --format json\n" +
			"  hubrule figures --pin wheelbase=2690mm --pin length=4450mm --pin height=1520mm --pin width=1800mm\n" +
			"  hubrule figures ./mine.yaml --format csv > mine.csv",
		Args:              argCount(0, 1, "one segment at a time; found %d"),
		ValidArgsFunction: completeSegments,
		RunE: func(c *cobra.Command, args []string) error {
			if err := checkFormat(a.format, "table", "json", "csv"); err != nil {
				return err
			}
			if err := a.check(c, len(args) > 0); err != nil {
				return err
			}
			if len(args) == 0 {
				pins, err := plan.PinsAlone()
				if err != nil {
					return err
				}
				return rankPins(c, pins, a.format)
			}
			b, err := job.LoadVehicle(args[0], c.InOrStdin())
			if err != nil {
				return err
			}
			b, notes, err := plan.Apply(b)
			if err != nil {
				return err
			}
			return printFigures(c, b, notes, a)
		},
	}
	c.Flags().StringVar(&a.checks, "checks", lampChecks,
		"`CHECKS` in the table: lamps, or off-road for the off-road lists too (json has all)")
	c.Flags().StringVar(&a.format, "format", "table", "`FORMAT`: table, json or csv")
	plan.register(c)
	completeFlag(c, "format", "table", "json", "csv")
	completeFlag(c, "checks", lampChecks, offRoadChecks)
	return c
}

// printFigures solves a brief and prints its figures, or its clash: as JSON on standard output where that is the format.
func printFigures(c *cobra.Command, b segments.Brief, notes []string, a figuresArgs) error {
	plan, err := layout.Solve(b)
	var clash *layout.Clash
	if errors.As(err, &clash) {
		if a.format == "json" {
			if err := report.WriteJSON(c.OutOrStdout(), map[string]any{"clash": report.ClashSets(clash)}); err != nil {
				return err
			}
		}
		return report.ClashError{Clash: clash}
	}
	if err != nil {
		return err
	}
	tell(c.ErrOrStderr(), "note", slices.Concat(notes, report.GaveWay(b), b.Notes(), plan.Rounded())...)
	switch a.format {
	case "json":
		return report.WriteJSON(c.OutOrStdout(), report.FiguresOf(plan))
	case "csv":
		figuresCSV(c.OutOrStdout(), plan)
	default:
		figuresTable(c.OutOrStdout(), plan, a.checks == offRoadChecks)
	}
	return nil
}

// distanceWords say what the numbers of a verdict are.
const distanceWords = "distances are in half-ranges, half the width of a usual range: the root mean square over wheels-between, height,\n" +
	"sill, greenhouse-to-body, both overhangs and width of how far each lies from the segment's middle; another form\n" +
	"adds to it. Up to 0.5 reads as the segment; more than 2 from all, as none. In brackets: single figures, likewise."

// figuresTable prints a table for people, with the off-road checks where asked for. That standard output fails need not be checked here:
// [files.Run] reports it.
func figuresTable(w io.Writer, plan layout.Plan, offRoad bool) {
	standingsTable(w, plan)
	verdict := plan.ReadsAs(segments.All())
	fmt.Fprintf(w, "\n%s\nnearest: %s\n", verdict.Line, nearestWords(verdict.Nearest))
	fmt.Fprintln(w, distanceWords)
	dimensionsTable(w, plan)
	checksTable(w, "lamps: heights over the ground against published limits", plan.LampChecks())
	if offRoad {
		checksTable(w, "off-road: ground angles and clearances against published lists of criteria", plan.OffRoadChecks())
	}
	fmt.Fprintf(w, "\n%s\n", caution)
}

// standingsTable writes each figure with its range and state, and below what stops those that cannot have what was asked.
func standingsTable(w io.Writer, plan layout.Plan) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "figure\tvalue\tmm\ttypical\tfrom\tto\tbeyond\tstate\t  what it measures")
	for _, s := range plan.FigureStatuses() {
		unit := s.Figure.Info().Unit
		if unit == segments.AsWord {
			fmt.Fprintf(t, "%s\t%s\t\t\t\t\t\t%s\t  %s\n", s.Figure, plan.Profile.Form, s.State, s.Figure.Info().Meaning)
			continue
		}
		mm, moved, lo, hi, beyond := "", "", "", "", ""
		if text := report.Value(s.Typical, unit); text != report.Value(s.Value, unit) {
			moved = text
		}
		if v, ok := report.InMM(plan, s); ok {
			mm = report.Number(v, 0)
		}
		if s.Range != nil {
			lo, hi = report.Value(s.Range.Lo, unit), report.Value(s.Range.Hi, unit)
		}
		if s.Beyond >= .05 {
			beyond = fmt.Sprintf("%.1f", s.Beyond)
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t  %s\n",
			s.Figure, report.Value(s.Value, unit), mm, moved, lo, hi, beyond, s.State, s.Figure.Info().Meaning)
	}
	t.Flush()
	fmt.Fprint(w, "w: outside diameters of the front tyre; mm: on the vehicle; typical: before tweaks and pins, where it differs;\n"+
		"from, to: the segment's range; beyond: half-ranges outside it. Counts of wheels and ratios have no unit.\n")
	for _, s := range plan.FigureStatuses() {
		if s.Limit != "" {
			fmt.Fprintf(w, "%s is stopped: %s\n", s.Figure, s.Limit)
		}
	}
}

// nearestWords lists the three nearest segments with their distances in half-ranges.
func nearestWords(near []layout.SegmentDistance) string {
	words := slice.Map(near[:min(3, len(near))], func(n layout.SegmentDistance) string { return n.Segment + " " + report.Number(n.Distance, 2) })
	return strings.Join(words, ", ")
}

// caution stands wherever figures could be taken for more than they are.
const caution = "A sketching aid, never an approval: lamp heights, angles and clearances are to be checked against\n" +
	"the regulation in force, with a licensed test service."
