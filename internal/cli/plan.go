package cli

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"hubrule/internal/job"
	"hubrule/segments"
)

// planFlags are the flags that bend a segment's plan, as written. Every command that makes a plan has them.
type planFlags struct{ job.Overrides }

func (f *planFlags) register(c *cobra.Command) {
	c.Flags().StringArrayVar(&f.Tweaks, "tweak", nil, "`NAME[=STRENGTH]`: a tweak (see hubrule tweaks) or the path of one, -2 to 2, 1 if none is said; may be given several times")
	c.Flags().StringArrayVar(&f.Pins, "pin", nil, "`FIGURE=VALUE`: fix a figure, like height=2.2w, length=4600mm or pillar-rake=30; may be given several times")
	c.Flags().StringArrayVar(&f.Keeps, "keep", nil, "`FIGURE`: leave a figure as it would be without the tweaks; may be given several times")
	must(c.RegisterFlagCompletionFunc("tweak", completeTweaks))
	must(c.RegisterFlagCompletionFunc("pin", completeFigures("=")))
	must(c.RegisterFlagCompletionFunc("keep", completeFigures("")))
}

func completeTweaks(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return segments.TweakNames(), cobra.ShellCompDirectiveNoSpace
}

// completeFigures offers all figures that can be pinned, followed by after.
func completeFigures(after string) cobra.CompletionFunc {
	return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		var out []string
		for _, name := range job.PinnedFigures() {
			out = append(out, name+after)
		}
		directive := cobra.ShellCompDirectiveNoFileComp
		if after != "" {
			directive |= cobra.ShellCompDirectiveNoSpace
		}
		return out, directive
	}
}

// tellNotes prints what somebody should know of the brief's tweaks.
func tellNotes(w io.Writer, b segments.Brief) {
	for _, n := range b.Notes() {
		fmt.Fprintf(w, "hubrule: note: %s\n", n)
	}
}
