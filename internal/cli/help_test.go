package cli

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/spf13/pflag"

	"hubrule/internal/job"
)

// helpOf returns the help of a command.
func helpOf(t *testing.T, command ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	if code := Main(append(command, "--help"), nil, &out, &errs); code != exitDone || errs.Len() > 0 {
		t.Fatalf("%v --help: exit code %d, %s", command, code, &errs)
	}
	return out.String()
}

// Help fits a window of a hundred columns, and names flags without what only programs write.
func TestHelpFitsItsWidth(t *testing.T) {
	for _, c := range append(newRoot(nil).Commands(), newRoot(nil)) {
		command := strings.Fields(c.CommandPath())[1:]
		help := helpOf(t, command...)
		for line := range strings.Lines(help) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > helpWidth {
				t.Errorf("%v --help: %d columns: %s", command, n, line)
			}
		}
		if strings.Contains(help, "true|false") {
			t.Errorf("%v --help offers true|false", command)
		}
	}
}

// Every flag of draw stands under the heading of its group; those of the table of settings under the one that the table gives.
func TestFlagsOfDrawAreGrouped(t *testing.T) {
	draw, _, err := newRoot(nil).Find([]string{"draw"})
	if err != nil {
		t.Fatal(err)
	}
	help, under := helpOf(t, "draw"), map[string]string{}
	heading := ""
	for line := range strings.Lines(help) {
		line = strings.TrimSuffix(line, "\n")
		if title, ok := strings.CutSuffix(line, ":"); ok && !strings.HasPrefix(line, " ") {
			heading = title
		}
		if _, flag, ok := strings.Cut(line, " --"); ok && strings.HasPrefix(line, "  ") && !strings.HasPrefix(line, "       ") {
			under[strings.Fields(flag)[0]] = heading
		}
	}
	draw.Flags().VisitAll(func(f *pflag.Flag) {
		switch s, ok := job.Find(f.Name); {
		case ok && under[f.Name] != string(s.Group):
			t.Errorf("--%s stands under %q; the table says %q", f.Name, under[f.Name], s.Group)
		case under[f.Name] == "" || under[f.Name] == "Other flags":
			t.Errorf("--%s stands under %q", f.Name, under[f.Name])
		}
	})
	for _, group := range job.Groups() {
		if !strings.Contains(help, "\n"+string(group)+":\n") {
			t.Errorf("no group %q", group)
		}
	}
	if n := strings.Count(draw.Example, "hubrule "); n != 5 {
		t.Errorf("%d examples; want the five most used", n)
	}
}

// Words break between words, and only one that is too long by itself exceeds the width.
func TestWrapWords(t *testing.T) {
	for _, c := range []struct {
		text  string
		width int
		want  string
	}{
		{"", 5, ""}, {"a  b", 3, "a b"}, {"ab cd", 4, "ab|cd"}, {"ab cd", 5, "ab cd"}, {"abcdef g", 3, "abcdef|g"}, {"−−− −−", 6, "−−− −−"},
	} {
		if got := strings.Join(wrapWords(c.text, c.width), "|"); got != c.want {
			t.Errorf("wrapWords(%q, %d) = %q; want %q", c.text, c.width, got, c.want)
		}
	}
}
