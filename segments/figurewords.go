package segments

import (
	"fmt"
	"slices"
	"sync"

	"hubrule/internal/slice"
	"hubrule/segments/strict"
)

// figureHints says which figures stand behind words that sheets, tables and everyday speech have for them.
var figureHints = sync.OnceValue(func() map[string]string {
	return map[string]string{
		"ground-clearance": meant(Clearance),
		"roof":             meant(Height),
		"belt-line":        meant(Belt),
		"tyre":             meant(Wheel),
		"a-pillar":         meant(PillarRake),
		"pillar":           meant(PillarRake),
		"aims-at":          meant(PillarAim),
		"glass":            meant(GlassEnd),
		"side-glass":       meant(GlassEnd),
		"side-glass-ends":  meant(GlassEnd),
		"screen":           meant(ScreenBase),
		"windscreen":       meant(ScreenBase),
		"arches":           meant(ArchGap),
		"bonnet":           meant(BonnetEdge),
		"nose":             meant(FrontOverhang),
		"tail":             meant(RearOverhang),
		"overhang":         meant(FrontOverhang, RearOverhang),
		"lamps":            meant(FrontLamp, RearLamp),
		"approach-angle":   "it follows from chin, chin-setback and front-overhang",
		"departure-angle":  "it follows from tail-low, tail-setback and rear-overhang",
		"breakover-angle":  "it follows from clearance and wheelbase",
	}
})

// meant asks whether certain figures were meant.
func meant(figures ...Figure) string {
	names := slice.Map(figures, func(f Figure) string { return fmt.Sprintf("%q", f.String()) })
	return "did you mean " + strict.JoinOr(names) + "?"
}

// FigureHint returns which figure is meant by a word that stands for one on sheets and in tables but is not its name, "" for other words.
func FigureHint(word string) string { return figureHints()[spelled(word)] }

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
	for word := range figureHints() {
		names = append(names, word)
	}
	return names
}
