package segments

import (
	"reflect"
	"strings"

	"hubrule/internal/slice"
	"hubrule/segments/strict"
)

// Number is a field of a Shape, Solid or Pillar that a profile sets with a plain number: wheels, degrees or a share, as the
// field says. Its tag holds the profile's key and the bounds, which are wide enough for anything on wheels (judged by eye).
type Number struct {
	Key    string
	Lo, Hi float64 // allowed, ends included
	field  reflect.Value
}

// Set gives the field a value.
func (n Number) Set(x float64) { n.field.SetFloat(x) }

// Numbers lists the numbers of a block in the order of its fields.
func Numbers[T Shape | Solid | Pillar](block *T) []Number {
	return numbersIn(reflect.ValueOf(block).Elem())
}

// numbersIn lists the numbers of a struct and of those in it.
func numbersIn(v reflect.Value) []Number {
	var out []Number
	for i := range v.NumField() {
		if tag, ok := v.Type().Field(i).Tag.Lookup("number"); ok {
			words := strings.Split(tag, ",")
			out = append(out, Number{words[0], number(words[1]), number(words[2]), v.Field(i)})
		} else if v.Field(i).Kind() == reflect.Struct {
			out = append(out, numbersIn(v.Field(i))...)
		}
	}
	return out
}

// numberKeys lists the keys of numbers.
func numberKeys(numbers []Number) []string {
	return slice.Map(numbers, func(n Number) string { return n.Key })
}

// readNumbers sets the numbers that stand in t and returns the keys of the others.
func readNumbers(t strict.Table, numbers []Number) (missing []string) {
	for _, n := range numbers {
		v, ok := t.Get(n.Key)
		if !ok {
			missing = append(missing, n.Key)
		} else if x, ok := v.Number(n.Lo, n.Hi); ok {
			n.Set(x)
		}
	}
	return missing
}
