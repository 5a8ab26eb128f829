package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"hubrule/internal/cli"
)

// Every command has a page that names it, what is said of it and each of its flags, and its parent's page names it too.
func TestPagesAreComplete(t *testing.T) {
	all, commands, flags := pages(cli.Commands(), "2026-01-02"), 0, 0
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		commands++
		text := all[pageName(c)+".1"]
		for _, want := range []string{roff(c.Short[1:]), `"2026-01-02"`, roff(strings.Fields(c.Example + " hubrule")[0])} {
			if !strings.Contains(text, want) {
				t.Errorf("the page of %s lacks %q", c.CommandPath(), want)
			}
		}
		c.Flags().VisitAll(func(f *pflag.Flag) {
			flags++
			if want := roff("--" + f.Name); !strings.Contains(text, want+"\n") && !strings.Contains(text, want+" ") {
				t.Errorf("the page of %s lacks --%s", c.CommandPath(), f.Name)
			}
		})
		for _, sub := range c.Commands() {
			if !sub.IsAvailableCommand() {
				continue
			}
			if !strings.Contains(text, ".B "+roff(sub.Name())+"\n") {
				t.Errorf("the page of %s lacks its command %s", c.CommandPath(), sub.Name())
			}
			walk(sub)
		}
	}
	walk(cli.Commands())
	if commands < 10 || flags < 60 || commands != len(all) {
		t.Errorf("%d commands, %d flags, %d pages", commands, flags, len(all))
	}
}

// No line of a text is taken for a request, and signs of the shell stay what they are.
func TestRoff(t *testing.T) {
	for text, want := range map[string]string{
		".yaml or\n  -o": `\&.yaml or \-o`, `'a\b'`: `\(aqa\eb\(aq`, "~/x^2": `\(ti/x\(ha2`,
	} {
		if got := roff(text); got != want {
			t.Errorf("roff(%q) = %s, want %s", text, got, want)
		}
	}
}

// The date is that of SOURCE_DATE_EPOCH and nothing else, and the same date gives the same pages.
func TestDate(t *testing.T) {
	for epoch, want := range map[string]string{"": `"1" "" "`, "86400": `"1" "1970-01-02" "`} {
		folder := t.TempDir()
		if err := run([]string{folder}, epoch); err != nil {
			t.Fatal(err)
		}
		if data, err := os.ReadFile(filepath.Join(folder, "hubrule-draw.1")); err != nil || !strings.Contains(string(data), want) {
			t.Errorf("SOURCE_DATE_EPOCH=%s: %.60q %v; want %s", epoch, data, err, want)
		}
	}
	if err := run([]string{t.TempDir()}, "today"); err == nil {
		t.Error("a date in words is taken")
	}
}
