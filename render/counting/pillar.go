package counting

import (
	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
)

// LabelWithNote is a line of words and, where notes are written, a note under it.
func (d *Drawing) LabelWithNote(line []draft.Word, remark string) draft.Label {
	if !d.Labels.Notes {
		return draft.NewLabel(line)
	}
	return draft.NewLabel(line, []draft.Word{draft.Note(remark)})
}

// PillarCallout writes the A-pillar's words at the end of a level arm forwards, into the empty corner over the bonnet.
func (d *Drawing) PillarCallout(l draft.Label) bool {
	foot, head := d.OnPage(d.Plan.PillarFoot()), d.OnPage(d.Plan.PillarHead())
	for _, share := range []float64{.8, .7, .9, .6, .5, .4, .3, .2} {
		at := foot.Lerp(head, share)
		for long := geom.MM(5); long < 60; long++ {
			if d.PlaceLabel(l.MiddleAt(at.X-long-1, at.Y, render.End), 1.2, at, draft.Pt(at.X-long, at.Y)) {
				return true
			}
		}
	}
	return false
}
