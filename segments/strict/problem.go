// Package strict reads YAML from untrusted files: it knows every key that a file may
// have, and reports all mistakes of a file at once, in order, each with its position, what
// was found and what is allowed.
//
// A file is at most 1 MB of UTF-8 and holds one document without anchors, aliases
// or tags. [Parse] returns it as a [Document]; the reader of a file kind walks from its
// Top through tables and lists. Every method of a [Value] that finds a mistake
// reports it to the document and returns false, so a reader only goes on:
//
//	doc := strict.Parse("hatch.yaml", data)
//	top := doc.Top().Table("key", []string{"title", "doors"})
//	if v, ok := top.Get("title"); ok {
//		title, _ = v.Text(80)
//	}
//	return doc.Err()
package strict

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hubrule/internal/slice"
)

// Problem is one mistake in a file: where it is and what is wrong.
type Problem struct {
	Line, Column int    // from 1; the column counts characters, not bytes
	Path         string // of the value in its file, "figures.height"; "" at the top
	Text         string
}

// Problems is everything wrong with one file, sorted by place. It is an error.
type Problems struct {
	File string // as it was named; "" of what came without a file
	List []Problem
}

// Error returns one line a problem: file:line:column: path: text; without a file the place is left out.
func (p *Problems) Error() string {
	lines := slice.Map(p.List, func(q Problem) string {
		if q.Path != "" {
			q.Text = q.Path + ": " + q.Text
		}
		if p.File == "" {
			return q.Text
		}
		return fmt.Sprintf("%s:%d:%d: %s", p.File, q.Line, q.Column, q.Text)
	})
	return strings.Join(lines, "\n")
}

// Document is one file being read; it gathers the file's problems.
type Document struct {
	file     string
	isJSON   bool // it came without a file, see [ParseJSON]
	top      *yaml.Node
	problems []Problem
}

// Top returns the file's outermost value. For a file that cannot be parsed
// (not YAML, empty, too large) it is a value whose methods all return false silently: the reason stands in Err.
func (d *Document) Top() Value { return Value{doc: d, node: d.top} }

// Err returns a *Problems with everything reported so far, or nil.
func (d *Document) Err() error {
	if len(d.problems) == 0 {
		return nil
	}
	list := slices.Clone(d.problems)
	slices.SortStableFunc(list, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return &Problems{File: d.file, List: slices.Compact(list)}
}

func (d *Document) report(line, column int, format string, args ...any) {
	d.problems = append(d.problems, Problem{line, column, "", fmt.Sprintf(format, args...)})
}

// Peek returns a value at the top, and whether it is there: enough to tell one kind of file from another before anything is reported.
func (d *Document) Peek(key string) (Value, bool) {
	if d.Top().IsTable() {
		for pair := range slices.Chunk(d.top.Content, 2) {
			if pair[0].Value == key {
				return Value{d, pair[1], key}, true
			}
		}
	}
	return Value{}, false
}

// Is reports whether the file is of a kind, and what is wrong if it is not. A file without the key kind is if want is empty; otherwise
// the problem asks for want.
func (d *Document) Is(kind, want string) bool {
	v, ok := d.Peek("kind")
	switch {
	case ok:
		_, ok = v.Choice("kind of file", []string{kind})
	case want == "":
		return true
	case d.top.Kind != 0: // else what is wrong was reported
		d.Top().Problem("no kind; want %s", want)
	}
	return ok
}

// Place returns where v stands: file:line:column, or its path where there is no file.
func (v Value) Place() string {
	if v.doc.isJSON {
		return v.path
	}
	return fmt.Sprintf("%s:%d:%d", v.doc.file, v.node.Line, v.node.Column)
}

// OnLine says on which line v stands, or otherwise where there is no file.
func (v Value) OnLine(otherwise string) string {
	if v.node == nil || v.doc.isJSON {
		return otherwise
	}
	return fmt.Sprintf("on line %d", v.node.Line)
}
