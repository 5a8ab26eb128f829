// Package cli is the command line: it reads flags and files, calls sheet and layout, and writes whole files or none.
package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"hubrule/internal/draw"
	"hubrule/internal/files"
	"hubrule/internal/job"
	"hubrule/segments/strict"
)

// The exit codes: 0 done, 1 a file, a size or the disk stands in the way, 2 the command line itself is wrong, 3 the program is.
const (
	exitDone  = 0
	exitInput = 1
	exitUsage = 2
	exitFault = 3
)

// usageError is a mistake on the command line itself.
type usageError = job.UsageError

func usagef(format string, args ...any) error { return usageError(fmt.Sprintf(format, args...)) }

// Main runs the command line and returns the exit code. Results go to out; messages for people go to errs.
func Main(args []string, in io.Reader, out, errs io.Writer) int {
	errs = messages{errs}
	err := files.Run(out, func(ctx context.Context, set *files.Set) error {
		if err := refuseControls(args); err != nil {
			return err
		}
		root := newRoot(set, args...)
		root.SetArgs(args)
		root.SetIn(in)
		root.SetOut(set.Stdout())
		root.SetErr(errs)
		return root.ExecuteContext(ctx)
	})
	if err == nil {
		return exitDone
	}
	return tellError(errs, err)
}

// newRoot returns the command line, whose commands write to set: all of them, or only the one that the arguments begin with.
func newRoot(set *files.Set, args ...string) *cobra.Command {
	root := &cobra.Command{
		Use:   "hubrule",
		Short: "Lay out proportion underlays for sketching vehicles",
		Long: "hubrule turns what a class of vehicle shares, measured in wheels, into sheets to draw on:\n" +
			"a labelled construction to read and a pale one to trace, at a true scale.",
		Version:       draw.Version,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          knownCommand,
		RunE:          func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.SetVersionTemplate(draw.Program + builtFrom() + "\n")
	root.SetFlagErrorFunc(flagError)
	addCommands(root, set, args)
	for _, c := range root.Commands() {
		wantOnce(c)
		for _, shell := range c.Commands() {
			wantOnce(shell)
			shell.Args = argCount(0, 0, "completion takes no more words; found %d")
			c.Args, c.RunE = knownCommand, root.RunE
		}
	}
	root.SetHelpCommand(newHelp(root))
	root.SetHelpFunc(showHelp)
	root.SetUsageFunc(showUsage)
	return root
}

// addCommands adds the command that the arguments begin with. Where they begin with none, or one that knows of the others, it adds all.
func addCommands(root *cobra.Command, set *files.Set, args []string) {
	commands := map[string]func(*files.Set) *cobra.Command{
		"draw": newDraw, "desk": newDesk, "handout": newHandout, "figures": newFigures, "read": newRead, "norms": newNorms,
		"segments": newSegments, "tweaks": newTweaks,
	}
	if len(args) > 0 && commands[args[0]] != nil {
		root.CompletionOptions.DisableDefaultCmd = true
		root.AddCommand(commands[args[0]](set))
		return
	}
	for _, name := range slices.Sorted(maps.Keys(commands)) {
		root.AddCommand(commands[name](set))
	}
	root.InitDefaultCompletionCmd("completion")
}

// Commands returns the whole tree of commands with all of their flags, for what is generated from it.
func Commands() *cobra.Command {
	root := newRoot(nil)
	root.InitDefaultVersionFlag()
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		c.InitDefaultHelpFlag()
		for _, sub := range c.Commands() {
			walk(sub)
		}
	}
	walk(root)
	return root
}

// knownCommand refuses a word that is no command and names the nearest one.
func knownCommand(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return usageError(strict.Unknown("command", args[0], commandNames(c)))
}

// commandNames lists what can follow c on the command line.
func commandNames(c *cobra.Command) []string {
	var names []string
	for _, sub := range c.Commands() {
		if sub.IsAvailableCommand() {
			names = append(names, sub.Name())
		}
	}
	return names
}

// newHelp returns the command help, which refuses a word that is no command.
func newHelp(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:               "help [COMMAND]",
		Short:             "Show the help of a command",
		ValidArgsFunction: completeOne(func() []string { return commandNames(root) }, cobra.ShellCompDirectiveNoFileComp),
		RunE: func(_ *cobra.Command, args []string) error {
			found, rest, err := root.Find(args)
			switch {
			case len(args) > 0 && (err != nil || found == root):
				return knownCommand(root, args)
			case len(rest) > 0:
				return usagef("unknown command %s; see %s --help", strict.Quote(strings.Join(args, " ")), found.CommandPath())
			}
			found.InitDefaultHelpFlag()
			return found.Help()
		},
	}
}

// flagError says what is wrong with a flag and names the nearest one.
func flagError(c *cobra.Command, err error) error {
	dashed := func(name, shorthands string) string {
		if shorthands != "" {
			return "-" + name
		}
		return "--" + name
	}
	var unknown *pflag.NotExistError
	var needs *pflag.ValueRequiredError
	var invalid *pflag.InvalidValueError
	switch {
	case errors.As(err, &unknown):
		if args := c.Flags().Args(); !c.HasParent() && len(args) > 0 {
			return knownCommand(c, args) // the flag may well be one of the command that was meant
		}
		var names []string
		c.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, "--"+f.Name) })
		written := dashed(unknown.GetSpecifiedName(), unknown.GetSpecifiedShortnames())
		if near := strict.Nearest(written, names); near != "" {
			return usagef("unknown flag %s; did you mean %s?", written, near)
		}
		return usagef("unknown flag %s; see %s --help", written, c.CommandPath())
	case errors.As(err, &needs):
		return usagef("%s: a value is missing", dashed(needs.GetSpecifiedName(), needs.GetSpecifiedShortnames()))
	case errors.As(err, &invalid) && errors.Is(err, errTwice):
		return usagef("--%s stands twice; want it once", invalid.GetFlag().Name)
	case errors.As(err, &invalid) && errors.Is(err, errEmpty):
		return usagef("--%s: a value is missing", invalid.GetFlag().Name)
	case errors.As(err, &invalid) && invalid.GetFlag().Value.Type() == "bool":
		return usagef("--%s: %s; want true or false", invalid.GetFlag().Name, strict.Quote(invalid.GetValue()))
	}
	return usageError(err.Error())
}

// checkFormat refuses a --format that is not allowed.
func checkFormat(given string, allowed ...string) error {
	if !slices.Contains(allowed, given) {
		return usagef("--format: %s", strict.Unknown("value", given, allowed))
	}
	return nil
}

// argCount is the rule for commands that take from least to most arguments; format is the message about another number.
func argCount(least, most int, format string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if n := len(job.SplitVehicles(args)); n < least || n > most {
			return usagef(format, n)
		}
		return nil
	}
}
