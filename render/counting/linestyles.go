package counting

import (
	"hubrule/layout/view"
	"hubrule/render/draft"
)

// The styles of line that guides have.
func GroundLine() draft.LineStyle    { return draft.NewLineStyle(draft.Wide, draft.Strong) }
func TyreLine() draft.LineStyle      { return draft.NewLineStyle(draft.Wide, draft.Strong) }
func RimLine() draft.LineStyle       { return draft.NewLineStyle(draft.Hair, draft.Plain) }
func CountedLine() draft.LineStyle   { return draft.NewLineStyle(draft.Narrow, draft.Plain, 12, 3) }
func SpareLine() draft.LineStyle     { return draft.NewLineStyle(draft.Narrow, draft.Plain, 1.2, 3) }
func AxleLine() draft.LineStyle      { return draft.NewLineStyle(draft.Narrow, draft.Muted, 24, 3, 2, 3) }
func RoofLine() draft.LineStyle      { return draft.NewLineStyle(draft.Narrow, draft.Plain, 24, 3) }
func SillLine() draft.LineStyle      { return draft.NewLineStyle(draft.Narrow, draft.Plain, 6, 3) }
func ClearanceLine() draft.LineStyle { return draft.NewLineStyle(draft.Narrow, draft.Plain, 2, 2) }
func GlassLine() draft.LineStyle     { return draft.NewLineStyle(draft.Narrow, draft.Plain, 24, 3, 6, 3) }
func AngleLine() draft.LineStyle     { return draft.NewLineStyle(draft.Narrow, draft.Accent, 16, 4) }
func GuideLine() draft.LineStyle     { return draft.NewLineStyle(draft.Narrow, draft.Plain) } // belt, arches, lamps, nose, tail
func PillarLine() draft.LineStyle    { return draft.NewLineStyle(draft.Wide, draft.Accent) }
func AimLine() draft.LineStyle {
	return draft.NewLineStyle(draft.Narrow, draft.Accent, 24, 3, 2, 3, 2, 3)
}
func bandLine() draft.LineStyle    { return draft.NewLineStyle(draft.Hair, draft.Accent) }
func RingLine() draft.LineStyle    { return draft.NewLineStyle(draft.Narrow, draft.Accent) }
func OutlineLine() draft.LineStyle { return draft.NewLineStyle(draft.Narrow, draft.Soft) }
func DetailLine() draft.LineStyle  { return draft.NewLineStyle(draft.Hair, draft.Soft) }
func dashedLine() draft.LineStyle  { return draft.NewLineStyle(draft.Hair, draft.Soft, 12, 6) }
func levelLine() draft.LineStyle   { return draft.NewLineStyle(draft.Hair, draft.Plain) }
func contourLine() draft.LineStyle { return draft.NewLineStyle(.35, draft.Soft) }

// BodyStyle returns the style of a line of the vehicle. In flat views the contour is one edge among others.
func BodyStyle(kind view.LineKind) draft.LineStyle {
	switch kind {
	case view.ContourLine:
		return contourLine()
	case view.DetailLine:
		return DetailLine()
	}
	return OutlineLine()
}
