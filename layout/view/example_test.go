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
	solid := view.Of(plan)
	stand, _ := view.FindStand("front-quarter")
	camera, err := stand.Camera(plan)
	if err != nil {
		fmt.Println(err)
		return
	}
	metres := plan.OnVehicle(camera.Stand.Distance) / 1000
	fmt.Printf("%s, %.1f m away\n", camera.Stand.Title, float64(metres))
	for _, w := range solid.Wheels() {
		seen, err := camera.Rolling(w)
		if err != nil {
			fmt.Println(err)
			return
		}
		if seen.Near {
			fmt.Printf("%s: an ellipse of %.0f°\n", w.Name, float64(seen.Outer.Degrees()))
		}
	}
	// Output:
	// front three-quarter, eye level, 8.4 m away
	// front-left: an ellipse of 55°
	// rear-left: an ellipse of 41°
}
