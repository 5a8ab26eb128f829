package draft

import (
	"fmt"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/request"
)

// Whatever the paper's width and the words, the title block says how large the wheel is on paper and in what unit lengths are, once each.
func TestTitleBlockKeepsWheelAndUnit(t *testing.T) {
	for width := geom.MM(request.LeastWidth); width < 440; width += 3 {
		for i, title := range []Caption{
			{Heading: "Suv", Sub: "view from above, typical figures"},
			{Heading: "Large sedan", Sub: "sporty 0.8, height 1450 mm, wheelbase 2690 mm, length 4450 mm, greenhouse 380 mm; reads as hatchback"},
			{Heading: "Van", Sub: "side view, typical figures", Remark: "angles are an aid to sketching, never an approval"},
		} {
			for _, unit := range []string{"wheels", "millimetres"} {
				c := NewCanvas(request.Setting{Paper: request.Paper{Name: "own", Width: width, Height: 200}})
				b := c.FixedSurface(request.Dark)
				before := len(b.Marks)
				c.TitleBlock(b, title, [][]Fact{{{"wheel on paper", "26 mm"}, {"scale", "1 : 24.3"}}, {{"tyre", "205/55R16"}, {"wheel", "632 mm"}},
					{{"length", "4450 mm"}}, {{Unit, unit}, {"counts in", "wheels"}}}, "sheet 1 of 1")
				var words []string
				for _, m := range b.Marks[before:] {
					if text, ok := m.(*render.Text); ok {
						line := ""
						for _, s := range text.Spans {
							line += s.Text
						}
						words = append(words, line)
					}
				}
				all := strings.Join(words, "\n")
				for _, want := range []string{"wheel on paper 26 mm", Unit + " " + unit} {
					if strings.Count(all, want) != 1 {
						t.Errorf("%.0f mm, title %d: %q stands %d times in %s", float64(width), i, want, strings.Count(all, want), fmt.Sprintf("%q", words))
					}
				}
			}
		}
	}
}
