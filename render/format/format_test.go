package format_test

import (
	"errors"
	"image"
	"runtime"
	"testing"
	"weak"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/format"
	"hubrule/render/png"
)

// FilesOf keeps no page that is written: when the third is made, nothing holds the photograph of the first. An error of the pages ends it.
func TestPagesAreForgotten(t *testing.T) {
	failed := errors.New("no third page")
	for _, f := range format.All() {
		var first weak.Pointer[image.RGBA]
		_, err := f.FilesOf(render.Document{}, func(yield func(render.Page, error) bool) {
			for i := range 2 {
				pixels := image.NewRGBA(image.Rect(0, 0, 200, 100))
				if i == 0 {
					first = weak.Make(pixels)
				}
				picture := &render.Picture{Tagged: render.Tagged{Guide: "photo"}, Box: geom.BoxOf(render.Point{}, render.Point{X: 20, Y: 10}), Pixels: pixels}
				page := render.Page{Width: 148, Height: 105, Guides: []render.Guide{{Name: "photo"}}, Marks: []render.Mark{picture}}
				if !yield(page, nil) {
					return
				}
			}
			runtime.GC()
			if first.Value() != nil {
				t.Errorf("%s keeps the photograph of the first page", f.Name)
			}
			yield(render.Page{}, failed)
		}, format.Options{Options: png.Options{DPI: 50}})
		if !errors.Is(err, failed) {
			t.Errorf("%s: error %v, want that of the pages", f.Name, err)
		}
	}
}
