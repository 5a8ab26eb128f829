package pdf_test

import (
	"bytes"
	"fmt"

	"hubrule/render"
	"hubrule/render/pdf"
)

// A PDF of many pages is written page by page.
func ExampleNew() {
	var file bytes.Buffer
	out := pdf.New(&file, "Five sheets", render.About{})
	for i := range 5 {
		if err := out.AddPage(render.Page{Width: 420, Height: 297, Title: fmt.Sprint("Sheet ", i+1)}); err != nil {
			fmt.Println(err)
		}
	}
	if err := out.Close(); err != nil {
		fmt.Println(err)
	}
	fmt.Println(bytes.Count(file.Bytes(), []byte("/Type/Page/")), "pages")
	// Output: 5 pages
}
