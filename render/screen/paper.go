package screen

import (
	"hubrule/internal/geom"
	"hubrule/render/draft"
	"hubrule/render/sheet"
)

// Paper is the real page, in mm: how large the wheel is on it, and the box that the vehicle takes. Both are 0 where its sheet has no
// side view of one vehicle.
type Paper struct {
	Width, Height, Wheel geom.MM
	Vehicle              draft.Box
}

// describe fills in what the title block of the real page says, and returns the wheel on paper. A side view's page is composed to know it;
// the others have no scale, or one that a screen need not know.
func (out *Sheet) describe(one sheet.Single) geom.MM {
	paper := one.Request.Setting.Paper
	out.Paper = &Paper{Width: paper.Width, Height: paper.Height}
	out.Title = draft.Caption{Heading: one.Request.Title()}
	if !one.Request.Setting.SideOnly() {
		return 0
	}
	doc, _, err := sheet.Compose(one.Request)
	if err != nil {
		out.Problem = err.Error()
		return 0
	}
	page := doc.Pages[one.Index].Flatten()
	if page.Wheel == 0 { // its panels have scales of their own
		return 0
	}
	title, columns := one.Title(page.Wheel)
	out.Title, out.Paper.Wheel = title, page.Wheel
	for _, column := range columns {
		out.Facts = append(out.Facts, column...)
	}
	if m := mapOf(one, page.Marks); m != nil {
		p := subjectOf(one)
		out.Paper.Vehicle = geom.BoxOf(m.at(planPoint(p.Nose(), 0)), m.at(planPoint(p.Tail(), p.Height())))
	}
	return page.Wheel
}
