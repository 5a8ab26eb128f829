package cli

import (
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
	figures, pins := segments.Brief{}.Pinnable(), []string(nil)
	for _, name := range figures {
		pins = append(pins, name+"=")
	}
	completeFlag(c, "pin", pins...)
	completeFlag(c, "keep", figures...)
	must(c.RegisterFlagCompletionFunc("tweak", cobra.FixedCompletions(segments.TweakNames(), cobra.ShellCompDirectiveNoSpace)))
}
