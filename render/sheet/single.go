package sheet

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// Single is one page of a request: the request narrowed to what the page shows, and the page's place among the pages of that.
type Single struct {
	Request request.Request
	Index   int
	Kind    request.Kind
	Views   request.ViewSet
	Plans   []layout.Plan // of an overlay the first is the base
}

// SinglePage returns page n of a request, counted from 1, and how many pages it has before any is cut into tiles. It reports false where
// there is no such page.
func SinglePage(r request.Request, n int) (one Single, total int, ok bool) {
	n--
	parts, overlays := (composer{Request: r}).parts(), 0
	for _, p := range parts {
		total += len(p.kinds)
		if n < p.before || n >= p.before+len(p.kinds) {
			if n >= p.before && p.kinds[0] == request.Overlay {
				overlays++
			}
			continue
		}
		k := p.kinds[n-p.before]
		one, ok = Single{Request: r, Kind: k, Views: r.Setting.Sheets()[p.view], Plans: p.plans}, true
		one.Request.Kinds, one.Request.Setting.Views, one.Request.Setting.Tile = []request.Kind{k}, one.Views, false
		if k == request.Overlay {
			one.Index = overlays
		} else {
			one.Index = n - p.before - slices.Index(p.kinds, k)
		}
		if !k.ShowsAllPlans() {
			one.Request.Plans = p.plans
		}
	}
	return one, total, ok
}

// Title returns the caption and the facts of the title block of a page whose wheel on paper is known, in mm.
func (s Single) Title(wheel geom.MM) (draft.Caption, [][]draft.Fact) {
	for _, p := range (composer{Request: s.Request}).parts() {
		if t, ok := p.Drawing.(titled); ok {
			return t.TitleOf(draft.NewCanvas(s.Request.Setting), s.Kind, wheel)
		}
	}
	return draft.Caption{Heading: s.Request.Title()}, nil
}
