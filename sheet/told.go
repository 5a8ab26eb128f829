package sheet

import (
	"fmt"
	jobs "hubrule/internal/job"

	"hubrule/internal/geom"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// tooFine warns of a trace sheet whose wheel is too small to draw over.
func (job driver) tooFine(name string, wheel geom.MM) []string {
	if !job.Has(request.Trace) || wheel >= leastTraceWheel {
		return nil
	}
	return []string{fmt.Sprintf("%s: the wheel is %s on the trace sheet; under %s a hand has little to follow", name, draft.OnPaper(wheel), draft.OnPaper(leastTraceWheel))}
}

// orTiles is the part of a message that names tiles as another way out, where they are one.
func (job driver) orTiles() string {
	if job.Handout { // a class prints pages, not tiles
		return ""
	}
	job.Setting.Tile, job.Setting.Scale = true, request.Scale{Reduction: 1}
	if jobs.Check(job.Request) != nil {
		return ""
	}
	return ", or --tile"
}
