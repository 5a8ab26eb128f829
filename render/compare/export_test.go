package compare

// For the tests of package compare_test, which compose whole sheets.
var (
	FigureName   = figureName
	FigureValue  = figureValue
	FormatFigure = formatFigure
	PlanID       = planID
	NotCompared  = notCompared
)
