package view_test

import (
	"fmt"

	"hubrule/layout"
	"hubrule/layout/view"
	"hubrule/segments"
)

func Example() {
	profile, err := segments.Find("suv")
	if err != nil {
		fmt.Println(err)
		return
	}
	plan := layout.Typical(profile)
	solid := view.NewSolid(plan)
	spec, _ := view.FindPreset("front-quarter")
	camera, err := spec.Camera(plan)
	if err != nil {
		fmt.Println(err)
		return
	}
	metres := plan.OnVehicle(camera.Spec.Distance) / 1000
	fmt.Printf("%s, %.1f m away\n", camera.Spec.Title, float64(metres))
	wheels := solid.Wheels()
	for _, w := range wheels[:2] { // the near side
		seen, err := camera.WheelImage(w)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: an ellipse of %.0f°\n", w.Name, float64(seen.Outer.Degrees()))
	}
	// Output:
	// front three-quarter, eye level, 8.4 m away
	// front-left: an ellipse of 55°
	// rear-left: an ellipse of 41°
}
