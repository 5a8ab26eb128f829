package examples

import (
	"path/filepath"
	"strings"
	"testing"

	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/render/sheet"
	"hubrule/segments"
)

// Every example is read without a word of complaint, lies within its own ranges and fits on A3 and A4.
func TestExamples(t *testing.T) {
	files, err := filepath.Glob("*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no examples (%v)", err)
	}
	for _, file := range files {
		brief, err := segments.Library{}.LoadBrief(file, nil, []string{"sheets", "paper", "title"})
		if err != nil || brief.Err() != nil {
			t.Errorf("%s: %v %v", file, err, brief.Err())
			continue
		}
		if brief.Briefs[0].Summary() != "" {
			if _, err := layout.Solve(brief.Briefs[0]); err != nil {
				t.Errorf("%s: %v", file, err)
			}
			continue
		}
		profile := brief.Briefs[0].Profile
		if !strings.Contains(profile.Title, "Kornfeld") {
			t.Errorf("%s: title %q is not the example's own", file, profile.Title)
		}
		plan := layout.Typical(profile)
		for _, s := range plan.FigureStatuses() {
			if s.Beyond != 0 {
				t.Errorf("%s: %s is out of its range", file, s.Figure)
			}
		}
		if plan.PillarHead().X >= plan.GlassEnd() {
			t.Errorf("%s: the side glass ends ahead of the A-pillar's head", file)
		}
		for _, name := range []string{"A3", "A4"} {
			paper, _ := request.FindPaper(name)
			setting := request.Setting{Paper: paper, Facing: request.Left, Labels: request.FullLabels, Units: request.Wheels}
			job := request.Request{Plans: []layout.Plan{plan}, Kinds: request.Kinds(), Setting: setting}
			if _, _, err := sheet.Compose(job); err != nil {
				t.Errorf("%s on %s: %v", file, name, err)
			}
		}
	}
}
