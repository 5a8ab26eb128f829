package strict

import (
	"cmp"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hubrule/internal/slice"
)

// Field is one key of a table and its value.
type Field struct {
	Name   string
	Value  Value
	key    Value // the key itself, with the path of its table
	before Value // of the field before
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
	f, ok := slice.Find(t.Fields, func(f Field) bool { return f.Name == name })
	return f.Value, ok
}

// At returns the value of a key. If it is not there, the methods of the value return nothing and report nothing.
func (t Table) At(name string) Value {
	v, _ := t.Get(name)
	return v
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
	chosen, _ := t.At(name).Choice(kind, names)
	return chosen
}

// Table returns v as a table with keys out of names; kind is what a key is called in messages.
// Names in others are accepted as well but not listed in messages: the caller refuses them in its own words.
// Unknown and repeated keys are reported and left out; of a value that is no table the result is empty.
func (v Value) Table(kind string, names []string, others ...string) Table {
	t := v.AnyTable()
	t.Fields = slices.DeleteFunc(t.Fields, func(f Field) bool {
		known := slices.Contains(names, f.Name) || slices.Contains(others, f.Name)
		switch slip := f.decimalComma(); {
		case known:
		case slip != "" && v.node.Style&yaml.FlowStyle != 0:
			f.before.node.Kind = 0 // half of the same slip
			f.Problem("%s stands alone; is it a decimal comma? write %s", Quote(f.Name), slip)
		default:
			f.Problem("%s", Unknown(kind, f.Name, names))
		}
		return !known
	})
	return t
}

// AnyTable returns v as a table with any keys; only repeated ones are reported.
func (v Value) AnyTable() Table {
	t := Table{Value: v}
	if !v.IsTable() {
		v.Want("a table of keys and values")
		return t
	}
	lines := map[string]int{}
	var before Value
	for pair := range slices.Chunk(v.node.Content, 2) {
		name := pair[0].Value
		f := Field{name, Value{v.doc, pair[1], join(v.path, name)}, Value{v.doc, pair[0], v.path}, before}
		before = f.Value
		shape, line := f.key.shape(), lines[name]
		switch {
		case shape == broken:
			continue
		case shape == list || shape == table || name == "":
			f.Problem("a key that is no name")
		case line != 0:
			f.Problem("%s stands twice, first on line %d; want it once", Quote(name), line)
		default:
			t.Fields = append(t.Fields, f)
		}
		lines[name] = cmp.Or(line, pair[0].Line)
	}
	return t
}

func join(path, key string) string {
	if !printable(key) {
		key = Quote(key)
	}
	return strings.TrimPrefix(path+"."+shorten(key), ".")
}

// decimalComma returns what was meant by {a: 1,5}, which YAML reads as a: 1 and a key "5" without a value; "" if f is no such thing.
func (f Field) decimalComma() string {
	digit := f.Name != "" && isDigit(f.Name[0])
	if !digit || f.Value.shape() != nothing || f.before.shape() != number {
		return ""
	}
	return shorten(f.before.node.Value) + "." + shorten(f.Name)
}
