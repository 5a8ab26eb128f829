package counting_test

import (
	"fmt"

	"hubrule/layout"
	"hubrule/render/counting"
	"hubrule/render/draft"
)

// A wheel of 50 mm stands on the ground, which lies 200 mm below the top of the page.
func ExamplePlace() {
	place := counting.Place{Origin: draft.Pt(100, 200), Wheel: 50}
	top := place.OnPage(layout.Point{X: 2, Y: 1})
	fmt.Println(draft.FormatMM(top.X), draft.FormatMM(top.Y))
	// Output: 200 mm 150 mm
}
