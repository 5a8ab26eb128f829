package strict

import (
	"bytes"
	"fmt"
	"io"
	"regexp"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// MaxSize is the largest file read, in bytes.
const MaxSize = 1_000_000

// maxDepth is how deep lists and tables may nest; a profile needs four levels.
const maxDepth = 20

// Parse reads the one document of a file; file is the name used in messages.
func Parse(file string, data []byte) *Document {
	d := &Document{file: file, top: &yaml.Node{Line: 1, Column: 1}}
	if !d.plainText(data, false) {
		return d
	}
	decoder := yaml.NewDecoder(bytes.NewReader(data))
	var first, second yaml.Node
	err := decoder.Decode(&first)
	more := err
	if err == nil {
		more = decoder.Decode(&second)
	}
	switch {
	case err == io.EOF || err == nil && empty(&first):
		d.report(1, 1, "empty; want a table of keys and values")
	case more == nil:
		d.report(second.Line, second.Column, "a second document; want one")
	case more != io.EOF:
		d.syntax(more, data)
	default:
		d.top = first.Content[0]
		d.refuse(d.Top(), 0)
	}
	return d
}

func empty(doc *yaml.Node) bool {
	return len(doc.Content) == 0 || doc.Content[0].ShortTag() == "!!null" && doc.Content[0].Value == ""
}

// plainText reports what makes a file no readable text: its size, its encoding, control characters, and tabs for indentation unless they
// are allowed.
func (d *Document) plainText(data []byte, tabs bool) bool {
	if len(data) > MaxSize {
		d.report(1, 1, "larger than %d bytes; want less", MaxSize)
		return false
	}
	isUTF16 := len(data) > 1 && (data[0] == 0 || data[1] == 0 || bytes.HasPrefix(data, []byte("\xff\xfe")) ||
		bytes.HasPrefix(data, []byte("\xfe\xff")))
	if isUTF16 {
		d.report(1, 1, "UTF-16; save it as a text file in UTF-8")
		return false
	}
	text, wrong, indent := string(data), "", true
	for i, r := range text {
		switch {
		case r == utf8.RuneError && !strings.HasPrefix(text[i:], string(utf8.RuneError)):
			wrong = "not UTF-8; save it as a text file in UTF-8"
		case r == '\t' && indent && !tabs:
			wrong = "a tab in the indentation; want spaces"
		case r < ' ' && !strings.ContainsRune("\t\n\r", r), r == 0x7f:
			wrong = fmt.Sprintf("control character %U; want plain text", r)
		}
		if wrong != "" {
			line := text[strings.LastIndexByte(text[:i], '\n')+1 : i]
			d.report(1+strings.Count(text[:i], "\n"), 1+utf8.RuneCountInString(line), "%s", wrong)
			return false
		}
		indent = r == '\n' || indent && r == ' '
	}
	return true
}

// syntax reports an error of the YAML library, which knows the line (not on line 1) but no column.
func (d *Document) syntax(err error, data []byte) {
	text := strings.TrimPrefix(err.Error(), "yaml: ")
	line := 1
	if _, err := fmt.Sscanf(text, "line %d: ", &line); err == nil {
		_, text, _ = strings.Cut(text, ": ")
		// The library's scanner counts lines from 1, its parser from 0.
		if regexp.MustCompile("^did not find expected (key|',' or|'-' indicator|node content|<)").MatchString(text) {
			line++
		}
	}
	lines := strings.Split(string(data), "\n")
	line = min(max(line, 1), len(lines))
	here := strings.TrimRight(lines[line-1], " \r")
	d.report(line, 1+len(here)-len(strings.TrimLeft(here, " ")), "not YAML: %s", text)
}

// refuse reports what no file may hold. The kind of such a node becomes 0.
func (d *Document) refuse(v Value, depth int) {
	y, wrong := v.node, ""
	switch {
	case depth > maxDepth:
		wrong = fmt.Sprintf("nested more than %d deep", maxDepth)
	case y.Kind == yaml.AliasNode:
		wrong = "alias " + Quote("*"+y.Value) + "; want the value written out"
	case y.Anchor != "":
		wrong = "anchor " + Quote("&"+y.Anchor) + "; want none"
	case y.Style&yaml.TaggedStyle != 0:
		wrong = "tag " + Quote(y.Tag) + "; want none"
	case y.Kind == yaml.ScalarNode:
		if _, found := Control(strings.TrimSpace(y.Value)); found {
			v.Want("one line without control characters")
			y.Kind = 0
		}
	}
	if wrong != "" {
		d.report(y.Line, y.Column, "%s", wrong)
		y.Kind = 0
		return
	}
	for i, item := range y.Content {
		path := v.path // of a key: its table's
		switch {
		case y.Kind == yaml.SequenceNode:
			path = fmt.Sprintf("%s[%d]", path, i+1)
		case y.Kind == yaml.MappingNode && i%2 == 1:
			path = join(path, y.Content[i-1].Value)
		}
		d.refuse(Value{d, item, path}, depth+1)
	}
}
