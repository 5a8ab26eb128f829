package cli

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"hubrule/internal/job"
)

const (
	helpWidth = 100 // columns of help at most
	flagWidth = 26  // columns of a flag and its value; what it does stands behind
)

// groupKey is the annotation of a flag that names its group.
const groupKey = "hubrule-group"

// groupFlags puts flags that have no group yet, and that no table of settings lists, into a group of the command's help.
func groupFlags(c *cobra.Command, group job.Group, names ...string) {
	for _, name := range names {
		must(c.Flags().SetAnnotation(name, groupKey, []string{string(group)}))
	}
}

// showHelp prints the description of a command and its usage.
func showHelp(c *cobra.Command, _ []string) {
	about := c.Long
	if about == "" {
		about = c.Short
	}
	var paragraphs []string
	for _, p := range strings.Split(strings.TrimSpace(about), "\n\n") {
		tooWide := func(line string) bool { return utf8.RuneCountInString(line) > helpWidth }
		if slices.ContainsFunc(strings.Split(p, "\n"), tooWide) {
			p = strings.Join(wrapWords(p, helpWidth), "\n")
		}
		paragraphs = append(paragraphs, p)
	}
	fmt.Fprintf(c.OutOrStdout(), "%s\n\n%s", strings.Join(paragraphs, "\n\n"), c.UsageString())
}

// showUsage prints what follows the description in the help of a command: examples, commands and flags.
func showUsage(c *cobra.Command) error {
	w := c.OutOrStderr()
	fmt.Fprintf(w, "Usage:\n")
	if c.Runnable() && c.HasParent() {
		fmt.Fprintf(w, "  %s\n", c.UseLine())
	}
	if c.HasAvailableSubCommands() {
		fmt.Fprintf(w, "  %s COMMAND\n", c.CommandPath())
	}
	if c.HasExample() {
		fmt.Fprintf(w, "\nExamples:\n%s\n", c.Example)
	}
	if c.HasAvailableSubCommands() {
		fmt.Fprintf(w, "\nCommands:\n")
		for _, sub := range c.Commands() {
			if sub.IsAvailableCommand() || sub.Name() == "help" {
				entry(w, fmt.Sprintf("  %-*s", sub.NamePadding(), sub.Name()), sub.NamePadding()+4, sub.Short)
			}
		}
	}
	showFlags(w, c.Flags())
	if !c.HasParent() {
		fmt.Fprintf(w, "\n%s\nUse \"%s COMMAND --help\" for more about a command.\n", ExitCodes, c.CommandPath())
	}
	return nil
}

// ExitCodes explains the exit codes to people.
const ExitCodes = `Exit codes:
  0  done
  1  something in a file, a size or the disk stood in the way; no file was written
  2  the command line itself is wrong; no file was written
  3  an error in hubrule itself; no file was written
`

// showFlags prints flags by their groups, each with its value, what it does and what it is by default.
func showFlags(w io.Writer, flags *pflag.FlagSet) {
	for _, group := range FlagGroups(flags) {
		fmt.Fprintf(w, "\n%s:\n", group.Title)
		for _, f := range group.Flags {
			head := "      " + f.Head
			if strings.Contains(f.Head, ", ") { // a letter stands before the name
				head = "  " + f.Head
			}
			entry(w, head, flagWidth+4, f.Does)
		}
	}
}

// FlagGroup is flags that help shows under one title.
type FlagGroup struct {
	Title string
	Flags []FlagHelp
}

// FlagHelp is one flag in words: its names and value, as "-o, --output FILE", and what it does.
type FlagHelp struct{ Head, Does string }

// FlagGroups lists the flags that are not hidden by their groups, those without one last.
func FlagGroups(flags *pflag.FlagSet) []FlagGroup {
	groups := map[job.Group][]FlagHelp{}
	flags.VisitAll(func(f *pflag.Flag) {
		var group job.Group
		if named := f.Annotations[groupKey]; named != nil {
			group = job.Group(named[0])
		}
		if !f.Hidden {
			groups[group] = append(groups[group], flagHelp(f))
		}
	})
	var out []FlagGroup
	for _, group := range append(job.Groups(), "") {
		title := string(group)
		switch {
		case len(groups[group]) == 0:
			continue
		case group == "" && len(groups) == 1:
			title = "Flags"
		case group == "":
			title = "Other flags"
		}
		out = append(out, FlagGroup{title, groups[group]})
	}
	return out
}

func flagHelp(f *pflag.Flag) FlagHelp {
	value, does := pflag.UnquoteUsage(f)
	does = strings.TrimPrefix(does, value+": ") // it stands in front already
	head := "--" + f.Name
	if f.Shorthand != "" {
		head = "-" + f.Shorthand + ", " + head
	}
	if f.Value.Type() != "bool" {
		head += " " + value
		if usual := strings.Trim(f.DefValue, "[]"); usual != "" {
			does += " (default " + usual + ")"
		}
	}
	return FlagHelp{head, does}
}

// entry prints a name and, from a column on, words about it, on as many lines as they take.
func entry(w io.Writer, name string, column int, words string) {
	lines := wrapWords(words, helpWidth-column)
	indent := strings.Repeat(" ", column)
	if length := utf8.RuneCountInString(name); length < column {
		name += strings.Repeat(" ", column-length) + lines[0]
		lines = lines[1:]
	}
	fmt.Fprintln(w, name)
	for _, line := range lines {
		fmt.Fprintln(w, indent+line)
	}
}

// wrapWords breaks a text between words into lines of at most width characters; a longer word has a line of its own.
func wrapWords(text string, width int) []string {
	lines := []string{""}
	for _, word := range strings.Fields(text) {
		last := &lines[len(lines)-1]
		switch {
		case *last == "":
			*last = word
		case utf8.RuneCountInString(*last)+1+utf8.RuneCountInString(word) <= width:
			*last += " " + word
		default:
			lines = append(lines, word)
		}
	}
	return lines
}
