package segments

import (
	"errors"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"hubrule/internal/slice"
)

// YAML writes p as the file of a profile that extends a segment of the catalogue: what differs from that segment, with a head of comment
// lines. Read again under p's name it is p, lengths and numbers to six decimals. The error says why p cannot be written so.
func (p *Profile) YAML(head ...string) (string, error) {
	if p.Extends == "" {
		return "", errors.New(p.Name + " extends no segment of the catalogue, so it cannot be written as a profile that does")
	}
	parent := fromCatalogue(p.Extends)
	if p.Form != parent.Form || !reflect.DeepEqual([]any{p.Shape, p.Solid}, []any{parent.Shape, parent.Solid}) {
		return "", fmt.Errorf("%s has a form or an outline of its own, so it cannot be written as a profile that extends %s", p.Name, p.Extends)
	}
	lines := slice.Map(head, func(line string) string { return strings.TrimSpace("# " + line) })
	lines = append(lines, "extends: "+p.Extends)
	if p.Title != parent.Title {
		lines = append(lines, "title: "+strconv.Quote(p.Title))
	}
	if p.Summary != parent.Summary {
		lines = append(lines, "line: "+strconv.Quote(p.Summary))
	}
	lines = append(lines, p.tyreLines(parent)...)
	parent.SetTyres(p.Wheel, p.RearWheel)
	if figures := p.figureLines(parent); figures != nil {
		lines = append(append(lines, "figures:"), figures...)
	}
	return strings.Join(lines, "\n") + "\n", nil
}

// tyreLines writes p's tyres where they are not the parent's. A front tyre alone stands at both ends.
func (p *Profile) tyreLines(parent *Profile) (lines []string) {
	inherited := parent.RearWheel
	if p.Wheel != parent.Wheel {
		lines, inherited = append(lines, "wheel: "+p.Wheel.String()), p.Wheel
	}
	if p.RearWheel != inherited {
		lines = append(lines, "rear-wheel: "+p.RearWheel.String())
	}
	return lines
}

// figureLines writes the figures in which p differs from its parent on the same tyres, and p's pins.
func (p *Profile) figureLines(parent *Profile) (lines []string) {
	for f := range FigureCount {
		e := p.Figures[f]
		if pin, pinned := p.Pin(f); pinned {
			lines = append(lines, fmt.Sprintf("  %s: %s", f, pin.Text))
		}
		if e == parent.Figures[f] || atTop(f) {
			continue
		}
		parts := []string{"value: " + f.valueText(e.Value)}
		if e.Range != (Range{}) {
			parts = append(parts, fmt.Sprintf("range: [%s, %s]", f.valueText(e.Range.Lo), f.valueText(e.Range.Hi)))
		}
		if e.Basis != "" {
			parts = append(parts, "basis: "+strconv.Quote(e.Basis))
		}
		lines = append(lines, fmt.Sprintf("  %s: {%s}", f, strings.Join(parts, ", ")))
	}
	return lines
}
