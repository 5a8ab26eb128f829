package compare

import (
	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// For the tests of package compare_test, which compose whole sheets.
var (
	FigureName   = figureName
	FigureValue  = figureValue
	FormatFigure = formatFigure
	PlanID       = planID
	NotCompared  = notCompared
)

// Changes returns the rows of the table of plans with a wheel on paper.
func Changes(plans []layout.Plan, wheel geom.MM) [][]draft.Word {
	c := comparison{plans, make([]string, len(plans)), request.Wheels, slice.Map(plans, func(layout.Plan) geom.MM { return wheel })}
	return slice.Map(c.changes(), func(ch change) []draft.Word { return ch.row })
}

// ScaleMarks returns where the scale of a row of a spread is marked, in mm from the left: the row whose range lies at some height.
func ScaleMarks(page render.Page, rangeAt float64) []geom.MM {
	var out []geom.MM
	lowest := geom.MM(rangeAt) + widePitch
	foot := lowest
	for _, pass := range []bool{true, false} { // the next marks below the range
		for _, m := range page.Marks {
			l, ok := m.(*render.Stroke)
			if !ok || len(l.Path) != 2 {
				continue
			}
			a, b := l.Path[0].To, l.Path[1].To
			if tall := a.Y - b.Y; a.X != b.X || tall < .899 || tall > .901 || a.Y <= geom.MM(rangeAt) || a.Y > lowest {
				continue
			}
			if pass {
				foot = min(foot, a.Y)
			} else if a.Y == foot {
				out = append(out, a.X)
			}
		}
	}
	return out
}
