package counting

import (
	"hubrule/layout/view"
	"hubrule/render/draft"
)

// The styles of line that guides have.
func GroundLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Wide, Dash: nil, Role: draft.Strong}
}
func TyreLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Wide, Dash: nil, Role: draft.Strong}
}
func RimLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: nil, Role: draft.Plain}
}
func CountedLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{12, 3}, Role: draft.Plain}
}
func SpareLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{1.2, 3}, Role: draft.Plain}
}
func AxleLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{24, 3, 2, 3}, Role: draft.Muted}
}
func RoofLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{24, 3}, Role: draft.Plain}
}
func SillLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{6, 3}, Role: draft.Plain}
}
func ClearanceLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{2, 2}, Role: draft.Plain}
}
func GlassLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{24, 3, 6, 3}, Role: draft.Plain}
}
func AngleLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{16, 4}, Role: draft.Accent}
}
func GuideLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: nil, Role: draft.Plain}
} // belt, arches, lamps, nose, tail
func PillarLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Wide, Dash: nil, Role: draft.Accent}
}
func AimLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: []float64{24, 3, 2, 3, 2, 3}, Role: draft.Accent}
}
func bandLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: nil, Role: draft.Accent}
}
func RingLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: nil, Role: draft.Accent}
}
func OutlineLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Narrow, Dash: nil, Role: draft.Soft}
}
func DetailLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: nil, Role: draft.Soft}
}
func dashedLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: []float64{12, 6}, Role: draft.Soft}
}
func levelLine() draft.LineStyle {
	return draft.LineStyle{Width: draft.Hair, Dash: nil, Role: draft.Plain}
}
func contourLine() draft.LineStyle { return draft.LineStyle{Width: .35, Dash: nil, Role: draft.Soft} }

// BodyStyle says how a line of the vehicle is drawn. In flat views the contour is one edge among others.
func BodyStyle(kind view.LineKind) draft.LineStyle {
	switch kind {
	case view.ContourLine:
		return contourLine()
	case view.DetailLine:
		return DetailLine()
	}
	return OutlineLine()
}
