package perspective

import "hubrule/render/draft"

// The styles of line that only perspectives have.
func gridLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: nil, Role: draft.Soft}
}
func horizonLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{24, 3, 2, 3}, Role: draft.Muted}
}
func boxLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: nil, Role: draft.Plain}
}
func behindLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: []float64{9, 7}, Role: draft.Plain}
}
func sectionLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: nil, Role: draft.Soft}
}
func centreLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{24, 3, 2, 3}, Role: draft.Soft}
}
func hiddenPillarLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{6, 4}, Role: draft.Accent}
}
func innerLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: nil, Role: draft.Strong}
}
func spareEdge() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{10, 8}, Role: draft.Strong}
}
func hiddenLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: []float64{10, 8}, Role: draft.Strong}
}
