package job_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"hubrule/internal/job"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/request"
	"hubrule/render/sheet"
	"hubrule/segments"
)

// values are what is tried of each setting, besides what it is by default.
var values = map[string][]string{
	"given": {"4", "2", "3"}, "against": {"van"}, "count": {"3"},
	"angle": {"first"}, "camera": {"front-long"}, "turn": {"20"}, "eye": {"2m"}, "distance": {"20m"}, "lens": {"90"}, "tilt": {"5"}, "near-wheel": {"30mm"},
	"paper": {"A2"}, "portrait": {"true"}, "scale": {"wheel=15mm"}, "tile": {"true"},
	"facing": {"right"}, "guides": {"wheels", "outline"}, "labels": {"none"}, "units": {"mm"}, "ink": {"grey"},
	"outline": {"false", "true"}, "checks": {"true"}, "frame": {"true"}, "title": {"Other words"}, "author": {"Ana"},
	"dpi": {"150"}, "transparent": {"true"},
}

// drawn composes a sheet of the smallest segment: pages, the author that files name, and how pictures are made; or a string, why it
// cannot be drawn. The error is a refusal of the settings.
func drawn(t *testing.T, p pair, said ...string) (any, error) {
	t.Helper()
	var r job.Reader
	r.Flag("sheet", string(p.kind))
	r.Flag("view", string(p.view))
	for i := 0; i < len(said); i += 2 {
		r.Flag(said[i], said[i+1])
	}
	j, err := r.Job()
	if err != nil {
		return nil, err
	}
	j.Plans = []layout.Plan{plan(t, "city")}
	if p.kind == request.Overlay && len(j.Compared) == 0 {
		j.Plans = append(j.Plans, plan(t, "hatchback"))
	}
	for i := range j.Compared {
		j.Against[i] = plan(t, j.Compared[i].Said)
	}
	doc, _, err := sheet.Compose(j.Request)
	if err != nil {
		return err.Error(), nil
	}
	for i := range doc.Pages {
		doc.Pages[i].About = render.About{}
	}
	return []any{doc.Pages, doc.About.Author, j.Picture}, nil
}

func plan(t *testing.T, segment string) layout.Plan {
	t.Helper()
	profile, err := segments.Find(segment)
	if err != nil {
		t.Fatal(err)
	}
	return layout.Typical(profile)
}

// pair is a sheet: a kind of a view.
type pair struct {
	kind request.Kind
	view request.View
}

// sheets lists all sheets there are: the pairs that are not refused.
func sheets(t *testing.T) []pair {
	t.Helper()
	var out []pair
	for _, v := range request.Views() {
		for _, k := range request.AllKinds() {
			r := request.Request{Plans: make([]layout.Plan, 2), Kinds: []request.Kind{k}, Setting: request.Setting{Views: []request.View{v}}}
			if job.Check(r) == nil {
				out = append(out, pair{k, v})
			}
		}
	}
	if len(out) < 20 {
		t.Fatalf("only %d sheets", len(out))
	}
	return out
}

// TestEverySettingChangesASheet: on every sheet, every setting either changes what is drawn or is refused with a sheet that it changes.
func TestEverySettingChangesASheet(t *testing.T) {
	for _, p := range sheets(t) {
		t.Run(fmt.Sprintf("%s-%s", p.kind, p.view), func(t *testing.T) {
			t.Parallel()
			drawings := map[string]any{}
			for _, s := range job.Settings() {
				if s.Name != "sheet" && s.Name != "view" {
					tryAll(t, p, s, drawings)
				}
			}
		})
	}
}

// tryAll tries the values of a setting on a sheet until one changes it. What others are compared with is drawn once.
func tryAll(t *testing.T, p pair, s job.Setting, drawings map[string]any) {
	t.Helper()
	one := request.Request{Kinds: []request.Kind{p.kind}, Setting: request.Setting{Views: []request.View{p.view}}}
	var usual []string
	if outline, _ := job.Find("outline"); s.Name != "outline" && outline.UsedBy(one) && p.view != request.SideView {
		usual = []string{"outline", "false"} // the body's lines take most of the time
	}
	if s.Name == "tile" {
		usual = append(usual, "scale", "1:4")
	}
	before, ok := drawings[fmt.Sprint(usual)]
	if !ok {
		before, _ = drawn(t, p, usual...)
		drawings[fmt.Sprint(usual)] = before
	}
	if len(values[s.Name]) == 0 {
		t.Fatalf("no value of %s to try", s.Name)
	}
	for _, v := range values[s.Name] {
		after, err := drawn(t, p, append(usual, s.Name, v)...)
		switch {
		case err != nil && s.UsedBy(one):
			t.Errorf("--%s %s is refused: %v", s.Name, v, err)
		case err != nil && !strings.Contains(err.Error(), "--"+s.Name):
			t.Errorf("--%s %s is refused as something else: %v", s.Name, v, err)
		}
		if err != nil {
			return
		}
		if why, failed := after.(string); failed {
			t.Fatalf("--%s %s: %s", s.Name, v, why)
		}
		if !reflect.DeepEqual(after, before) {
			return
		}
	}
	t.Errorf("--%s %v changes nothing and is not refused", s.Name, values[s.Name])
}
