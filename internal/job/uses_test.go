package job_test

import (
	"fmt"
	"reflect"
	"runtime/debug"
	"slices"
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
	"paper": {"A2"}, "portrait": {"true"}, "landscape": {"true"}, "scale": {"wheel=15mm"}, "tile": {"true"},
	"facing": {"right"}, "guides": {"wheels", "outline"}, "labels": {"none"}, "units": {"mm"}, "ink": {"grey"},
	"outline": {"false", "true"}, "checks": {"true"}, "frame": {"true"}, "legend": {"true"}, "title": {"Other words"}, "author": {"Ana"},
	"dpi": {"150"}, "transparent": {"true"}, "letters": {"outlines"},
}

// group is sheets that are drawn together: those in perspective, whose picture is taken once, or one of another view, where the kinds
// stand on each other's place.
type group struct {
	view  request.View
	kinds []request.Kind
}

// groups lists all sheets there are: the pairs of kind and view that are not refused.
func groups() []group {
	var out []group
	for _, v := range request.Views() {
		g := group{view: v}
		for _, k := range request.AllKinds() {
			r := request.Request{Plans: make([]layout.Plan, 2), Kinds: []request.Kind{k}, Setting: request.Setting{Views: []request.View{v}}}
			switch {
			case job.Check(r) != nil:
			case v != request.PerspectiveView:
				out = append(out, group{v, []request.Kind{k}})
			default:
				g.kinds = append(g.kinds, k)
			}
		}
		if g.kinds != nil {
			out = append(out, g)
		}
	}
	return out
}

// asked returns a request of a view on kinds of sheet with settings.
func asked(v request.View, kinds []request.Kind, settings ...string) (job.Job, error) {
	var r job.Reader
	for _, k := range kinds {
		settings = append(settings, "sheet", string(k))
	}
	words := map[string][]string{"view": {string(v)}}
	for i := 0; i < len(settings); i += 2 {
		words[settings[i]] = append(words[settings[i]], settings[i+1])
	}
	for name, w := range words {
		r.Flag(name, w...)
	}
	return r.Job()
}

// drawn composes a group of the smallest segment and returns a page, or pages, for each kind.
func drawn(t *testing.T, g group, settings ...string) [][]render.Page {
	t.Helper()
	j, err := asked(g.view, g.kinds, settings...)
	if err != nil {
		t.Fatal(err)
	}
	j.Plans = []layout.Plan{plan(t, "city")}
	if j.Has(request.Overlay) && len(j.Compared) == 0 {
		j.Plans = append(j.Plans, plan(t, "hatchback"))
	}
	for i := range j.Compared {
		j.Against[i] = plan(t, j.Compared[i].Brief.Profile.Name)
	}
	doc, _, err := sheet.Compose(j.Request)
	if err != nil {
		t.Fatalf("%v %q: %v", g, settings, err)
	}
	if len(g.kinds) == 1 {
		return [][]render.Page{doc.Pages}
	}
	var out [][]render.Page
	for _, k := range g.kinds {
		pages := doc.Pages[:k.Pages()]
		for i := range pages {
			pages[i].About = render.About{} // metadata is not the drawing
		}
		out, doc.Pages = append(out, pages), doc.Pages[len(pages):]
	}
	return out
}

func plan(t *testing.T, segment string) layout.Plan {
	t.Helper()
	profile, err := segments.Find(segment)
	if err != nil {
		t.Fatal(err)
	}
	return layout.Typical(profile)
}

// TestEverySettingChangesASheet: on every sheet, every setting either changes what is drawn, and then some sheet asked for alone takes it, or
// it changes nothing and is refused.
func TestEverySettingChangesASheet(t *testing.T) {
	// Hundreds of drawings come and go: collecting them less often halves the time.
	percent := debug.SetGCPercent(400)
	t.Cleanup(func() { debug.SetGCPercent(percent) })
	for _, g := range groups() {
		t.Run(fmt.Sprintf("%s-%v", g.view, g.kinds), func(t *testing.T) {
			t.Parallel()
			drawings := map[string][][]render.Page{}
			for _, s := range job.Settings() {
				switch {
				case s.Name == "sheet" || s.Name == "view":
				case s.Format != nil || s.Name == "author":
					tryFile(t, g, s)
				default:
					try(t, g, s, drawings)
				}
			}
		})
	}
}

// tryFile tries a setting that changes the files of a drawing and not the drawing.
func tryFile(t *testing.T, g group, s job.Setting) {
	t.Helper()
	before, _ := asked(g.view, g.kinds)
	after, err := asked(g.view, g.kinds, s.Name, values[s.Name][0])
	if err != nil || after.Picture == before.Picture && after.Setting.Author == before.Setting.Author {
		t.Errorf("--%s: %v; nothing changes", s.Name, err)
	}
}

// try tries the values of a setting on a group of sheets until each sheet has changed that uses it, and holds the others to their refusal.
func try(t *testing.T, g group, s job.Setting, drawings map[string][][]render.Page) {
	t.Helper()
	needed, usual := usually(g, s)
	used := make([]bool, len(g.kinds))
	for i, k := range g.kinds {
		_, err := asked(g.view, []request.Kind{k}, append(needed, s.Name, values[s.Name][0])...)
		used[i] = err == nil
		if err != nil && !strings.Contains(err.Error(), "--"+s.Name) {
			t.Errorf("%s: --%s is refused as something else: %v", k, s.Name, err)
		}
	}
	if !slices.Contains(used, true) {
		return
	}
	once := func(settings ...string) [][]render.Page {
		key := fmt.Sprint(settings)
		if drawings[key] == nil {
			drawings[key] = drawn(t, g, settings...)
		}
		return drawings[key]
	}
	before, changed := make([][]render.Page, len(g.kinds)), make([]bool, len(g.kinds))
	if needed == nil { // without the setting, no page holds the sheet
		before = once(usual...)
	}
	for _, v := range values[s.Name] {
		for i, pages := range once(slices.Concat(needed, usual, []string{s.Name, v})...) {
			changed[i] = changed[i] || !reflect.DeepEqual(pages, before[i])
		}
		if slices.Equal(changed, used) {
			return
		}
	}
	t.Errorf("--%s %v: sheets %v take it: %v; it changes them: %v", s.Name, values[s.Name], g.kinds, used, changed)
}

// usually returns the settings without which a setting makes no sense, and those that make its drawings quick.
func usually(g group, s job.Setting) (needed, usual []string) {
	outline, _ := job.Find("outline")
	all := request.Request{Kinds: g.kinds, Setting: request.Setting{Views: []request.View{g.view}}}
	switch {
	case s.Name == "tile":
		needed = []string{"scale", "1:4"}
	case s.Name == "landscape":
		usual = []string{"paper", "297x420mm"}
	case g.view != request.SideView && s.Name != "outline" && outline.UsedBy(all):
		usual = []string{"outline", "false"} // the body's lines take most of the time
	}
	return needed, usual
}
