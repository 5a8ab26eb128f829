package cli

import (
	"errors"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"hubrule/internal/job"
	"hubrule/internal/slice"
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
		case s.List:
			f.StringArray(s.Name, strings.Fields(s.Default), s.Help)
		default:
			f.String(s.Name, s.Default, s.Help)
		}
		groupFlags(c, s.Group, s.Name)
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
		case ok && s.Name == "against":
			r.Flag(s.Name, job.SplitVehicles(list.GetSlice())...)
		case ok:
			r.Flag(s.Name, list.GetSlice()...)
		default:
			r.Flag(s.Name, flag.Value.String())
		}
	}
}

// completeAgainst offers segments, and after a + tweaks and figures.
func completeAgainst(_ *cobra.Command, _ []string, typed string) ([]string, cobra.ShellCompDirective) {
	end := strings.LastIndexAny(typed, "+,")
	names := segments.Names()
	if end >= 0 && typed[end] == '+' {
		names = append(segments.TweakNames(), pinNames()...)
	}
	out := slice.Map(names, func(name string) string { return typed[:end+1] + name })
	return out, cobra.ShellCompDirectiveNoSpace | cobra.ShellCompDirectiveNoFileComp
}

// planFlags are the flags that bend a segment's plan, as written. Every command that makes a plan has them.
type planFlags struct{ job.Overrides }

func (f *planFlags) register(c *cobra.Command) {
	c.Flags().StringArrayVar(&f.Tweaks, "tweak", nil,
		"`NAME[=STRENGTH]`: a tweak (see hubrule tweaks) or the path of one, -2 to 2, default 1; several comma-separated")
	c.Flags().StringArrayVar(&f.Pins, "pin", nil,
		"`FIGURE=VALUE`: fix a figure, like height=2.2w, length=4600mm or pillar-rake=30; several comma-separated")
	c.Flags().StringArrayVar(&f.Keeps, "keep", nil, "`FIGURE`: leave a figure as it would be without the tweaks; several comma-separated")
	completeList(c, "pin", pinNames()...)
	completeList(c, "keep", segments.Brief{}.Pinnable()...)
	completeList(c, "tweak", segments.TweakNames()...)
}

// pinNames lists the beginnings of pins, like "height=".
func pinNames() []string {
	return slice.Map((segments.Brief{}).Pinnable(), func(name string) string { return name + "=" })
}

// completeFlag offers the values of a flag to the shell. It panics on a flag that does not exist.
func completeFlag(c *cobra.Command, flag string, values ...string) {
	directive := cobra.ShellCompDirectiveNoFileComp
	unfinished := func(value string) bool { return strings.HasSuffix(value, ":") || strings.HasSuffix(value, "=") } // 1:16, wheel=60mm
	if slices.ContainsFunc(values, unfinished) {
		directive |= cobra.ShellCompDirectiveNoSpace
	}
	must(c.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(values, directive)))
}

// completeOne offers names for the only argument of a command.
func completeOne(names func() []string, directive cobra.ShellCompDirective) cobra.CompletionFunc {
	return func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return names(), directive
	}
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

// onceValue is the value of a flag that stands at most once on a command line, so that no value is passed over silently. One that is true
// or false is written so.
type onceValue struct {
	pflag.Value
	given bool
}

// Set takes the value.
func (v *onceValue) Set(text string) error {
	switch {
	case v.given:
		return errTwice
	case text == "":
		return errEmpty
	case v.Type() == "bool" && text != "true" && text != "false":
		return errors.New("neither true nor false")
	}
	v.given = true
	return v.Value.Set(text)
}

var (
	errTwice = errors.New("given twice")
	errEmpty = errors.New("empty")
)

// wantOnce makes all flags of a command that are no lists stand at most once.
func wantOnce(c *cobra.Command) {
	c.Flags().VisitAll(func(f *pflag.Flag) {
		if _, list := f.Value.(pflag.SliceValue); !list {
			f.Value = &onceValue{Value: f.Value}
		}
	})
}
