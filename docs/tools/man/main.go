// Man writes the manual pages, one a command, from the same commands and flags that --help shows. Run it by make man:
//
//	go run ./docs/tools/man FOLDER
//
// The date of the pages is that of SOURCE_DATE_EPOCH, in seconds since 1970, so that the same commit gives the same pages; where it is
// not set they have none.
package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"hubrule/internal/cli"
)

func main() {
	if err := run(os.Args[1:], os.Getenv("SOURCE_DATE_EPOCH")); err != nil {
		fmt.Fprintln(os.Stderr, "man:", err)
		os.Exit(1)
	}
}

func run(args []string, epoch string) error {
	if len(args) != 1 {
		return fmt.Errorf("want one folder; found %d arguments", len(args))
	}
	date := ""
	if epoch != "" {
		seconds, err := strconv.ParseInt(epoch, 10, 64)
		if err != nil {
			return fmt.Errorf("SOURCE_DATE_EPOCH: %w", err)
		}
		date = time.Unix(seconds, 0).UTC().Format(time.DateOnly)
	}
	if err := os.MkdirAll(args[0], 0o777); err != nil {
		return err
	}
	for name, text := range pages(cli.Commands(), date) {
		if err := os.WriteFile(filepath.Join(args[0], name), []byte(text), 0o666); err != nil {
			return err
		}
	}
	return nil
}

// pages returns the page of c and those of its commands by the names of their files.
func pages(c *cobra.Command, date string) map[string]string {
	out := map[string]string{pageName(c) + ".1": page(c, date)}
	for _, sub := range c.Commands() {
		if sub.IsAvailableCommand() {
			for name, text := range pages(sub, date) {
				out[name] = text
			}
		}
	}
	return out
}

// pageName is how man finds the page of a command: hubrule-draw.
func pageName(c *cobra.Command) string { return strings.ReplaceAll(c.CommandPath(), " ", "-") }

// page writes the page of one command in roff's man macros.
func page(c *cobra.Command, date string) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line(`.TH "%s" "1" "%s" "%s" "User Commands"`, roff(strings.ToUpper(pageName(c))), date, roff("hubrule "+c.Root().Version))
	line(".SH NAME\n%s \\- %s", roff(pageName(c)), roff(strings.ToLower(c.Short[:1])+c.Short[1:]))
	line(".SH SYNOPSIS")
	if c.HasParent() && c.Runnable() {
		line(".B %s", roff(c.UseLine()))
	}
	if c.HasAvailableSubCommands() {
		line(".B %s", roff(c.CommandPath()+" COMMAND [flags]"))
	}
	line(".SH DESCRIPTION")
	about := c.Long
	if about == "" {
		about = c.Short + "."
	}
	paragraphs(&b, about)
	if c.HasAvailableSubCommands() {
		line(".SH COMMANDS")
		for _, sub := range c.Commands() {
			if sub.IsAvailableCommand() || sub.Name() == "help" {
				line(".TP\n.B %s\n%s", roff(sub.Name()), roff(sub.Short))
			}
		}
	}
	line(".SH OPTIONS")
	groups := cli.FlagGroups(c.Flags())
	for _, group := range groups {
		if len(groups) > 1 {
			line(".SS %s", roff(group.Title))
		}
		for _, f := range group.Flags {
			line(".TP\n.B %s\n%s", roff(f.Head), roff(f.Does))
		}
	}
	if c.HasExample() {
		line(".SH EXAMPLES")
		verbatim(&b, c.Example)
	}
	line(".SH EXIT STATUS")
	for code := range strings.Lines(cli.ExitCodes) {
		if number, means, ok := strings.Cut(strings.TrimSpace(code), "  "); ok {
			line(".TP\n.B %s\n%s", number, roff(means))
		}
	}
	line(".SH SEE ALSO\n%s", strings.Join(related(c), ",\n"))
	return b.String()
}

// related names the pages above and below a command.
func related(c *cobra.Command) []string {
	var out []string
	if c.HasParent() {
		out = append(out, fmt.Sprintf(`\fB%s\fP(1)`, roff(pageName(c.Parent()))))
	}
	for _, sub := range c.Commands() {
		if sub.IsAvailableCommand() {
			out = append(out, fmt.Sprintf(`\fB%s\fP(1)`, roff(pageName(sub))))
		}
	}
	return out
}
