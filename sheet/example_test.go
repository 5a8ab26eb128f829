package sheet_test

import (
	"fmt"

	"hubrule/layout"
	"hubrule/segments"
	"hubrule/sheet"
)

func ExampleCompose() {
	suv, _ := segments.Find("suv")
	a3, _ := sheet.FindPaper("A3")
	doc, _, err := sheet.Compose(sheet.Request{
		Plans: []layout.Plan{layout.Typical(suv)},
		Kinds: []sheet.Kind{sheet.Full, sheet.Trace},
		Setting: sheet.Setting{
			Paper: a3, Facing: sheet.Left, Labels: sheet.FullLabels, Units: sheet.Wheels,
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
