package sheet

import (
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
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
		vehicle := flat.NewVehicle(p)
		for k, views := range flatJobs() {
			s := testsheet.Setting(t, "A4")
			s.Views, s.Outline = views, request.OutlineOff
			c := draft.NewCanvas(s)
			job := request.Request{Plans: []layout.Plan{p}, Kinds: []request.Kind{request.Full}, Setting: s}
			sheets := flat.Sheets{Request: job, Vehicle: vehicle, Views: views}
			draw := func(wheel geom.MM) ([]render.Page, error) { // wheel is on paper
				return sheets.Draw(c, wheel, func(int) string { return "sheet 1 of 1" })
			}
			room := geom.MM(float64(sheets.Largest(c)) * c.Enlargement)
			for _, wheel := range append(onTurn(i+k, []geom.MM{counting.LeastWheel, (counting.LeastWheel + room) / 2}), room) {
				pages, err := draw(wheel)
				if err != nil {
					t.Errorf("%s %v, wheel %.2f of %.2f: %v", name, views, float64(wheel), float64(room), err)
					continue
				}
				for _, f := range testsheet.Faults(pages[0]) {
					t.Errorf("%s %v, wheel %.2f of %.2f: %s", name, views, float64(wheel), float64(room), f)
				}
			}
			if _, err := draw(room + .01); err == nil {
				t.Errorf("%s %v: a wheel of more than %.2f is drawn", name, views, float64(room))
			}
		}
	}
}
