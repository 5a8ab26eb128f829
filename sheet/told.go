package sheet

import (
	"fmt"

	"hubrule/internal/geom"
)

// Told is what the user should know of the sheets of a job besides what stands on them, in sentences without a full stop.
type Told struct{ Warnings, Notes []string }

// tooFine warns of a trace sheet whose wheel is too small to draw over.
func (job Job) tooFine(name string, wheel geom.MM) []string {
	if !job.has(Trace) || wheel >= leastTraceWheel {
		return nil
	}
	return []string{fmt.Sprintf("%s: the wheel is %s on the trace sheet; under %s a hand has little to follow", name, onPaper(wheel), onPaper(leastTraceWheel))}
}

// orTiles is the part of a message that names tiles as another way out, where they are one.
func (job Job) orTiles() string {
	if job.handout { // a class prints pages, not tiles
		return ""
	}
	job.Setting.Tile, job.Setting.Scale = true, Scale{Reduction: 1}
	if job.checkTile() != nil {
		return ""
	}
	return ", or --tile"
}
