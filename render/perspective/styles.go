package perspective

import "hubrule/render/draft"

// The line styles that only perspectives have.
func gridLine() draft.LineStyle    { return draft.LineStyle{Width: draft.Hair, Role: draft.Soft} }
func sectionLine() draft.LineStyle { return draft.LineStyle{Width: draft.Hair, Role: draft.Soft} }
func boxLine() draft.LineStyle     { return draft.LineStyle{Width: draft.Hair, Role: draft.Plain} }
func innerLine() draft.LineStyle   { return draft.LineStyle{Width: draft.Narrow, Role: draft.Strong} }

func horizonLine() draft.LineStyle {
	return dashed(draft.LineStyle{Width: draft.Narrow, Role: draft.Muted}, 24, 3, 2, 3)
}
func behindLine() draft.LineStyle { return dashed(boxLine(), 9, 7) }
func centreLine() draft.LineStyle {
	return dashed(draft.LineStyle{Width: draft.Narrow, Role: draft.Soft}, 24, 3, 2, 3)
}
func hiddenPillarLine() draft.LineStyle {
	return dashed(draft.LineStyle{Width: draft.Narrow, Role: draft.Accent}, 6, 4)
}
func farTyreLine() draft.LineStyle { return dashed(innerLine(), 10, 8) }
func hiddenLine() draft.LineStyle {
	return dashed(draft.LineStyle{Width: draft.Hair, Role: draft.Strong}, 10, 8)
}

func dashed(k draft.LineStyle, dash ...float64) draft.LineStyle {
	k.Dash = dash
	return k
}
