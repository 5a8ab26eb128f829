package strict

import (
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"hubrule/internal/slice"
)

// Flow writes v as YAML on one line, so that it is read as the same value from a file. Keys of v itself come in an order, those that it does
// not name last.
func (v Value) Flow(order ...string) string {
	switch v.shape() {
	case table:
		fields := v.AnyTable().Fields
		slices.SortStableFunc(fields, func(f, g Field) int { return place(order, f.Name) - place(order, g.Name) })
		return "{" + strings.Join(slice.Map(fields, func(f Field) string { return Plain(f.Name) + ": " + f.Value.Flow() }), ", ") + "}"
	case list:
		return "[" + strings.Join(slice.Map(v.items(), func(item Value) string { return item.Flow() }), ", ") + "]"
	case quoted:
		if _, isNumber := ParseNumber(v.node.Value); isNumber && v.doc.isJSON { // in a file it stands without quotes
			return v.node.Value
		}
		return Plain(v.node.Value)
	case word:
		return Plain(v.node.Value)
	case number:
		return v.node.Value
	}
	return "null"
}

func place(order []string, name string) int {
	if i := slices.Index(order, name); i >= 0 {
		return i
	}
	return len(order)
}

// withoutQuotes are words that mean the same in YAML with quotes and without, whatever stands around them.
var withoutQuotes = Pattern(`^[\pL\pN]([\pL\pM\pN._/+=' -]*[\pL\pM\pN._/+='-])?$`)

// Plain writes a text as YAML, in quotes where it has to be.
func Plain(text string) string {
	plain := yaml.Node{Kind: yaml.ScalarNode, Value: text}
	if withoutQuotes().MatchString(text) && plain.ShortTag() == "!!str" {
		return text
	}
	return strconv.Quote(text)
}
