package strict

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// Value is one value of a file: a text, a number, a list or a table. It knows its place.
type Value struct {
	doc  *Document
	node *yaml.Node
	path string // "figures.height"; "" at the top
}

// shape is what a value is in the file.
type shape uint8

const (
	broken shape = iota // not there, or reported already: reading it reports nothing more
	nothing
	word   // plain text that YAML takes for text
	number // plain text that YAML takes for anything else: a number, true, a date
	quoted
	list
	table
)

func (v Value) shape() shape {
	const quotes = yaml.SingleQuotedStyle | yaml.DoubleQuotedStyle | yaml.LiteralStyle | yaml.FoldedStyle
	switch y := v.node; {
	case y == nil || y.Kind == 0:
		return broken
	case y.Kind == yaml.MappingNode:
		return table
	case y.Kind == yaml.SequenceNode:
		return list
	case y.Style&quotes != 0:
		return quoted
	case y.ShortTag() == "!!null":
		return nothing
	case y.ShortTag() == "!!str":
		return word
	}
	return number
}

// Problem reports a mistake of v: where it is, and text.
func (v Value) Problem(format string, args ...any) {
	v.doc.problems = append(v.doc.problems, Problem{v.node.Line, v.node.Column, v.path, fmt.Sprintf(format, args...)})
}

// Want reports that v is not what is allowed: "found; want allowed".
// Silent if v is not there or was already reported.
func (v Value) Want(format string, args ...any) {
	if v.shape() != broken {
		v.Problem("%s; want %s", v.excerpt(), fmt.Sprintf(format, args...))
	}
}

// excerpt describes v in the words of a message.
func (v Value) excerpt() string {
	switch shape := v.shape(); {
	case shape == table:
		return "a table"
	case shape == list:
		return "a list"
	case v.node == v.doc.top && shape != nothing: // probably the wrong file, whose words are nobody's business
		return "plain text"
	case shape == quoted:
		return Quote(v.node.Value)
	}
	return Excerpt(v.node.Value)
}

// Excerpt quotes user text in a message: as it stands, in quotes where that would be unclear, shortened to 40 characters.
func Excerpt(text string) string {
	switch {
	case text == "":
		return "nothing"
	case strings.ContainsFunc(text, unicode.IsSpace) || !printable(text):
		return Quote(text)
	}
	return shorten(text)
}

// IsTable reports whether v is a table, so that a reader may accept a plain value as well.
func (v Value) IsTable() bool { return v.shape() == table }

// IsNothing reports whether a key stands without a value.
func (v Value) IsNothing() bool { return v.shape() == nothing }

// IsEmpty reports whether v is a table without keys.
func (v Value) IsEmpty() bool { return v.IsTable() && len(v.node.Content) == 0 }

// Scalar returns the text of anything but a list, a table or nothing, as it is written. It reports nothing.
func (v Value) Scalar() (string, bool) {
	switch v.shape() {
	case word, number, quoted:
		return v.node.Value, true
	}
	return "", false
}

// Text returns a text of one line with 1 to most characters.
func (v Value) Text(most int) (string, bool) {
	text, ok := v.Scalar()
	text = strings.TrimSpace(text)
	length := utf8.RuneCountInString(text)
	switch {
	case v.shape() == number:
		v.Want("a text; put it in quotes")
	case !ok:
		v.Want("a text")
	case length == 0 || length > most:
		v.Want("a text of 1 to %d characters", most)
	default:
		return text, true
	}
	return "", false
}

// Control returns the first control character or line break of a text, or the first that turns the order of letters around it round: a
// terminal obeys them. Joiners and marks of direction, which some scripts need, are none.
func Control(text string) (letter rune, found bool) {
	for _, r := range text {
		if unicode.In(r, unicode.Cc, unicode.Zl, unicode.Zp) || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
			return r, true
		}
	}
	return 0, false
}

func printable(text string) bool {
	return !strings.ContainsFunc(text, func(r rune) bool { return !unicode.IsPrint(r) })
}

// Number returns a plain number from lo to hi.
func (v Value) Number(lo, hi float64) (float64, bool) {
	text, ok := v.Scalar()
	x, plain := ParseNumber(text)
	switch b := (Bounds{Lo: lo, Hi: hi}); {
	case plain && v.shape() == quoted && !v.doc.isJSON:
		v.Want("a number, %s, without quotes", b)
	case !ok || !plain:
		v.Want("a number, %s%s", b, cmp.Or(NumberHint(text), unitHint(text)))
	case !b.Contain(x):
		v.Want("%s", b)
	default:
		return x, true
	}
	return 0, false
}

// NumberHint names the usual slips that make a number no number, as the end of a message; "" where it knows none.
func NumberHint(text string) string {
	digits := strings.TrimLeft(text, "+-")
	switch {
	case strings.Contains(text, ","):
		return ", with a decimal point"
	case len(digits) > 1 && digits[0] == '0' && isDigit(digits[1]):
		return ", without leading zeros"
	}
	return ""
}

// unitHint notices a unit behind a number that has none.
func unitHint(text string) string {
	if _, ok := ParseNumber(strings.TrimRight(text, " abcdefghijklmnopqrstuvwxyz°%")); ok {
		return ", without a unit"
	}
	return ""
}

// Bool returns true or false.
func (v Value) Bool() (value, ok bool) {
	text, _ := v.Scalar()
	if ok = v.shape() == number && (text == "true" || text == "false"); !ok {
		v.Want("true or false")
	}
	return ok && text == "true", ok
}

// Choice returns one of names; kind is what a name is called in messages.
func (v Value) Choice(kind string, names []string) (string, bool) {
	text, ok := v.Scalar()
	switch {
	case !ok || len(names) == 1 && text != names[0]:
		v.Want("%s", JoinOr(names))
	case !slices.Contains(names, text):
		v.Problem("%s", Unknown(kind, text, names))
	default:
		return text, true
	}
	return "", false
}

// Items returns the values of a list of lo to hi values.
func (v Value) Items(lo, hi int) ([]Value, bool) {
	count := strconv.Itoa(lo)
	if hi > lo {
		count = fmt.Sprintf("%d to %d", lo, hi)
	}
	items := v.items()
	switch n := len(items); {
	case v.shape() != list:
		v.Want("a list of %s in [ ]", count)
	case n > hi && n <= 2*hi && !slices.ContainsFunc(items, func(v Value) bool { return v.shape() == list || v.shape() == table }):
		v.Want("%s values, not %d; is a decimal comma among them? write a point", count, n)
	case n < lo || n > hi:
		v.Want("%s values, not %d", count, n)
	default:
		return items, true
	}
	return nil, false
}

// First returns the first value of a list, and nothing of anything else. It reports nothing.
func (v Value) First() Value {
	if items := v.items(); len(items) > 0 {
		return items[0]
	}
	return Value{}
}

// items returns the values of a list, none of anything else.
func (v Value) items() (items []Value) {
	if v.shape() == list {
		for i, item := range v.node.Content {
			items = append(items, Value{v.doc, item, fmt.Sprintf("%s[%d]", v.path, i+1)})
		}
	}
	return items
}

// ParseNumber reads a plain decimal number: a sign, digits, a point. No exponent, no leading zero, no inf or NaN.
func ParseNumber(text string) (float64, bool) {
	digits := strings.TrimPrefix(strings.TrimPrefix(text, "+"), "-")
	whole, part, point := strings.Cut(digits, ".")
	switch {
	case len(text)-len(digits) > 1, len(text) > 30,
		strings.Trim(whole+part, "0123456789") != "",
		whole == "" && part == "", point && part == "",
		len(whole) > 1 && whole[0] == '0':
		return 0, false
	}
	x, err := strconv.ParseFloat(text, 64)
	return x + 0, err == nil // + 0: "-0" is 0
}

// FormatNumber writes a number for a message: at most six decimals, no trailing zeros.
func FormatNumber(x float64) string {
	text := strconv.FormatFloat(x, 'f', 6, 64)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// Strings returns what stands at v as texts: one of a plain value, several of a list. It reports what is neither.
func (v Value) Strings() []string {
	if v.shape() != list {
		text, ok := v.Scalar()
		if !ok {
			v.Want("a word or a list of words")
		}
		return []string{text}
	}
	var out []string
	for _, item := range v.items() {
		text, ok := item.Scalar()
		if !ok {
			item.Want("a word")
		}
		out = append(out, text)
	}
	return out
}
