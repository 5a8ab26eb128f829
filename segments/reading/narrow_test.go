package reading

import (
	"path/filepath"
	"slices"
	"testing"
)

// What is promised for far tyres, ground and a focal length is what they give where somebody marked them: marks are taken away from the
// cases, and the ± that they are said to bring back is not a fifth better than that of the whole case, nor much worse.
func TestNarrowingsKeepTheirWord(t *testing.T) {
	for _, c := range []struct {
		name, what string
		lessen     func(*Marks)
	}{
		{"plain-noisy", "far-front", func(m *Marks) { m.Points[FarFront], m.Points[FarRear], m.Focal = nil, nil, 0 }},
		{"sunk-right-noisy", "far-front", func(m *Marks) { m.Points[FarFront], m.Points[FarRear] = nil, nil }},
		{"round-noisy", "far-rear", func(m *Marks) { m.Points[FarRear] = nil }},
		{"focal-yaw-noisy", "focal", func(m *Marks) { m.Focal = 0 }},
		{"sunk-right-noisy", "ground", func(m *Marks) { m.Points[Ground] = nil }},
		{"plain-noisy", "tyre-front", func(m *Marks) {
			m.Points[TyreFront], m.Points[TyreRear] = m.Points[TyreFront][:5], m.Points[TyreRear][:5]
		}},
	} {
		file, err := LoadMarks(filepath.Join(testdata, c.name+".yaml"), nil)
		if err != nil {
			t.Fatal(err)
		}
		whole, err := file.Marks.Reading()
		if err != nil {
			t.Fatal(err)
		}
		c.lessen(&file.Marks)
		less, err := file.Marks.Reading()
		if err != nil {
			t.Fatal(err)
		}
		all := less.Narrowings()
		i := slices.IndexFunc(all, func(n Narrowing) bool { return n.What == c.what })
		if i < 0 {
			t.Errorf("%s without %s: it is not among %v", c.name, c.what, all)
			continue
		}
		file.Marks.Hidden = []Name{FarFront, FarRear, Ground, TyreFront, TyreRear}
		hiding, err := file.Marks.Reading()
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range hiding.Narrowings() {
			if n.What != "focal" && n.What != "half-width" {
				t.Errorf("%s: %s is asked for, and hidden", c.name, n.What)
			}
		}
		n := all[i]
		if then := whole.Figures[n.Figure].PM; n.PM < .8*then || n.PM > 1.5*then || n.From != less.Figures[n.Figure].PM {
			t.Errorf("%s: %s %d is to take %s from ± %.3f to ± %.3f; it was ± %.3f with it", c.name, n.What, n.Count, n.Figure, n.From, n.PM, then)
		}
	}
}

// Nothing is promised twice, for less than it takes, or in place of what is marked already.
func TestNarrowings(t *testing.T) {
	files, _ := filepath.Glob(testdata + "/*-noisy.yaml") // patterns of ours
	more, _ := filepath.Glob("../../docs/examples/school/*/*.yaml")
	for _, path := range append(files, more...) {
		file, err := LoadMarks(path, nil)
		if err != nil {
			t.Fatal(err)
		}
		r, err := file.Reading()
		if err != nil {
			t.Fatal(err)
		}
		last := 1.
		for _, n := range r.Narrowings() {
			if n.gain() < leastGain || n.gain() > last || n.PM <= 0 {
				t.Errorf("%s: %+v after one that gains %g", path, n, last)
			}
			last = n.gain()
			if n.What == "focal" && file.Marks.Focal > 0 || n.What == "ground" && len(file.Marks.Points[Ground]) > 0 {
				t.Errorf("%s: %+v is there already", path, n)
			}
		}
	}
	if found := (Reading{}).Narrowings(); found != nil {
		t.Errorf("a row of a data sheet is narrowed by %v", found)
	}
}
