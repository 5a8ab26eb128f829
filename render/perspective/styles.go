package perspective

import "hubrule/render/draft"

// The line styles that only perspectives have.
func gridLine() draft.LineStyle         { return draft.NewLineStyle(draft.Hair, draft.Soft) }
func sectionLine() draft.LineStyle      { return draft.NewLineStyle(draft.Hair, draft.Soft) }
func boxLine() draft.LineStyle          { return draft.NewLineStyle(draft.Hair, draft.Plain) }
func behindLine() draft.LineStyle       { return draft.NewLineStyle(draft.Hair, draft.Plain, 9, 7) }
func horizonLine() draft.LineStyle      { return draft.NewLineStyle(draft.Narrow, draft.Muted, 24, 3, 2, 3) }
func centreLine() draft.LineStyle       { return draft.NewLineStyle(draft.Narrow, draft.Soft, 24, 3, 2, 3) }
func hiddenPillarLine() draft.LineStyle { return draft.NewLineStyle(draft.Narrow, draft.Accent, 6, 4) }
func innerLine() draft.LineStyle        { return draft.NewLineStyle(draft.Narrow, draft.Strong) }
func farTyreLine() draft.LineStyle      { return draft.NewLineStyle(draft.Narrow, draft.Strong, 10, 8) }
func hiddenLine() draft.LineStyle       { return draft.NewLineStyle(draft.Hair, draft.Strong, 10, 8) }
