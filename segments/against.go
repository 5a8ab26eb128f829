package segments

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"hubrule/segments/strict"
)

// Against is one vehicle as a flag says it: SEGMENT[+TWEAK=STRENGTH,…], or in braces a vehicle as a brief's also holds it.
type Against string

// Parts cuts the first form; bent reports whether there is a +.
func (a Against) Parts() (segment string, tweaks []string, bent bool) {
	segment, rest, bent := strings.Cut(string(a), "+")
	if rest != "" {
		tweaks = strings.Split(rest, ",")
	}
	return segment, tweaks, bent
}

// IsTable reports whether a has the second form.
func (a Against) IsTable() bool { return strings.HasPrefix(string(a), "{") }

// Table reads the second form; place is where it stands, for messages.
func (a Against) Table(place string) (Brief, error) {
	doc := strict.Parse(place, []byte(a))
	b, nested := ReadVehicle(doc.Top().Table("key", VehicleKeys()), "")
	return b, errors.Join(doc.Err(), nested)
}

// from returns a with the paths in its first form starting from folder.
func (a Against) from(folder string) string {
	if a.IsTable() {
		return string(a)
	}
	segment, tweaks, bent := a.Parts()
	out := pathFrom(folder, segment)
	if bent {
		out += "+"
	}
	for i, t := range tweaks {
		name, strength, said := strings.Cut(t, "=")
		if i > 0 {
			out += ","
		}
		out += pathFrom(folder, name)
		if said {
			out += "=" + strength
		}
	}
	return out
}

// readAgainst reads one vehicle or a list of them, as words that a flag might say; the error is about the files that are named.
func readAgainst(v strict.Value, folder string) ([]string, error) {
	items := []strict.Value{v}
	if _, single := v.Scalar(); !single && !v.IsTable() {
		items, _ = v.Items(1, mostBesides)
	}
	var words []string
	var nested error
	for _, item := range items {
		if item.IsTable() {
			b, err := ReadVehicle(item.Table("key", VehicleKeys()), folder)
			nested = errors.Join(nested, err)
			if b.Profile != nil {
				lines, _ := b.Lines(strconv.Quote)
				words = append(words, Flow(lines))
			}
			continue
		}
		text, ok := item.Scalar()
		if !ok {
			item.Want("a vehicle like suv+sporty=0.5, or a table with segment")
			continue
		}
		words = append(words, Against(text).from(folder))
	}
	return words, nested
}

// Flow writes lines as one YAML value.
func Flow(lines []Line) string {
	var out []string
	for _, l := range lines {
		out = append(out, fmt.Sprintf("%s: %s", l.Key, l.Value))
	}
	return "{" + strings.Join(out, ", ") + "}"
}
