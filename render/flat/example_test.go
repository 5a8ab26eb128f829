package flat_test

import (
	"fmt"

	"hubrule/layout"
	"hubrule/render/draft"
	"hubrule/render/flat"
	"hubrule/render/request"
	"hubrule/segments"
)

func ExampleSheets() {
	suv, _ := segments.Find("suv")
	a3, _ := request.FindPaper("A3")
	r := request.Request{Kinds: []request.Kind{request.Full}, Setting: request.Setting{
		Paper: a3, Facing: request.Left, Labels: request.FullLabels, Units: request.Wheels,
	}}
	sheets := flat.Sheets{Request: r, Vehicle: flat.NewVehicle(layout.Typical(suv)), Views: request.ViewSet{request.FrontView, request.RearView}}
	canvas := draft.NewCanvas(r.Setting)
	pages, err := sheets.Draw(canvas, canvas.FloorEven(sheets.Largest(canvas)), func(int) string { return "" })
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(pages[0].Title)
	// Output: Sport utility, front and rear view, full
}
