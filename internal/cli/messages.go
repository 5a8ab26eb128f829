package cli

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"hubrule/internal/fault"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// messages is standard error as every command writes to it. What stands in files and paths may hold anything: letters that a terminal
// would obey or that turn the order of others round are written as in Go's quotes, and a line that is far too long is cut. Line breaks are
// the program's own: a string that holds one is refused where it is read.
type messages struct{ to io.Writer }

// longestMessage is far more than any line of the program's own has, in characters.
const longestMessage = 2000

// Write writes whole lines.
func (m messages) Write(data []byte) (int, error) {
	var clean strings.Builder
	for line := range strings.Lines(string(data)) {
		text := strings.TrimSuffix(line, "\n")
		clean.WriteString(printable(text))
		clean.WriteString(line[len(text):])
	}
	if _, err := io.WriteString(m.to, clean.String()); err != nil {
		return 0, err
	}
	return len(data), nil
}

// printable returns a line with its unprintable letters spelled out, cut to the longest line.
func printable(line string) string {
	var out strings.Builder
	letters := 0
	for i, r := range line {
		if letters++; letters > longestMessage {
			return out.String() + "…"
		}
		switch {
		case r == utf8.RuneError && !strings.HasPrefix(line[i:], string(utf8.RuneError)):
			fmt.Fprintf(&out, `\x%02x`, line[i])
		case unicode.IsPrint(r):
			out.WriteRune(r)
		default:
			out.WriteString(strings.Trim(strconv.QuoteRune(r), "'"))
		}
	}
	return out.String()
}

// refuseControls refuses an argument that holds a line break or another control character: no name, no title and no figure has one.
func refuseControls(args []string) error {
	for _, arg := range args {
		if letter, found := strict.Control(arg); found {
			return usagef("argument %s: a control character, %q; want letters on one line", strict.Quote(arg), letter)
		}
	}
	return nil
}

// mostMessages is how many mistakes are shown at once: a screen of them. Judged by eye.
const mostMessages = 20

// tellError says what went wrong, and returns the exit code.
func tellError(errs io.Writer, err error) int {
	var problems *strict.Problems
	prefix := "hubrule: "
	if errors.As(err, &problems) {
		prefix = "" // each line names its file and place already; there may be several files
	}
	shown, left := 0, 0
	for line := range strings.SplitSeq(err.Error(), "\n") {
		goesOn := strings.HasPrefix(line, " ") // the line before
		if !goesOn {
			shown++
			line = prefix + line
		}
		switch {
		case shown <= mostMessages:
			fmt.Fprintln(errs, line)
		case !goesOn:
			left++
		}
	}
	if left > 0 {
		fmt.Fprintf(errs, "hubrule: and %d more\n", left)
	}
	var usage usageError
	var unknown segments.UnknownName
	var ownFault *fault.Fault
	switch {
	case errors.As(err, &ownFault):
		return exitFault
	case problems == nil && (errors.As(err, &usage) || errors.As(err, &unknown)):
		return exitUsage
	}
	return exitInput
}

// tell prints lines for people, after the word for what they are. Empty lines are left out, and those beyond a screenful only counted.
func tell(w io.Writer, what string, lines ...string) {
	shown := 0
	for _, line := range lines {
		if line == "" {
			continue
		}
		if shown++; shown <= mostMessages {
			fmt.Fprintf(w, "hubrule: %s: %s\n", what, line)
		}
	}
	if left := shown - mostMessages; left > 0 {
		fmt.Fprintf(w, "hubrule: %s: and %d more\n", what, left)
	}
}
