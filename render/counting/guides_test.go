package counting

import (
	"hubrule/render/draft"
	"slices"
	"testing"
)

// ISO 128 (SEEN): elements of dashed lines in line widths: gap 3, short dash 6, dash 12, long dash 24.
func TestDashes(t *testing.T) {
	elements := []float64{3, 6, 12, 24}
	for what, k := range map[string]draft.LineStyle{
		"counted": CountedLine(), "axle": AxleLine(), "roof": RoofLine(), "sill": SillLine(), "glass": GlassLine(), "aim": AimLine(),
	} {
		for i, d := range k.Dash {
			// A chain's dot is 2 widths here, not the standard's half: printers and copiers drop a dot of 0.125 mm.
			if !slices.Contains(elements, d) && (i == 0 || d != 2) {
				t.Errorf("%s: element of %g line widths", what, d)
			}
			if i%2 == 1 && d != 3 {
				t.Errorf("%s: gap of %g line widths, want 3", what, d)
			}
		}
	}
}
