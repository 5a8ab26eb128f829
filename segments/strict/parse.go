package strict

import (
	"bytes"
	"errors"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// MaxSize is the largest file read, in bytes.
const maxSize = 1_000_000

// maxDepth is how deep lists and tables may nest; a profile needs four levels.
const maxDepth = 20

// shape is what a node is in the file.
type shape uint8

const (
	broken shape = iota // reported already: reading it reports nothing more
	nothing
	word   // plain text that YAML takes for text
	number // plain text that YAML takes for anything else: a number, true, a date
	quoted
	list
	table
)

// node is one value of a file. In a table, items holds key, value, key, value …
type node struct {
	shape        shape
	text         string
	line, column int
	flow         bool // written in brackets or braces
	items        []*node
}

// Parse reads the one document of a file; file is the name used in messages.
func Parse(file string, data []byte) *Document {
	d := &Document{file: file, top: &node{line: 1, column: 1}}
	if !d.plainText(data) {
		return d
	}
	decoder := yaml.NewDecoder(bytes.NewReader(data))
	var first, second yaml.Node
	err := decoder.Decode(&first)
	if errors.Is(err, io.EOF) || err == nil && empty(&first) {
		d.report(1, 1, "empty; want a table of keys and values")
		return d
	}
	if err == nil {
		err = decoder.Decode(&second)
		if err == nil {
			d.report(second.Line, second.Column, "a second document; want one")
			return d
		}
	}
	if !errors.Is(err, io.EOF) {
		d.syntax(err, data)
		return d
	}
	d.top = d.convert(first.Content[0], 0)
	return d
}

func empty(doc *yaml.Node) bool {
	return len(doc.Content) == 0 || doc.Content[0].ShortTag() == "!!null" && doc.Content[0].Value == ""
}

// plainText reports what makes a file no readable text: its size, its encoding, control characters, tabs for indentation.
func (d *Document) plainText(data []byte) bool {
	if len(data) > maxSize {
		d.report(1, 1, "larger than %d bytes; want less", maxSize)
		return false
	}
	line, column, indent := 1, 1, true
	for rest := data; len(rest) > 0; {
		r, size := utf8.DecodeRune(rest)
		rest = rest[size:]
		switch {
		case r == utf8.RuneError && size == 1:
			d.report(line, column, "not UTF-8; want a text file in UTF-8")
			return false
		case r == '\t' && indent:
			d.report(line, column, "a tab in the indentation; want spaces")
			return false
		case r < ' ' && r != '\t' && r != '\n' && r != '\r', r == 0x7f:
			d.report(line, column, "control character %U; want plain text", r)
			return false
		}
		indent = r == '\n' || indent && r == ' '
		column++
		if r == '\n' {
			line, column = line+1, 1
		}
	}
	return true
}

// syntax reports an error of the YAML library, which knows the line (not on line 1) but no column.
func (d *Document) syntax(err error, data []byte) {
	text := strings.TrimPrefix(err.Error(), "yaml: ")
	line := 1
	if m := regexp.MustCompile(`^line (\d+): `).FindStringSubmatch(text); m != nil {
		line, _ = strconv.Atoi(m[1])
		text = text[len(m[0]):]
		if countsFromZero(text) {
			line++
		}
	}
	lines := strings.Split(string(data), "\n")
	line = min(max(line, 1), len(lines))
	here := strings.TrimRight(lines[line-1], " \r")
	column := 1 + utf8.RuneCountInString(here) - utf8.RuneCountInString(strings.TrimLeft(here, " "))
	d.report(line, column, "not YAML: %s", text)
}

// countsFromZero reports whether the library's line of this error counts from 0: its scanner counts from 1, its parser does not.
func countsFromZero(text string) bool {
	for _, what := range []string{"key", "',' or", "'-' indicator", "node content", "<"} {
		if strings.HasPrefix(text, "did not find expected "+what) {
			return true
		}
	}
	return false
}

// convert turns the library's tree into nodes and reports what no file may hold.
func (d *Document) convert(y *yaml.Node, depth int) *node {
	n := &node{text: y.Value, line: y.Line, column: y.Column, flow: y.Style&yaml.FlowStyle != 0}
	refuse := func(format string, args ...any) *node {
		d.report(y.Line, y.Column, format, args...)
		return n
	}
	switch {
	case depth > maxDepth:
		return refuse("nested more than %d deep", maxDepth)
	case y.Kind == yaml.AliasNode:
		return refuse("alias %s; want the value written out", Quote("*"+y.Value))
	case y.Anchor != "":
		return refuse("anchor %s; want none", Quote("&"+y.Anchor))
	case y.Style&yaml.TaggedStyle != 0:
		return refuse("tag %s; want none", Quote(y.Tag))
	}
	n.shape = shapeOf(y)
	for _, item := range y.Content {
		n.items = append(n.items, d.convert(item, depth+1))
	}
	return n
}

func shapeOf(y *yaml.Node) shape {
	switch {
	case y.Kind == yaml.MappingNode:
		return table
	case y.Kind == yaml.SequenceNode:
		return list
	case y.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return quoted
	case y.ShortTag() == "!!null":
		return nothing
	case y.ShortTag() == "!!str":
		return word
	}
	return number
}
