package counting

import (
	"hubrule/layout/view"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// LegendEntries lists the kinds of line of vehicle and guides, in the order in which a legend explains them.
func LegendEntries() []draft.LegendEntry {
	type guides = []request.Guide
	counted := guides{"between", "stack", "overhangs"}
	return []draft.LegendEntry{
		{Name: "ground line", Style: GroundLine(), Guides: guides{"ground"}},
		{Name: "tyre", Style: TyreLine(), Guides: guides{"wheels"}},
		{Name: "counted wheel", Style: CountedLine(), Guides: counted},
		{Name: "unused part of a wheel", Style: SpareLine(), Guides: counted},
		{Name: "axle line", Style: AxleLine(), Guides: guides{"wheels", "axles"}, Prefix: "axle"},
		{Name: "centre line", Style: AxleLine(), Guides: guides{"wheels", "outline"}, Prefix: "centre-line"},
		{Name: "roof level", Style: RoofLine(), Guides: guides{"roof"}},
		{Name: "sill", Style: SillLine(), Guides: guides{"sill"}},
		{Name: "clearance", Style: ClearanceLine(), Guides: guides{"clearance"}},
		{Name: "end of the side glass", Style: GlassLine(), Guides: guides{"glass"}},
		{Name: "construction line", Style: GuideLine(), Guides: guides{"belt", "overhangs", "arches", "lamps"}},
		{Name: "extended belt line", Style: levelLine(), Guides: guides{"belt"}},
		{Name: "A-pillar", Style: PillarLine(), Guides: guides{"pillar"}},
		{Name: "aim of the A-pillar", Style: AimLine(), Guides: guides{"pillar"}},
		{Name: "range of the aim", Style: bandLine(), Guides: guides{"pillar"}},
		{Name: "ground angle", Style: AngleLine(), Guides: guides{"checks"}},
		{Name: "body outline", Style: BodyLine(), Guides: guides{"outline"}},
		{Name: "contour", Style: BodyStyle(view.ContourLine), Guides: guides{"outline"}},
		{Name: "edge of the body", Style: OutlineLine(), Guides: guides{"outline"}},
		{Name: "detail of the body", Style: DetailLine(), Guides: guides{"outline"}},
		{Name: "raised roof", Style: raisedLine(), Guides: guides{"outline"}},
		{Name: "rule or bracket", Style: draft.RuleLine(), Guides: guides{"ticks", "ratio"}},
		{Name: "dimension line", Style: draft.TickLine(), Guides: guides{"labels", "widths"}},
		{Name: "leader", Style: draft.LeaderLine(), Guides: guides{"labels"}},
	}
}

// Legend explains the kinds of line of the drawing anywhere over the title block, also where other sheets have their blanks. The error says
// that no place is free.
func (d *Drawing) Legend(c draft.Canvas, entries []draft.LegendEntry, others ...*draft.Surface) error {
	if !d.Surface.Legend(c.OverTitleBlock(), entries, others...) {
		return NoRoom("the legend")
	}
	return nil
}
