package compare_test

import (
	"fmt"
	"math"
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
		if gap := float64(dots[i].X - dots[i-1].X); math.Abs(gap-float64(dots[6].X-dots[0].X)/6) > .01 {
			t.Errorf("dot %d lies %.2f mm behind the one before", i, gap)
		}
	}
	// The scale runs from 2.14 to 2.36 over the track; the readings span 120 mm of 739.
	line := dots[6].X - dots[0].X
	if whole := float64(line) / (120. / 739) * .22; whole < 200 || whole > 300 {
		t.Errorf("the scale is %.0f mm long, want most of the page's 390", whole)
	}
	// 1660 mm of 739; the ends of the scale are round values beyond the range; the readings are named.
	for _, want := range []string{"height", "n", "median", "2.25", "2.14", "2.36", "readings: N0, N1, N2, N3, N4, N5, N6"} {
		if !strings.Contains(words, want+"\n") {
			t.Errorf("no %q on the sheet: %s", want, words)
		}
	}
}
