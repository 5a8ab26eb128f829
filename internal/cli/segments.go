package cli

import (
	"fmt"
	"io"
	"slices"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"hubrule/internal/files"
	"hubrule/internal/report"
	"hubrule/segments"
	"hubrule/segments/strict"
)

func newSegments(*files.Set) *cobra.Command {
	var format string
	show := listOrShow(listSegments, segments.Find, showSegment)
	c := &cobra.Command{
		Use:   "segments [SEGMENT]",
		Short: "List the segments, or show one in full with its ranges and their basis",
		Example: "  hubrule segments\n" +
			"  hubrule segments suv\n" +
			"  hubrule segments ./mine.yaml\n" +
			"  hubrule segments suv --format yaml > mine.yaml",
		Args:              argCount(0, 1, "one segment at a time; found %d"),
		ValidArgsFunction: completeSegments,
		RunE: func(c *cobra.Command, args []string) error {
			if err := checkFormat(format, "table", "yaml"); err != nil {
				return err
			}
			if format == "yaml" {
				return printTemplate(c.OutOrStdout(), args)
			}
			return show(c, args)
		},
	}
	c.Flags().StringVar(&format, "format", "table", "`FORMAT`: table, or yaml for a profile of your own to start from")
	completeFlag(c, "format", "table", "yaml")
	return c
}

// printTemplate prints a segment as a profile to start from.
func printTemplate(w io.Writer, args []string) error {
	switch {
	case len(args) == 0:
		return usagef("--format yaml writes one segment; want its name")
	case !segments.IsName(args[0]):
		return usagef("--format yaml writes a segment of the catalogue; %s is a file already", args[0])
	}
	text, err := segments.Template(args[0])
	if err == nil {
		_, err = io.WriteString(w, text)
	}
	return err
}

// listOrShow runs a command that lists everything it knows, or shows the one thing that is named.
func listOrShow[T any](list func(io.Writer), find func(string) (T, error), show func(io.Writer, T)) func(*cobra.Command, []string) error {
	return func(c *cobra.Command, args []string) error {
		if len(args) == 0 {
			list(c.OutOrStdout())
			return nil
		}
		found, err := find(args[0])
		if err == nil {
			show(c.OutOrStdout(), found)
		}
		return err
	}
}

func listSegments(w io.Writer) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "segment\tform\ttyre\twheels between\twheels high\twhat it is")
	for _, p := range segments.All() {
		fmt.Fprintf(t, "%s\t%s\t%s\t%.2f\t%.2f\t%s\n", p.Name, p.Form, p.Wheel.Name,
			p.Figures[segments.WheelsBetween].Value, p.Figures[segments.Height].Value, p.Summary)
	}
	t.Flush()
}

// showSegment prints one profile: its head, then every figure that it states with range and basis.
func showSegment(w io.Writer, p *segments.Profile) {
	fmt.Fprintf(w, "%s: %s\n%s\n", p.Name, p.Title, p.Summary)
	if p.Aliases != nil {
		fmt.Fprintf(w, "also called %s\n", strict.JoinOr(p.Aliases))
	}
	fmt.Fprintln(w)
	fmt.Fprintf(w, "form   %s\nwheel  %s\n", p.Form, report.TyreWords(p.Wheel))
	if p.RearWheel != p.Wheel {
		fmt.Fprintf(w, "rear   %s\n", report.TyreWords(p.RearWheel))
	}
	fmt.Fprintln(w)
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "figure\tvalue\trange\tbasis")
	for f := range segments.FigureCount {
		about, e := f.Info(), p.Figures[f]
		if about.Role == segments.Derived || about.Unit == segments.AsWord || about.Unit == segments.InMM || !p.Form.Has(f) {
			continue
		}
		between := ""
		if about.Role == segments.Declared {
			between = report.Value(e.Range.Lo, about.Unit) + " to " + report.Value(e.Range.Hi, about.Unit)
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\n", f, report.Value(e.Value, about.Unit), between, e.Basis)
	}
	for _, pin := range p.Pins {
		fmt.Fprintf(t, "%s\t%s\t\tpinned\n", pin.Figure, pin.Text)
	}
	t.Flush()
}

// completeSegments offers the segments that are not named yet, and files.
func completeSegments(_ *cobra.Command, named []string, _ string) ([]string, cobra.ShellCompDirective) {
	left := slices.DeleteFunc(segments.Names(), func(name string) bool { return slices.Contains(named, name) })
	return left, cobra.ShellCompDirectiveDefault
}
