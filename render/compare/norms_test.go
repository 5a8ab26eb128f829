package compare_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hubrule/internal/job"
	"hubrule/render"
	"hubrule/render/compare"
	"hubrule/segments/reading"
)

// A norms sheet has a dot for every reading of every row, in its place: all dots of a row rise with the values.
func TestNormsPage(t *testing.T) {
	sheet := "name,tyre,height mm\n"
	for i := range 7 {
		sheet += fmt.Sprintf("N%d,235/60R18,%d\n", i, 1600+20*i)
	}
	path := filepath.Join(t.TempDir(), "n.csv")
	if err := os.WriteFile(path, []byte(sheet), 0o666); err != nil {
		t.Fatal(err)
	}
	inputs, err := reading.Load([]string{path}, nil)
	if err != nil {
		t.Fatal(err)
	}
	norms, err := reading.Gather(inputs[0].Readings, reading.NormOptions{Name: "n"})
	if err != nil {
		t.Fatal(err)
	}
	page, err := compare.NormsPage(norms, job.Default().Setting)
	if err != nil {
		t.Fatal(err)
	}
	if err := page.Check(); err != nil {
		t.Fatal(err)
	}
	var dots []render.Point
	words := ""
	for _, m := range page.Marks {
		switch m := m.(type) {
		case *render.Circle:
			dots = append(dots, m.Centre)
		case *render.Text:
			words += m.Spans[0].Text + "\n"
		}
	}
	if len(dots) != 7 {
		t.Fatalf("%d dots, want 7", len(dots))
	}
	for i := 1; i < len(dots); i++ {
		if gap := dots[i].X - dots[i-1].X; gap <= 0 || gap-(dots[1].X-dots[0].X) > .2 {
			t.Errorf("dot %d lies %.2f mm behind the one before", i, float64(gap))
		}
	}
	// 1660 mm of 739; the ends of the scale are round values beyond the range; the readings are named.
	for _, want := range []string{"height", "n", "median", "2.25", "2.14", "2.36", "readings: N0, N1, N2, N3, N4, N5, N6"} {
		if !strings.Contains(words, want+"\n") {
			t.Errorf("no %q on the sheet: %s", want, words)
		}
	}
}
