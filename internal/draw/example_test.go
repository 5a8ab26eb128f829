package draw_test

import (
	"context"
	"fmt"
	"strings"

	"hubrule/internal/draw"
	"hubrule/internal/job"
	"hubrule/render/format"
	"hubrule/render/request"
)

func ExampleRender() {
	briefs, err := job.LoadBriefs(nil, []string{"suv"}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	j := job.Default()
	j.Kinds = []request.Kind{request.Full, request.Trace}
	if _, err := draw.Solve(&j, job.Overrides{}, briefs); err != nil {
		fmt.Println(err)
		return
	}
	doc, _, err := draw.Compose(context.Background(), j.Request, draw.MostPages)
	if err != nil {
		fmt.Println(err)
		return
	}
	svg, _ := format.Find("svg")
	files, sizes, err := draw.Render(doc, doc.Each(), svg, j)
	fmt.Println(len(files), "files of", sizes[0].Width, "by", sizes[0].Height, err)
	fmt.Print(strings.SplitAfter(draw.Saved(j, "."), "\n")[1])
	// Output:
	// 2 files of 420 by 297 <nil>
	// segment: suv
}
