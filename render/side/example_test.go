package side_test

import (
	"fmt"

	"hubrule/layout"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/side"
	"hubrule/segments"
)

func ExampleSheets_Draw() {
	suv, _ := segments.Find("suv")
	a3, _ := request.FindPaper("A3")
	setting := request.Setting{Paper: a3, Facing: request.Left, Units: request.Wheels}
	sheets := side.Sheets{
		Request: request.Request{Kinds: []request.Kind{request.Trace}, Setting: setting},
		Plan:    layout.Typical(suv),
	}
	pages, err := sheets.Draw(draft.NewCanvas(setting), 40, func(int) string { return "" })
	fmt.Println(pages[0].Title, err)
	// Output: Sport utility, trace <nil>
}
