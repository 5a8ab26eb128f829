package sheet

import (
	"hubrule/render/draft"
	"testing"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/request"
)

// Whatever wheel is asked for, as long as it is no larger than the room that is told, every flat view is drawn, and nothing overlaps.
func TestFlatViewsFitUpToTheirRoom(t *testing.T) {
	t.Parallel()
	for i, name := range []string{"mid-engine", "pickup-large"} {
		p := plan(t, name)
		for k, views := range flatJobs() {
			s := setting(t, "A4")
			s.Views, s.Outline = views, request.Off
			job := request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Full}, Setting: s}
			room := driver{Request: job}.largestOf(request.ViewSet(views), draft.NewCanvas(s), p)
			for _, wheel := range append(onTurn(i+k, []geom.MM{leastWheel, (leastWheel + room) / 2}), room) {
				job.Setting.Scale = request.Scale{Wheel: wheel}
				doc, _, err := Compose(job)
				if err != nil {
					t.Errorf("%s %v, wheel %.2f of %.2f: %v", name, views, float64(wheel), float64(room), err)
					continue
				}
				for _, f := range faults(doc.Pages[0]) {
					t.Errorf("%s %v, wheel %.2f of %.2f: %s", name, views, float64(wheel), float64(room), f)
				}
			}
			job.Setting.Scale = request.Scale{Wheel: room + .01}
			if _, _, err := Compose(job); err == nil {
				t.Errorf("%s %v: a wheel of more than %.2f is drawn", name, views, float64(room))
			}
		}
	}
}
