package segments

import (
	"fmt"
	"hubrule/segments/strict"
	"strings"
)

// aFigure is a line of a profile's file that gives a figure.
var aFigure = strict.Pattern(`^  ([a-z-]+):`)

// Template returns the file of a segment of the catalogue, found by name or alias, as a profile of the user's own to start from: complete,
// and with what each figure measures and its unit as comments. Read again it is the same segment under its file's name.
func Template(word string) (string, error) {
	name, ok := named(word)
	if !ok {
		return "", unknownSegment(word)
	}
	data, err := embedded.ReadFile("catalogue/" + name + ".yaml")
	if err != nil {
		panic("segments: " + err.Error())
	}
	_, rest, _ := strings.Cut(string(data), "\n")
	out := strings.Builder{}
	fmt.Fprintf(&out, "# A profile to start from, with all that the segment %s says. Save it under a name of your own, change it,\n"+
		"# and draw it: hubrule draw mine.yaml. What stays as it is may go if the line \"extends: %s\" stands instead.\n", name, name)
	block := ""
	for line := range strings.Lines(rest) {
		if key, _, found := strings.Cut(line, ":"); found && IsName(key) && strings.TrimLeft(key, " #") == key {
			block = key
		}
		if m := aFigure().FindStringSubmatch(line); m != nil && block == "figures" {
			f, _ := Lookup(m[1])
			fmt.Fprintf(&out, "  # %s%s\n", f.Info().Meaning, f.unitWords())
		}
		if !strings.HasPrefix(line, "aliases:") { // only the catalogue is found by them
			out.WriteString(line)
		}
	}
	return out.String(), nil
}

// unitWords names the unit of a figure's numbers where they carry none.
func (f Figure) unitWords() string {
	switch f.Info().Unit {
	case AsRatio:
		return " (a ratio)"
	case InDegrees:
		return " (in degrees)"
	}
	return ""
}
