package compare

import (
	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout"
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
