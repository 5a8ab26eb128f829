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
			end := draft.Pt(at.X-long, at.Y)
			b := l.MiddleAt(end.X-1, at.Y, render.End).Box()
			if d.Space.Contains(b) && d.Free(b, 1.2) && d.ClearsLabels(draft.Segment{A: at, B: end}) {
				d.Leader(at, end)
				d.Write("labels", l.MiddleAt(end.X-1, at.Y, render.End))
				return true
			}
		}
	}
	return false
}
