package segments

import (
	"errors"
	"strconv"
	"strings"

	"hubrule/segments/strict"
)

// VehicleSpec is one vehicle as written in a flag: SEGMENT, then TWEAK=STRENGTH or FIGURE=VALUE after each +; or a YAML flow
// mapping with the keys of a vehicle.
type VehicleSpec string

// Split cuts the first form; items are nil where there is no +.
func (a VehicleSpec) Split() (segment string, items []string) {
	segment, rest, bent := strings.Cut(string(a), "+")
	if bent {
		items = strict.SplitList(rest, '+')
	}
	return segment, items
}

// IsTable reports whether a has the second form.
func (a VehicleSpec) IsTable() bool { return strings.HasPrefix(string(a), "{") }

// ParseTable reads the second form of a; place is where it stands, for messages.
func (l Library) ParseTable(a VehicleSpec, place string) (Brief, error) {
	doc := strict.Parse(place, []byte(a))
	b, nested := l.readOtherVehicle(doc.Top(), "")
	return b, errors.Join(doc.Err(), nested)
}

// from returns a with the paths in its first form starting from folder.
func (a VehicleSpec) from(folder string) string {
	if a.IsTable() {
		return string(a)
	}
	segment, items := a.Split()
	out, rest := PathFrom(folder, segment), string(a)[len(segment):]
	for _, item := range items {
		before, after, _ := strings.Cut(rest, item)
		name, _, _ := strings.Cut(item, "=")
		out, rest = out+before+PathFrom(folder, name)+item[len(name):], after
	}
	return out + rest
}

// ReadAgainst reads one vehicle or a list of them, as words that a flag might say, and where each stands; the error is about the files that
// are named.
func (l Library) ReadAgainst(v strict.Value, folder string) (words []string, at []strict.Value, nested error) {
	items := []strict.Value{v}
	if _, single := v.Scalar(); !single && !v.IsTable() {
		items, _ = v.Items(1, maxOtherVehicles)
	}
	for _, item := range items {
		text, ok := item.Scalar()
		switch {
		case item.IsTable():
			b, err := l.readOtherVehicle(item, folder)
			nested = errors.Join(nested, err)
			if b.Profile == nil {
				continue
			}
			lines, _ := b.YAMLLines(strconv.Quote)
			text = FlowMapping(lines)
		case !ok:
			item.Want("a vehicle like suv+sporty=0.5, or a table with segment")
			continue
		default:
			text = VehicleSpec(text).from(folder)
		}
		words, at = append(words, text), append(at, item)
	}
	return words, at, nested
}

// FlowMapping writes lines as one YAML value.
func FlowMapping(lines []string) string { return "{" + strings.Join(lines, ", ") + "}" }
