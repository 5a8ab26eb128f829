package outline_test

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/layout/outline"
	"hubrule/segments"
)

func Example() {
	profile, err := segments.Find("suv")
	if err != nil {
		fmt.Println(err)
		return
	}
	drawn := outline.Of(layout.Typical(profile))
	for _, line := range drawn.Lines {
		if line.Kind != outline.Hairline {
			fmt.Println(line.Name)
		}
	}
	box := geom.BoundsOf(drawn.Upper)
	fmt.Printf("from %.2f to %.2f, %.2f high\n", box.Min.X, box.Max.X, box.Max.Y)
	// Output:
	// body
	// screen
	// glass
	// lamp-front
	// lamp-rear
	// from -1.05 to 5.22, 2.35 high
}
