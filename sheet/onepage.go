package sheet

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"slices"
)

// onePage is one sheet of one plan in the making.
type onePage struct {
	draft.Canvas
	plan   layout.Plan
	kind   request.Kind
	wheel  geom.MM      // on paper
	number string       // which sheet of how many
	fixed  *draft.Board // what is not mirrored: strip, blanks, centring marks
}

// newDrawing returns an empty drawing of a plan for one kind of sheet.
func newDrawing(r request.Request, c draft.Canvas, p layout.Plan, kind request.Kind) *drawing {
	return &drawing{
		Board: draft.NewBoard(c.Space, draft.InksOf(r.Ink(kind))), plan: p,
		guides: r.Setting.Guides, checks: r.Setting.Checks, units: r.Setting.Units,
	}
}

// caption returns the name of a sheet and the line under it: what is seen, what was asked for, and what came of it.
func caption(r request.Request, p layout.Plan, seen string) draft.Caption {
	c := draft.Caption{Heading: p.Profile.Title, Sub: seen + ", typical figures"}
	if p.Varied {
		c.Sub = seen + ", varied inside the segment's ranges"
	}
	if words := p.Brief.Summary(); words != "" {
		c.Sub = words + "; " + p.ReadsAs(r.Among).Short
		if p.Varied {
			c.Sub = words + ", varied"
		}
	}
	if r.Setting.Title != "" {
		c.Heading, c.Sub = r.Setting.Title, p.Profile.Title+", "+c.Sub
	}
	if r.Setting.Checks || slices.Contains(r.Setting.Guides, "checks") {
		c.Remark = "angles are an aid to sketching, never an approval"
	}
	return c
}

// pages are the sheets of a plan with the wheel at a size on paper.
type pages struct {
	request.Request
	plan  layout.Plan
	wheel geom.MM
}

// each draws a page for each kind that is asked for.
func (p pages) each(c draft.Canvas, number func(i int) string, draw func(onePage) (render.Page, error)) ([]render.Page, error) {
	var out []render.Page
	for i, kind := range p.Kinds {
		page, err := draw(onePage{Canvas: c, plan: p.plan, kind: kind, wheel: p.wheel, number: number(i), fixed: c.Fixed(p.Ink(kind))})
		if err != nil {
			return nil, err
		}
		out = append(out, page)
	}
	return out, nil
}
