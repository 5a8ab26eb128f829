package screen

import (
	"context"

	"hubrule/internal/geom"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/sheet"
)

// Paper is the real page, in mm: how large the wheel is on it, and the box that the vehicle takes. Both are 0 where its sheet has no
// side view of one vehicle.
type Paper struct {
	Width, Height, Wheel geom.MM
	Vehicle              draft.Box
}

// describe fills in what the title block of the real page says, and returns the wheel on paper. For a side view the whole request is
// composed, whose pages share a wheel; other views have no scale, or one that a screen need not know.
func (out *Sheet) describe(ctx context.Context, whole request.Request, one sheet.Single) geom.MM {
	paper := one.Request.Setting.Paper
	out.Paper = &Paper{Width: paper.Width, Height: paper.Height}
	out.Title = draft.Caption{Heading: one.Request.Title()}
	if !one.Request.Setting.SideOnly() {
		return 0
	}
	if whole.Setting.Tile { // its pages are cut from a sheet of the scale that was asked for
		wheel := whole.Setting.Scale.WheelOf(one.Plans[0])
		out.say(one, wheel)
		return wheel
	}
	doc, _, err := sheet.ComposeUntil(ctx, whole)
	if err != nil {
		out.Problem = err.Error()
		return 0
	}
	page := doc.Pages[out.Page-1].Flatten()
	if page.Wheel == 0 { // its panels have scales of their own
		return 0
	}
	out.say(one, page.Wheel)
	if m := mapOf(one, page.Marks); m != nil {
		p := subjectOf(one)
		out.Paper.Vehicle = geom.BoxOf(m.at(planPoint(p.Nose(), 0)), m.at(planPoint(p.Tail(), p.Height())))
	}
	return page.Wheel
}

// say fills in title and facts of a page whose wheel on paper is known.
func (out *Sheet) say(one sheet.Single, wheel geom.MM) {
	title, columns := one.Title(wheel)
	out.Title, out.Paper.Wheel = title, wheel
	for _, column := range columns {
		out.Facts = append(out.Facts, column...)
	}
}
