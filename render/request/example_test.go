package request_test

import (
	"fmt"

	"hubrule/render/request"
)

func ExampleFindPaper() {
	p, ok := request.FindPaper("a4")
	fmt.Println(p.Name, p.Width, p.Height, ok)
	// Output: A4 297 210 true
}
