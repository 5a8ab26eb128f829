package cli

import (
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"hubrule/internal/job"
	"hubrule/segments"
)

// registerSettings enters a flag for each setting of the table.
func registerSettings(c *cobra.Command) {
	f := c.Flags()
	f.SortFlags = false
	for _, s := range job.Settings() {
		switch {
		case s.Bool:
			f.Bool(s.Name, false, s.Help)
		case s.List && s.Default == "":
			f.StringArray(s.Name, nil, s.Help)
		case s.List:
			f.StringArray(s.Name, []string{s.Default}, s.Help)
		default:
			f.String(s.Name, s.Default, s.Help)
		}
		switch {
		case s.Words != nil && s.List:
			completeList(c, s.Name, s.Words...)
		case s.Words != nil:
			completeFlag(c, s.Name, s.Words...)
		}
	}
	must(c.RegisterFlagCompletionFunc("against", completeAgainst))
}

// readSettings hands the settings that flags give to r.
func readSettings(r *job.Reader, f *pflag.FlagSet) {
	for _, s := range job.Settings() {
		flag := f.Lookup(s.Name)
		switch list, ok := flag.Value.(pflag.SliceValue); {
		case !flag.Changed:
		case ok:
			r.Flag(s.Name, list.GetSlice()...)
		default:
			r.Flag(s.Name, flag.Value.String())
		}
	}
}

// completeAgainst offers segments, and after a + the tweaks.
func completeAgainst(_ *cobra.Command, _ []string, typed string) ([]string, cobra.ShellCompDirective) {
	end := strings.LastIndexAny(typed, "+,")
	if !strings.Contains(typed, "+") {
		return segments.Names(), cobra.ShellCompDirectiveNoSpace | cobra.ShellCompDirectiveNoFileComp
	}
	var out []string
	for _, name := range segments.TweakNames() {
		out = append(out, typed[:end+1]+name)
	}
	return out, cobra.ShellCompDirectiveNoSpace | cobra.ShellCompDirectiveNoFileComp
}
