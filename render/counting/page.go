package counting

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// Page is one sheet of one plan in the making.
type Page struct {
	draft.Canvas
	Plan   layout.Plan
	Kind   request.Kind
	Step   int            // of a kind with several pages: which of them, from 0
	Wheel  geom.MM        // on paper
	Number string         // which sheet of how many
	Fixed  *draft.Surface // what is not mirrored: title block, blanks, centring marks
}

// NewDrawing returns an empty drawing of a plan for one kind of sheet.
func NewDrawing(r request.Request, c draft.Canvas, p layout.Plan, kind request.Kind) *Drawing {
	surface := draft.NewSurface(c.Space, draft.InksOf(r.Ink(kind)))
	surface.Seams = c.FigureSeams(r.Setting.Facing)
	return &Drawing{
		Surface: surface, Plan: p, Tiled: c.Tiled && !r.HasBlanks(), // a student is to find the ends
		Guides: r.Setting.Guides, Checks: r.Setting.Checks, Units: r.Setting.Units,
		OnScreen: r.OnScreen,
	}
}

// Caption returns the name of a sheet and the line under it: the view, the brief, and what the plan reads as.
func Caption(r request.Request, p layout.Plan, seen string) draft.Caption {
	c := draft.Caption{Heading: p.Profile.Title, Sub: seen + ", typical figures"}
	switch words := p.Summary(); {
	case words != "" && p.Varied:
		c.Sub = words + ", varied"
	case words != "":
		c.Sub = words + "; " + p.ReadsAs(segments.All()).Short
	case p.Varied:
		c.Sub = seen + ", varied inside the segment's ranges"
	}
	if r.Setting.Title != "" {
		c.Heading, c.Sub = r.Setting.Title, p.Profile.Title+", "+c.Sub
	}
	return c
}

// TraceTitle writes the title block of a trace sheet, one line alike on every view: what it is, how large, and a remark.
func (o Page) TraceTitle(r request.Request, size draft.Fact, remark string) {
	title := draft.Caption{Heading: Caption(r, o.Plan, "").Heading, Sub: "trace", Remark: remark}
	if words := o.Plan.Summary(); words != "" {
		title.Heading += ", " + words
	}
	o.TitleLine(o.Fixed, title, size.Name+" "+size.Value, "facing "+string(r.Setting.Facing))
}

// Pages are the sheets of a plan with the wheel at a size on paper.
type Pages struct {
	request.Request
	Plan  layout.Plan
	Wheel geom.MM
}

// Each draws a page for each kind of the request that every plan has a page of.
func (p Pages) Each(c draft.Canvas, number func(i int) string, draw func(Page) (render.Page, error)) ([]render.Page, error) {
	var out []render.Page
	kinds := p.Request.Each()
	for i, kind := range kinds {
		o := Page{Canvas: c, Plan: p.Plan, Kind: kind, Step: i - slices.Index(kinds, kind), Wheel: p.Wheel, Number: number(i)}
		if o.Fixed = c.FixedSurface(p.Ink(kind)); kind == request.Demonstration {
			o.Canvas = c.Projected()
			o.Fixed = draft.NewSurface(o.Space, draft.InksOf(p.Ink(kind))) // nothing is lined up: no centring marks
		}
		page, err := draw(o)
		if err != nil {
			return nil, err
		}
		out = append(out, page)
	}
	return out, nil
}
