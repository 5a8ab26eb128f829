package cli

import (
	"bytes"
	"encoding/json"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hubrule/segments"
)

// The keys and decimals that other programs rely on, for every segment.
func TestFiguresJSON(t *testing.T) {
	t.Parallel()
	dimensions := []string{"approach-angle", "breakover-angle", "departure-angle", "front-overhang",
		"front-overhang-axle", "ground-clearance", "height", "length", "rear-overhang", "rear-overhang-axle", "track", "wheelbase", "width"}
	units := []string{"w", "mm", "ratio", "count", "deg", ""}
	for _, name := range segments.Names() {
		var out, errs bytes.Buffer
		if code := Main([]string{"figures", name, "--format", "json"}, nil, &out, &errs); code != exitDone {
			t.Fatalf("%s: exit code %d: %s", name, code, &errs)
		}
		var got struct {
			Segment    string             `json:"segment"`
			WheelMM    float64            `json:"wheel-mm"`
			Dimensions map[string]float64 `json:"dimensions"`
			Figures    map[string]struct {
				Value any         `json:"value"`
				Unit  string      `json:"unit"`
				MM    *float64    `json:"mm"`
				Range *[2]float64 `json:"range"`
				State string      `json:"state"`
			} `json:"figures"`
			ReadsAs string `json:"reads-as"`
			Nearest []struct {
				Segment  string  `json:"segment"`
				Distance float64 `json:"distance"`
			} `json:"nearest"`
			Checks []struct {
				Name   string   `json:"name"`
				Value  *float64 `json:"value"`
				Holds  *bool    `json:"holds"`
				Source string   `json:"source"`
			} `json:"checks"`
		}
		if err := json.Unmarshal(out.Bytes(), &got); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if got.Segment != name || got.WheelMM < 400 {
			t.Errorf("%s: segment %q, wheel-mm %g", name, got.Segment, got.WheelMM)
		}
		if keys := slices.Sorted(maps.Keys(got.Dimensions)); !slices.Equal(keys, dimensions) {
			t.Errorf("%s: dimensions %v, want %v", name, keys, dimensions)
		}
		if got.ReadsAs != "reads as "+name && !strings.HasPrefix(got.ReadsAs, "reads as "+name+", ") {
			t.Errorf("%s: reads-as %q", name, got.ReadsAs)
		}
		if len(got.Nearest) != len(segments.Names()) || got.Nearest[0].Segment != name {
			t.Errorf("%s: nearest %v", name, got.Nearest)
		}
		for _, c := range got.Checks {
			if c.Source == "" || (c.Value == nil) != (c.Holds == nil) && !strings.HasPrefix(c.Name, "off-road") {
				t.Errorf("%s: check %+v", name, c)
			}
		}
		for figure, f := range got.Figures {
			if !slices.Contains(units, f.Unit) {
				t.Errorf("%s: %s: unit %q, want one of %q", name, figure, f.Unit, units)
			}
			// Wheels between are a count of lengths.
			if isLength := slices.Contains([]string{"w", "mm", "count"}, f.Unit); (f.MM != nil) != isLength {
				t.Errorf("%s: %s: unit %q, mm given: %t", name, figure, f.Unit, f.MM != nil)
			}
			if f.State == "given" && f.Range != nil {
				t.Errorf("%s: %s is given and has the range %v", name, figure, *f.Range)
			}
		}
		// Six decimals, millimetres three.
		words := regexp.MustCompile(`"(limit|source|reads-as)": ".*"`) // in which numbers are told to people
		for _, number := range regexp.MustCompile(`-?\d+\.\d*`).FindAllString(words.ReplaceAllString(out.String(), ""), -1) {
			if !regexp.MustCompile(`\.(\d{3}|\d{6})$`).MatchString(number) {
				t.Errorf("%s: the number %s", name, number)
			}
		}
	}
}

// Every row of a table has a unit, or is a count or a ratio, and a sentence about what it measures.
func TestFiguresTableExplains(t *testing.T) {
	t.Parallel()
	var out, errs bytes.Buffer
	if code := Main([]string{"figures", "sedan", "--checks", "off-road"}, nil, &out, &errs); code != exitDone {
		t.Fatal(&errs)
	}
	table, rest, _ := strings.Cut(out.String(), "\nw: ")
	sizes, _, _ := strings.Cut(rest[strings.Index(rest, "\ndimensions"):], "\n\n")
	if rows := strings.Count(table, "\n"); rows != int(segments.FigureCount) { // a sedan has all of them
		t.Errorf("%d rows; want %d", rows, segments.FigureCount)
	}
	row := regexp.MustCompile(`^ *[a-z-]+ +(-?\d+\.\d{3}(w|)|\d+ mm|-?\d+\.\d°|three-box)( .*|)  [^ ].{9,}$`)
	for _, line := range append(strings.Split(table, "\n")[1:], strings.Split(sizes, "\n")[2:]...) {
		if !row.MatchString(line) {
			t.Errorf("%q", line)
		}
	}
	for _, title := range []string{"\nlamps: ", "\noff-road: ", "\ndistances are in half-ranges"} {
		if !strings.Contains(rest, title) {
			t.Errorf("no %q", title)
		}
	}
}
