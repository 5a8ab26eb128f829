package segments

import (
	"fmt"
	"slices"

	"hubrule/segments/strict"
)

// figureHints says which figures stand behind words that sheets, tables and everyday speech have for them.
var figureHints = map[string]string{
	"ground-clearance": `did you mean "clearance"?`,
	"roof":             `did you mean "height"?`,
	"belt-line":        `did you mean "belt"?`,
	"tyre":             `did you mean "wheel"?`,
	"a-pillar":         `did you mean "pillar-rake"?`,
	"pillar":           `did you mean "pillar-rake"?`,
	"aims-at":          `did you mean "pillar-aim"?`,
	"glass":            `did you mean "glass-end"?`,
	"side-glass":       `did you mean "glass-end"?`,
	"side-glass-ends":  `did you mean "glass-end"?`,
	"arches":           `did you mean "arch-gap"?`,
	"bonnet":           `did you mean "bonnet-edge"?`,
	"nose":             `did you mean "front-overhang"?`,
	"tail":             `did you mean "rear-overhang"?`,
	"overhang":         `did you mean "front-overhang" or "rear-overhang"?`,
	"lamps":            `did you mean "front-lamp" or "rear-lamp"?`,
	"approach-angle":   "it follows from chin, chin-setback and front-overhang",
	"departure-angle":  "it follows from tail-low, tail-setback and rear-overhang",
	"breakover-angle":  "it follows from clearance and wheelbase",
}

// FigureHint returns which figure is meant by a word that stands for one on sheets and in tables but is not its name, "" for other words.
func FigureHint(word string) string { return figureHints[spelled(word)] }

// UnknownFigure is the message for a word that is no figure's name. It suggests a figure, and lists those allowed where none is near.
func UnknownFigure(word string, allowed []string) string {
	if hint := FigureHint(word); hint != "" {
		return fmt.Sprintf("unknown figure %s; %s", strict.Quote(word), hint)
	}
	return strict.Unknown("figure", word, allowed)
}

// withHints adds the words that have hints to names.
func withHints(names []string) []string {
	names = slices.Clone(names)
	for word := range figureHints {
		names = append(names, word)
	}
	return names
}
