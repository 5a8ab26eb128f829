package render_test

import (
	"fmt"
	"io"
	"testing"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/pdf"
	"hubrule/render/png"
	"hubrule/render/svg"
)

// busy is a page with about as many marks as a full sheet: 150 lines, 12 circles, 60 labels, a long path.
func busy() render.Page {
	ink := render.Colour{R: 0x49, G: 0x52, B: 0x5a}
	pen := render.Pen{Width: 0.25, Ink: ink}
	p := render.Page{Width: 420, Height: 297, Title: "busy", Guides: []render.Guide{{Name: "outline", Title: "Lines"}, {Name: "labels", Title: "Words"}}}
	lines, labels := render.Tagged{Guide: "outline"}, render.Tagged{Guide: "labels"}
	for i := range 150 {
		y := 20 + 1.613*geom.MM(i)
		p.Marks = append(p.Marks, &render.Stroke{Tagged: lines, Pen: pen, Path: render.Path{}.Move(render.Point{X: 20, Y: y}).Line(render.Point{X: 410, Y: y + 3})})
	}
	for i := range 12 {
		p.Marks = append(p.Marks, &render.Circle{Tagged: lines, Centre: render.Point{X: 60 + 25*geom.MM(i), Y: 177}, R: 23, Pen: pen})
	}
	for i := range 60 {
		p.Marks = append(p.Marks, &render.Text{Tagged: labels, At: render.Point{X: 100, Y: 20 + 4*geom.MM(i)}, Spans: []render.Span{
			{Text: "rear lamp, one lamp higher ", Height: 2.5, Weight: render.Regular, Ink: ink},
			{Text: fmt.Sprintf("%.2f", float64(i)/7), Height: 2.5, Weight: render.Medium, Ink: ink}}})
	}
	long := render.Path{}.Move(render.Point{X: 50, Y: 150})
	for i := range 40 {
		x := 50 + 7*geom.MM(i)
		long = long.Curve(render.Point{X: x + 2, Y: 140}, render.Point{X: x + 5, Y: 160}, render.Point{X: x + 7, Y: 150})
	}
	p.Marks = append(p.Marks, &render.Stroke{Tagged: lines, Path: long, Pen: pen})
	return p
}

func BenchmarkSVG(b *testing.B) {
	page := busy()
	b.ReportAllocs()
	for b.Loop() {
		if err := svg.Write(io.Discard, page); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPNG(b *testing.B) {
	for _, dpi := range []float64{150, 300, 600} {
		b.Run(fmt.Sprint(dpi, "dpi"), func(b *testing.B) {
			page := busy()
			b.ReportAllocs()
			for b.Loop() {
				if err := png.Write(io.Discard, page, png.Options{DPI: dpi}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkPDF(b *testing.B) {
	for _, pages := range []int{1, 1000} {
		b.Run(fmt.Sprint(pages, "pages"), func(b *testing.B) {
			page := busy()
			b.ReportAllocs()
			for b.Loop() {
				out := pdf.New(io.Discard, "", render.About{})
				for range pages {
					if err := out.AddPage(page); err != nil {
						b.Fatal(err)
					}
				}
				if err := out.Close(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
