package segments

import "testing"

// Every segment loads, holds its own ranges and says where each figure comes from.
func TestCatalogue(t *testing.T) {
	for _, name := range Names() {
		p, err := Find(name)
		if err != nil {
			t.Errorf("Find(%q): %v", name, err)
			continue
		}
		if p.Name != name || p.Title == "" || p.Line == "" {
			t.Errorf("Find(%q): name %q, title %q, line %q", name, p.Name, p.Title, p.Line)
		}
		for f := range FigureCount {
			e := p.Figures[f]
			if f.About().Role != Declared || !p.Form.Has(f) {
				continue
			}
			if !(e.Range.Lo < e.Value && e.Value < e.Range.Hi) {
				t.Errorf("%s: %s %v outside its range %v", name, f, e.Value, e.Range)
			}
			if e.Basis == "" {
				t.Errorf("%s: %s has no basis", name, f)
			}
		}
	}
}
