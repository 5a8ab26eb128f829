package render_test

import (
	"fmt"

	"hubrule/render"
)

// A page is plain data; Check says what keeps it from being written.
func ExamplePage_Check() {
	pen := render.Pen{Width: 0.5, Ink: render.Colour{R: 0x1f, G: 0x25, B: 0x2b}}
	page := render.Page{
		Width: 148, Height: 105, Title: "One wheel",
		Guides: []render.Guide{{Name: "wheels", Title: "Wheels"}},
		Marks:  []render.Mark{&render.Circle{Tagged: render.Tagged{Guide: "wheels", ID: "wheel-front"}, Pen: pen, Centre: render.Point{X: 60, Y: 57}, R: 23}},
	}
	fmt.Println(page.Check())
	page.Guides = nil
	fmt.Println(page.Check())
	// Output:
	// <nil>
	// page "One wheel": mark 1 "wheel-front": layer "wheels" is not among the page's
}
