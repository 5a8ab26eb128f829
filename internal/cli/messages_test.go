package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"hubrule/internal/files"
	"hubrule/internal/parallel"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// One place writes whatever a terminal would obey in quotes.
func TestPrintable(t *testing.T) {
	for _, tt := range []struct{ line, want string }{
		{"suv.svg, größer 語", "suv.svg, größer 語"},
		{"a\x1b[31m\a\r\t\x7f", `a\x1b[31m\a\r\t\x7f`},
		{"\xe9\u0085\u202e\u2028\u200e\ufffd", `\xe9\u0085\u202e\u2028\u200e` + "\ufffd"},
		{strings.Repeat("é", longestMessage), strings.Repeat("é", longestMessage)},
		{strings.Repeat("é", longestMessage+1), strings.Repeat("é", longestMessage) + "…"},
	} {
		if got := printable(tt.line); got != tt.want {
			t.Errorf("printable(%.40q) = %.60q; want %.60q", tt.line, got, tt.want)
		}
	}
}

// A screenful of mistakes is shown, and the rest is counted.
func TestReport(t *testing.T) {
	lines := func(n int, more string) string { return strings.TrimSuffix(strings.Repeat("bad"+more+"\n", n), "\n") }
	faulty := func(ctx context.Context, s *files.Set) error {
		return parallel.InOrder(ctx, 3, func(i int) (int, error) { return []int{1}[i], nil }, func(int) error { return nil })
	}
	for _, tt := range []struct {
		err  error
		code int
		want string
	}{
		{usageError(lines(2, "\n  against: x")), 2, strings.Repeat("hubrule: bad\n  against: x\n", 2)},
		{errors.New(lines(332, "\n  against: x")), 1, strings.Repeat("hubrule: bad\n  against: x\n", 20) + "hubrule: and 312 more\n"},
		{strict.Parse("f", []byte("[")).Err(), 1, "f:1:1: not YAML: did not find expected node content\n"},
		{files.Run(nil, faulty), 3, "hubrule: internal error in internal/cli.TestReport.func2.1: runtime error: index out of range [1] " +
			"with length 1; no file was written; please report it with the command\n"},
	} {
		var errs bytes.Buffer
		if code := tellError(messages{&errs}, tt.err); code != tt.code || errs.String() != tt.want {
			t.Errorf("exit code %d, %q; want %d, %q", code, &errs, tt.code, tt.want)
		}
	}
}

// Whatever a user can type, standard error holds no control character of theirs and no line that they made up.
func TestNothingForged(t *testing.T) {
	t.Chdir(t.TempDir())
	r := rand.New(rand.NewPCG(1, 2))
	pieces := []string{"\x1b[2J", "\nhubrule: forged", "\nforged", "\r", "\x00", "\u0085", "\u009b31m", "\u202e", "\u2066", "\u2028", "\xff", "\xc3",
		"suv", "+", "=", ",", "{", "}", ":", "/", ".yaml", "1:", "w", "mm", "9", "-", "'", "\"", "%s%n", "é", "語", " "}
	word := func() string {
		var b strings.Builder
		for range 1 + r.IntN(5) {
			b.WriteString(pieces[r.IntN(len(pieces))])
		}
		return b.String()
	}
	quoted := func() string { // as YAML reads it again: a string of bytes that are letters
		text := strings.ToValidUTF8(word(), "\u0007")
		return strings.NewReplacer(`\u0000`, `\0`).Replace(strconv.QuoteToASCII(text))
	}
	kinds := []string{"brief", "class", "camera", "tweak", "profile"}
	keys := []string{"segment", "extends", "tweak", "pin", "keep", "also", "against", "camera", "title", "students", "pages", "sheets", "paper",
		"scale", "count", "view", "turn", "eye", "form", "aliases", "figures", "date", "order"}
	commands := [][]string{{"draw"}, {"handout"}, {"figures"}, {"segments"}, {"tweaks"}, {"help"}, {"draw", "suv"}, {"figures", "--pin"}}
	flags := []string{"--tweak", "--pin", "--keep", "--against", "--camera", "--paper", "--scale", "--font", "-o", "--save", "--title", "--"}
	var tried int
	try := func(args ...string) {
		tried++
		var errs bytes.Buffer
		Main(args, strings.NewReader("kind: brief\nsegment: "+quoted()), &bytes.Buffer{}, &errs)
		for line := range strings.Lines(errs.String()) {
			text := strings.TrimSuffix(line, "\n")
			if strings.ContainsFunc(text, func(r rune) bool { return !unicode.IsPrint(r) && r != '\ufffd' }) {
				t.Fatalf("%q: an unprintable letter in %q", args, line)
			}
			if strings.HasPrefix(text, "forged") || strings.HasPrefix(text, "hubrule: forged") {
				t.Fatalf("%q: a line of the user's own: %q", args, errs.String())
			}
		}
	}
	for range 120 {
		args := append([]string{}, commands[r.IntN(len(commands))]...)
		if r.IntN(2) == 0 {
			args = append(args, word())
		}
		args = append(args, flags[r.IntN(len(flags))], word())
		try(args...)
		try(flags[r.IntN(len(flags))]+word(), word())

		var text strings.Builder
		fmt.Fprintf(&text, "kind: %s\n", kinds[r.IntN(len(kinds))])
		for range 1 + r.IntN(4) {
			key, value := keys[r.IntN(len(keys))], quoted()
			if r.IntN(4) == 0 {
				key = quoted()
			}
			switch r.IntN(4) {
			case 0:
				value = "[" + value + ", {" + quoted() + ": " + quoted() + "}]"
			case 1:
				value = "{" + keys[r.IntN(len(keys))] + ": " + value + "}"
			}
			fmt.Fprintf(&text, "%s: %s\n", key, value)
		}
		name := filepath.Clean(fmt.Sprintf("%d.yaml", r.IntN(2)))
		if err := os.WriteFile(name, []byte(text.String()), 0o666); err != nil {
			t.Fatal(err)
		}
		try([]string{"draw", "handout", "figures"}[r.IntN(3)], name)
		try("draw", "suv", []string{"--tweak", "--camera", "--against"}[r.IntN(3)], "./"+name, "--view", "perspective")
	}
	if _, err := segments.Find("suv"); err != nil || tried < 400 {
		t.Errorf("%v; %d tried", err, tried)
	}
}
