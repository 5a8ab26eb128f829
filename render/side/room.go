package side

import (
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// Room returns what the sheet of the request's only kind needs on a canvas with its words in their first layout: a full sheet or a trace.
func (s Sheets) Room(c draft.Canvas) counting.Room {
	d := s.unplaced()
	if !s.Has(request.Full) {
		return d.roomForTrace()
	}
	d.Labels = counting.LabelLayouts(s.Request, isUpright(c))[0]
	d.Tiled = d.Labels.ValuesOnly
	return d.roomOf(s.Setting.Labels, c.Space)
}
