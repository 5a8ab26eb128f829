package perspective_test

import (
	"fmt"

	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/render/draft"
	"hubrule/render/perspective"
	"hubrule/render/request"
	"hubrule/segments"
)

func ExampleSheets() {
	suv, _ := segments.Find("suv")
	camera, _ := view.FindPreset("front-quarter")
	a3, _ := request.FindPaper("A3")
	r := request.Request{Kinds: []request.Kind{request.Full}, Setting: request.Setting{
		Paper: a3, Facing: request.Left, Labels: request.FullLabels, Units: request.Wheels, Camera: request.Camera{Spec: camera},
	}}
	sheets := perspective.Sheets{Request: r, Plan: layout.Typical(suv)}
	canvas := draft.NewCanvas(r.Setting)
	pages, err := sheets.Draw(canvas, 0, func(int) string { return "" })
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(pages[0].Title)
	// Output: Sport utility, full, perspective
}
