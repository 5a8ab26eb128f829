package png_test

import (
	"bytes"
	"fmt"
	decoder "image/png"

	"hubrule/render"
	"hubrule/render/png"
)

// An A6 sheet at 100 dots an inch.
func ExampleWrite() {
	var b bytes.Buffer
	if err := png.Write(&b, render.Page{Width: 148, Height: 105}, png.Options{DPI: 100}); err != nil {
		fmt.Println(err)
	}
	size, err := decoder.DecodeConfig(&b)
	fmt.Println(size.Width, "x", size.Height, err)
	// Output: 583 x 413 <nil>
}
