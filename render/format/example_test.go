package format_test

import (
	"fmt"

	"hubrule/render"
	"hubrule/render/format"
	"hubrule/render/png"
)

// Two pages in every format: one file, or one a page.
func Example() {
	page := render.Page{Width: 148, Height: 105}
	for _, f := range format.All() {
		files, err := f.Files(render.Document{Pages: []render.Page{page, page}}, format.Options{Options: png.Options{DPI: 100}})
		fmt.Println(f.Name, len(files), err)
	}
	// Output:
	// svg 2 <nil>
	// pdf 1 <nil>
	// png 2 <nil>
}
