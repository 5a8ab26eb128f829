package compare

import (
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// Miniature returns a picture of a plan alone, without words and as large as it is: what a choice of vehicles shows. Wheel is the size of a
// wheel, in mm.
func Miniature(p layout.Plan, wheel geom.MM) render.Page {
	const above geom.Wheels = .1
	width, height := geom.MM(p.Length()+2*thumbRoad)*wheel, geom.MM(p.Height()+2*above)*wheel
	setting := request.Setting{Paper: request.Paper{Width: width, Height: height}, Labels: request.NoLabels, Ink: request.Dark,
		Guides: []request.Guide{"outline", "arches", "wheels", "ground"}}
	c := draft.NewCanvas(setting)
	c.Space, c.Enlargement = draft.Box{Max: draft.Pt(width, height)}, 1
	o := thumbPage{
		Request: request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Thumbnails}, Setting: setting},
		canvas:  c, figure: &draft.Surface{Space: c.Space}, fixed: &draft.Surface{},
		grid: thumbGrid{across: 1, wheel: wheel, cell: draft.Pt(width, height-geom.MM(above)*wheel+thumbWords)},
	}
	o.thumbnail(0)
	return c.Finish(p.Profile.Title, o.figure, o.fixed, request.Left)
}
