package sheet

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/request"
)

// largeSheet is what is drawn on one size of large sheet: the sheets of one plan, or an overlay.
type largeSheet struct {
	name  string // for messages
	plans []layout.Plan
	wheel geom.MM
	draw  func(driver) ([]render.Page, error)
}

// largeSheets lists what the job draws.
func (job driver) largeSheets() []largeSheet {
	var out []largeSheet
	if len(job.Each()) > 0 {
		for i, p := range job.Plans {
			wheel := job.Setting.Scale.WheelOf(p)
			out = append(out, largeSheet{p.Profile.Name, []layout.Plan{p}, wheel, func(j driver) ([]render.Page, error) { return j.pages(i, wheel) }})
		}
	}
	if job.Has(request.Overlay) {
		wheel := job.Setting.Scale.WheelOf(job.Plans[0])
		for i, plans := range job.Comparisons() {
			number := job.sheetNumber(len(job.Plans)*len(job.Each()) + i + 1)
			out = append(out, largeSheet{"the overlay", plans, wheel, func(j driver) ([]render.Page, error) {
				page, err := j.overlay(plans, wheel, number)
				return []render.Page{page}, err
			}})
		}
	}
	return out
}

// scale tells the scale of l, as overlays do where plans of different tyres share one wheel on paper.
func (l largeSheet) scale() string {
	for _, p := range l.plans {
		if p.OnVehicle(1) != l.plans[0].OnVehicle(1) {
			return "by each wheel"
		}
	}
	return reduction(float64(l.plans[0].OnVehicle(1) / l.wheel))
}

// place draws the sheets of l on one page, or on the least grid of tiles that holds them; false if none does.
func (job driver) place(l largeSheet) (tileGrid, []render.Page, bool) {
	onePage := job
	onePage.Setting.Tile = false
	if l.mayFit(job.Setting.Paper) {
		if pages, err := l.draw(onePage); err == nil {
			return tileGrid{}, pages, true
		}
	}
	for n := 2; n <= mostTiles; n++ {
		for columns := 1; columns <= n; columns++ {
			g := tileGrid{job.Setting.Paper, columns, n / columns}
			if n%columns != 0 || !l.mayFit(g.whole()) {
				continue
			}
			onGrid := job
			onGrid.Setting.Paper = g.whole()
			if pages, err := l.draw(onGrid); err == nil {
				return g, pages, true
			}
		}
	}
	return tileGrid{}, nil, false
}

// mayFit reports whether the vehicles alone fit on p: where they do not, nothing needs to be drawn to know.
func (l largeSheet) mayFit(p request.Paper) bool {
	for _, plan := range l.plans {
		if geom.MM(plan.Tail()-plan.Nose())*l.wheel > p.Width || geom.MM(plan.Height())*l.wheel > p.Height {
			return false
		}
	}
	return true
}
