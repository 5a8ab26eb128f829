package sheet_test

import (
	"fmt"

	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/render/sheet"
	"hubrule/segments"
)

func ExampleCompose() {
	suv, _ := segments.Find("suv")
	a3, _ := request.FindPaper("A3")
	doc, _, err := sheet.Compose(request.Request{
		Plans: []layout.Plan{layout.Typical(suv)},
		Kinds: []request.Kind{request.Full, request.Trace},
		Setting: request.Setting{
			Paper: a3, Facing: request.Left, Labels: request.FullLabels, Units: request.Wheels,
		},
	})
	fmt.Println(err)
	for _, p := range doc.Pages {
		fmt.Printf("%s, %g x %g mm\n", p.Title, p.Width, p.Height)
	}
	// Output:
	// <nil>
	// Sport utility, full, 420 x 297 mm
	// Sport utility, trace, 420 x 297 mm
}
