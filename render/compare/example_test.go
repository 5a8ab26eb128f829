package compare_test

import (
	"fmt"

	"hubrule/layout"
	"hubrule/render/compare"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

func ExampleOverlay() {
	suv, _ := segments.Find("suv")
	van, _ := segments.Find("van")
	a3, _ := request.FindPaper("A3")
	r := request.Request{Kinds: []request.Kind{request.Overlay}, Setting: request.Setting{
		Paper: a3, Facing: request.Left, Labels: request.FullLabels, Units: request.Wheels,
	}}
	overlay := compare.Overlay{Request: r, Plans: []layout.Plan{layout.Typical(suv), layout.Typical(van)}}
	canvas := draft.NewCanvas(r.Setting)
	pages, err := overlay.Draw(canvas, canvas.FloorEven(overlay.Largest(canvas))/2, func(int) string { return "" })
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(pages[0].Title)
	// Output: Sport utility, Van, overlay
}
