package strict

import (
	"slices"
	"strings"
)

// Field is one key of a table and its value.
type Field struct {
	Name  string
	Value Value
	key   Value // the key itself, with the path of its table
}

// Problem reports a mistake at the key rather than at the value: path: text, path being the table's.
func (f Field) Problem(format string, args ...any) { f.key.Problem(format, args...) }

// Table is a table whose keys are all known and stand once.
type Table struct {
	Value  Value
	Fields []Field // in the file's order
}

// Get returns the value of a key, and whether it is there.
func (t Table) Get(name string) (Value, bool) {
	for _, f := range t.Fields {
		if f.Name == name {
			return f.Value, true
		}
	}
	return Value{}, false
}

// Need returns the value of a required key. Where it is not there it reports that, and what is wanted; silent if t is no table.
func (t Table) Need(name, want string) (Value, bool) {
	v, ok := t.Get(name)
	if !ok && t.Value.IsTable() {
		t.Value.Problem("no %s; want %s", name, want)
	}
	return v, ok
}

// Text sets a variable to the text of a key that is there: see Value.Text.
func (t Table) Text(name string, most int, into *string) {
	if v, ok := t.Get(name); ok {
		*into, _ = v.Text(most)
	}
}

// Number sets a variable to the number of a key that is there: see Value.Number.
func (t Table) Number(name string, lo, hi float64, into *float64) {
	if v, ok := t.Get(name); ok {
		*into, _ = v.Number(lo, hi)
	}
}

// Choice returns the name that stands at a key, "" where none does: see Value.Choice.
func (t Table) Choice(name, kind string, names []string) string {
	v, ok := t.Get(name)
	if !ok {
		return ""
	}
	chosen, _ := v.Choice(kind, names)
	return chosen
}

// Table returns v as a table with keys out of names; kind is what a key is called in messages.
// Names in others are accepted as well but not listed in messages: the caller refuses them in its own words.
// Unknown and repeated keys are reported and left out; of a value that is no table the result is empty.
func (v Value) Table(kind string, names []string, others ...string) Table {
	known := map[string]bool{}
	for _, name := range slices.Concat(names, others) {
		known[name] = true
	}
	return v.table(func(f Field, before *node) bool {
		if known[f.Name] {
			return true
		}
		if slip := decimalComma(f, before); slip != "" && v.node.flow {
			before.shape = broken // half of the same slip
			f.Problem("%s stands alone; is it a decimal comma? write %s", Quote(f.Name), slip)
		} else {
			f.Problem("%s", Unknown(kind, f.Name, names))
		}
		return false
	})
}

// AnyTable returns v as a table with any keys; only repeated ones are reported.
func (v Value) AnyTable() Table { return v.table(func(Field, *node) bool { return true }) }

// table gathers the fields that accept takes; accept also sees the value before the field.
func (v Value) table(accept func(f Field, before *node) bool) Table {
	t := Table{Value: v}
	if v.node.shape != table {
		v.Want("a table of keys and values")
		return t
	}
	lines := map[string]int{}
	var before *node
	for i := 0; i+1 < len(v.node.items); i += 2 {
		key, value := v.node.items[i], v.node.items[i+1]
		f := Field{key.text, Value{v.doc, value, join(v.path, key.text)}, Value{v.doc, key, v.path}}
		switch line, again := lines[key.text]; {
		case key.shape == broken:
		case key.shape == list || key.shape == table || key.text == "":
			f.Problem("a key that is no name")
		case again:
			f.Problem("%s stands twice, first on line %d; want it once", Quote(key.text), line)
		case accept(f, before):
			t.Fields = append(t.Fields, f)
		}
		if key.shape != broken && lines[key.text] == 0 {
			lines[key.text] = key.line
		}
		before = value
	}
	return t
}

func join(path, key string) string { return strings.TrimPrefix(path+"."+shorten(key), ".") }

// decimalComma returns what was meant by {a: 1,5}, which YAML reads as a: 1 and a key "5" without a value; "" if f is no such thing.
func decimalComma(f Field, before *node) string {
	digit := f.Name != "" && f.Name[0] >= '0' && f.Name[0] <= '9'
	if !digit || f.Value.node.shape != nothing || before == nil || before.shape != number {
		return ""
	}
	return shorten(before.text) + "." + shorten(f.Name)
}
