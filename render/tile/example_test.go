package tile_test

import (
	"fmt"

	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/tile"
)

func ExampleGrid_Whole() {
	paper, _ := request.FindPaper("A4")
	whole := tile.Grid{Paper: paper, Columns: 2, Rows: 2}.Whole()
	fmt.Println(draft.FormatMM(whole.Width), draft.FormatMM(whole.Height))
	fmt.Println(tile.Tile{Column: 1, Row: 0}.Name())
	// Output:
	// 544 mm 336 mm
	// A2
}
