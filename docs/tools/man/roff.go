package main

import (
	"fmt"
	"strings"
)

// escapes are the signs that roff sets as others, or takes for its own.
var escapes = strings.NewReplacer(`\`, `\e`, `-`, `\-`, `'`, `\(aq`, "`", `\(ga`, `^`, `\(ha`, `~`, `\(ti`, `"`, `\(dq`)

// roff writes a text as roff's input, on one line.
func roff(text string) string {
	text = escapes.Replace(strings.Join(strings.Fields(text), " "))
	if strings.HasPrefix(text, ".") {
		text = `\&` + text // else it is a request
	}
	return text
}

// paragraphs writes a text of paragraphs with empty lines between; one that is indented stays as it is.
func paragraphs(b *strings.Builder, text string) {
	for i, p := range strings.Split(strings.Trim(text, "\n"), "\n\n") {
		if i > 0 {
			b.WriteString(".PP\n")
		}
		if strings.HasPrefix(p, " ") || strings.HasPrefix(p, "\t") {
			verbatim(b, p)
			continue
		}
		fmt.Fprintf(b, "%s\n", roff(p))
	}
}

// verbatim writes lines that keep their breaks and indentation.
func verbatim(b *strings.Builder, text string) {
	b.WriteString(".nf\n")
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		words := strings.TrimLeft(line, " \t")
		fmt.Fprintf(b, "%s%s\n", strings.Repeat(" ", len(line)-len(words)), escapes.Replace(words))
	}
	b.WriteString(".fi\n")
}
