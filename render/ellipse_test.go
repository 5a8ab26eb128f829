package render_test

import (
	"math"
	"testing"

	"hubrule/internal/geom"
	"hubrule/render"
)

// ellipses is a page with ellipses of many shapes, whole, in part and edge-on.
func ellipses() render.Page {
	ink := render.Colour{R: 0x1f, G: 0x25, B: 0x2b}
	pen := render.Pen{Width: .35, Ink: ink}
	page := render.Page{Width: 420, Height: 297, Title: "Ellipses", Guides: []render.Guide{{Name: "wheels", Title: "Wheels"}}}
	for i, short := range []geom.MM{0, 1, 12, 25, 29.9, 30} {
		for k, part := range [][2]float64{{0, 0}, {.5, 2}, {1, 5.5}} {
			e := &render.Ellipse{
				Tagged: render.Tagged{Guide: "wheels"}, Pen: pen, From: part[0], To: part[1],
				Shape: geom.Ellipse[geom.MM]{Centre: render.Point{X: 40 + 67*geom.MM(i), Y: 50 + 98*geom.MM(k)}, Long: 30, Short: short, Angle: .3 * float64(i+k)},
			}
			page.Marks = append(page.Marks, e)
		}
	}
	return page
}

// TestEllipsePathFollowsTheEllipse: the cubics stay within five millionths of the half axis.
func TestEllipsePathFollowsTheEllipse(t *testing.T) {
	for _, m := range ellipses().Marks {
		e := m.(*render.Ellipse)
		if e.Shape.Short == 0 {
			continue
		}
		for _, run := range e.Path().Flatten(16) {
			for _, p := range run {
				d := p.Sub(e.Shape.Centre)
				sin, cos := math.Sincos(e.Shape.Angle)
				x := (float64(d.X)*cos + float64(d.Y)*sin) / float64(e.Shape.Long)
				y := (float64(d.Y)*cos - float64(d.X)*sin) / float64(e.Shape.Short)
				if off := math.Abs(math.Hypot(x, y) - 1); off > 5e-6 {
					t.Fatalf("half axes %v and %v: a point is off by %v of its radius", e.Shape.Long, e.Shape.Short, off)
				}
			}
		}
	}
}
