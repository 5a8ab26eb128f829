package sheet

import (
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/flat"
	"hubrule/render/request"
)

// Whatever wheel is asked for, as long as it is no larger than the room that is measured, every flat view is drawn, and nothing overlaps.
func TestFlatViewsFitUpToTheirRoom(t *testing.T) {
	t.Parallel()
	for i, name := range []string{"mid-engine", "pickup-large"} {
		p := testsheet.Plan(t, name)
		for k, views := range flatJobs() {
			s := testsheet.Setting(t, "A4")
			s.Views, s.Outline = views, request.OutlineOff
			job := request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Full}, Setting: s}
			c := draft.NewCanvas(s)
			room := geom.MM(float64(flat.Sheets{Request: job, Vehicle: flat.NewVehicle(p), Views: views}.Largest(c)) * c.Enlargement)
			for _, wheel := range append(onTurn(i+k, []geom.MM{counting.LeastWheel, (counting.LeastWheel + room) / 2}), room) {
				job.Setting.Scale = request.Scale{Wheel: wheel}
				doc, _, err := Compose(job)
				if err != nil {
					t.Errorf("%s %v, wheel %.2f of %.2f: %v", name, views, float64(wheel), float64(room), err)
					continue
				}
				for _, f := range testsheet.Faults(doc.Pages[0]) {
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
