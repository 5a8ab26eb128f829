package cli

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"
)

// completeFlag offers the values of a flag to the shell. It panics on a flag that does not exist.
func completeFlag(c *cobra.Command, flag string, values ...string) {
	directive := cobra.ShellCompDirectiveNoFileComp
	if slices.ContainsFunc(values, unfinished) {
		directive |= cobra.ShellCompDirectiveNoSpace
	}
	must(c.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(values, directive)))
}

// unfinished reports whether something has to follow a value: 1:16, wheel=60mm.
func unfinished(value string) bool {
	return strings.HasSuffix(value, ":") || strings.HasSuffix(value, "=")
}

// completeList offers the values of a comma-separated flag: those that are not named yet, after what is.
func completeList(c *cobra.Command, flag string, values ...string) {
	must(c.RegisterFlagCompletionFunc(flag, func(_ *cobra.Command, _ []string, typed string) ([]string, cobra.ShellCompDirective) {
		done := ""
		if i := strings.LastIndex(typed, ","); i >= 0 {
			done = typed[:i+1]
		}
		var out []string
		for _, v := range values {
			if !strings.Contains(","+done, ","+v+",") {
				out = append(out, done+v)
			}
		}
		return out, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
	}))
}

func must(err error) {
	if err != nil {
		panic("cli: " + err.Error())
	}
}
