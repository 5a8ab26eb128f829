package sheet

import "hubrule/render/draft"

// The styles of line that guides have.
func groundLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Wide, Dash: nil, Role: draft.Strong}
}
func tyreLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Wide, Dash: nil, Role: draft.Strong}
}
func rimLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: nil, Role: draft.Plain}
}
func countedLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{12, 3}, Role: draft.Plain}
}
func spareLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{1.2, 3}, Role: draft.Plain}
}
func axleLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{24, 3, 2, 3}, Role: draft.Muted}
}
func roofLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{24, 3}, Role: draft.Plain}
}
func sillLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{6, 3}, Role: draft.Plain}
}
func clearanceLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{2, 2}, Role: draft.Plain}
}
func glassLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{24, 3, 6, 3}, Role: draft.Plain}
}
func angleLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{16, 4}, Role: draft.Accent}
}
func guideLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: nil, Role: draft.Plain}
} // belt, arches, lamps, nose, tail
func pillarLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Wide, Dash: nil, Role: draft.Accent}
}
func aimLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{24, 3, 2, 3, 2, 3}, Role: draft.Accent}
}
func bandLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: nil, Role: draft.Accent}
}
func ringLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: nil, Role: draft.Accent}
}
func outlineLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: nil, Role: draft.Soft}
}
func detailLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: nil, Role: draft.Soft}
}
func dashedLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: []float64{12, 6}, Role: draft.Soft}
}
func levelLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: nil, Role: draft.Plain}
}
