package segments

import (
	"errors"
	"strconv"
	"strings"

	"hubrule/segments/strict"
)

// VehicleSpec is one vehicle as written in a flag: SEGMENT[+TWEAK=STRENGTH,…], or a YAML flow mapping with the keys of a vehicle.
type VehicleSpec string

// Split cuts the first form; bent reports whether there is a +.
func (a VehicleSpec) Split() (segment string, tweaks []string, bent bool) {
	segment, rest, bent := strings.Cut(string(a), "+")
	if rest != "" {
		tweaks = strings.Split(rest, ",")
	}
	return segment, tweaks, bent
}

// IsTable reports whether a has the second form.
func (a VehicleSpec) IsTable() bool { return strings.HasPrefix(string(a), "{") }

// ParseTable reads the second form; place is where it stands, for messages.
func (a VehicleSpec) ParseTable(place string) (Brief, error) {
	doc := strict.Parse(place, []byte(a))
	b, nested := readVehicle(doc.Top().Table("key", vehicleKeys()), "")
	return b, errors.Join(doc.Err(), nested)
}

// from returns a with the paths in its first form starting from folder.
func (a VehicleSpec) from(folder string) string {
	if a.IsTable() {
		return string(a)
	}
	segment, tweaks, bent := a.Split()
	for i, t := range tweaks {
		name, _, _ := strings.Cut(t, "=")
		tweaks[i] = PathFrom(folder, name) + t[len(name):]
	}
	out := PathFrom(folder, segment)
	if bent {
		out += "+" + strings.Join(tweaks, ",")
	}
	return out
}

// ReadAgainst reads one vehicle or a list of them, as words that a flag might say; the error is about the files that are named.
func ReadAgainst(v strict.Value, folder string) ([]string, error) {
	items := []strict.Value{v}
	if _, single := v.Scalar(); !single && !v.IsTable() {
		items, _ = v.Items(1, maxOtherVehicles)
	}
	var words []string
	var nested error
	for _, item := range items {
		if item.IsTable() {
			b, err := readVehicle(item.Table("key", vehicleKeys()), folder)
			nested = errors.Join(nested, err)
			if b.Profile != nil {
				lines, _ := b.YAMLLines(strconv.Quote)
				words = append(words, FlowMapping(lines))
			}
			continue
		}
		text, ok := item.Scalar()
		if !ok {
			item.Want("a vehicle like suv+sporty=0.5, or a table with segment")
			continue
		}
		words = append(words, VehicleSpec(text).from(folder))
	}
	return words, nested
}

// FlowMapping writes lines as one YAML value.
func FlowMapping(lines []string) string { return "{" + strings.Join(lines, ", ") + "}" }
