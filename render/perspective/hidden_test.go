package perspective

import (
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/testsheet"
	"hubrule/layout/view"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// What the body hides of the far A-pillar, and the far wheel behind the doors, are drawn only where they are asked for.
func TestHiddenPartsOnDemand(t *testing.T) {
	t.Parallel()
	for camera, ids := range map[string][]string{"rear-quarter": {"pillar-right", "wheel-front-right"}, "front-quarter": {"wheel-rear-right"}} {
		spec, _ := view.FindPreset(camera)
		s, err := newProjection(testsheet.Plan(t, "sedan"), spec)
		if err != nil {
			t.Fatal(err)
		}
		dashed := func(guides []request.Guide) map[string]bool {
			set := testsheet.Setting(t, "A3")
			set.Guides = guides
			d := testDrawing(s)
			d.full(set)
			out := map[string]bool{}
			for _, m := range d.Marks {
				switch m := m.(type) {
				case *render.Stroke:
					out[m.ID] = out[m.ID] || m.Pen.Dash != nil
				case *render.Ellipse:
					out[m.ID] = out[m.ID] || m.Pen.Dash != nil
				}
			}
			return out
		}
		unasked, asked := dashed(nil), dashed([]request.Guide{"outline", "pillar", "wheels"})
		for _, id := range ids {
			if unasked[id] || !asked[id] {
				t.Errorf("%s: hidden parts of %s: %v unasked, %v asked for", camera, id, unasked[id], asked[id])
			}
		}
	}
}

// testDrawing is a drawing with a near wheel of 60 mm.
func testDrawing(s *projection) *drawing {
	d := newDrawing(draft.NewSurface(draft.Box{Min: draft.Pt(-500, -500), Max: draft.Pt(500, 500)}, draft.InksOf(request.Dark)), s, request.Wheels, 1)
	d.mapping = mapping{focal: 60 / geom.MM(s.nearHeight())}
	return d
}
