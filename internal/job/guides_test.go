package job_test

import (
	"slices"
	"testing"

	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/request"
)

// TestGuidesOfSheets: each sheet shows the guides that it is said to show, where nothing is chosen and where all are.
func TestGuidesOfSheets(t *testing.T) {
	for _, v := range []request.View{request.SideView, request.FrontView, request.TopView, request.ArrangementView, request.PerspectiveView} {
		for _, k := range []request.Kind{request.Full, request.Trace, request.Answer, request.Overlay, request.Thumbnails} {
			able := slices.DeleteFunc(request.Guides(), func(g request.Guide) bool { return !g.On(k, v) })
			if _, err := asked(v, []request.Kind{k}); err != nil {
				continue // no such sheet
			}
			g := group{v, []request.Kind{k}}
			usual := slices.DeleteFunc(slices.Clone(able), func(g request.Guide) bool { return !g.UsuallyOn(k, v) })
			same(t, g, usual, drawn(t, g)[0])
			var settings []string
			for _, one := range able {
				settings = append(settings, "guides", string(one))
			}
			if k != request.Trace || v != request.PerspectiveView {
				settings = append(settings, "outline", "true")
			}
			same(t, g, able, drawn(t, g, settings...)[0])
		}
	}
}

func same(t *testing.T, g group, want []request.Guide, pages []render.Page) {
	t.Helper()
	names := slice.Map(pages[0].Guides, func(g render.Guide) request.Guide { return request.Guide(g.Name) })
	got := slices.DeleteFunc(request.Guides(), func(g request.Guide) bool { return !slices.Contains(names, g) })
	if !slices.Equal(got, want) {
		t.Errorf("%v: drawn are %v; want %v", g, got, want)
	}
}
