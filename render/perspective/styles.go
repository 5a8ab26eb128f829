package perspective

import (
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

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

// legendEntries lists the kinds of line of a perspective.
func legendEntries() []draft.LegendEntry {
	type guides = []request.Guide
	return append(counting.LegendEntries(), []draft.LegendEntry{
		{Name: "horizon", Style: horizonLine(), Guides: guides{"horizon"}},
		{Name: "ground in wheels", Style: gridLine(), Guides: guides{"grid"}},
		{Name: "enclosing box", Style: boxLine(), Guides: guides{"box"}},
		{Name: "hidden edge of the box", Style: behindLine(), Guides: guides{"box"}},
		{Name: "section", Style: sectionLine(), Guides: guides{"sections"}},
		{Name: "centre line", Style: centreLine(), Guides: guides{"sections"}},
		{Name: "inner edge of a tyre", Style: innerLine(), Guides: guides{"wheels"}},
		{Name: "hidden tyre", Style: hiddenLine(), Guides: guides{"wheels"}},
		{Name: "far tyre", Style: farTyreLine(), Guides: guides{"wheels"}},
		{Name: "axis of an ellipse", Style: counting.RimLine(), Guides: guides{"axis"}},
		{Name: "hidden A-pillar", Style: hiddenPillarLine(), Guides: guides{"pillar"}},
	}...)
}
