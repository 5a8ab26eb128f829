package draft_test

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/render/draft"
)

// Two labels of 4 mm that want to stand 2 mm apart give way by the same amount.
func ExampleLane_Centres() {
	lane := draft.Lane{Lo: 0, Hi: 50, Gap: 1}
	for _, centre := range lane.Centres([]geom.MM{10, 12}, []geom.MM{4, 4}) {
		fmt.Println(draft.FormatMM(centre))
	}
	// Output:
	// 8.5 mm
	// 13.5 mm
}
