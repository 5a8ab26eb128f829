package render_test

import (
	"io"
	"runtime"
	"testing"

	"hubrule/render"
	"hubrule/render/pdf"
)

// TestMemoryStaysFlat: a written page is forgotten but for its place in the file and its bookmark.
func TestMemoryStaysFlat(t *testing.T) {
	out := pdf.New(io.Discard, "", render.About{})
	page := busy()
	live := func(pages int) uint64 {
		for range pages {
			if err := out.AddPage(page); err != nil {
				t.Fatal(err)
			}
		}
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	few, many := live(50), live(1000)
	const aPage = 200 // bytes: object numbers and offsets, and room that slices keep
	if many > few+1000*aPage {
		t.Errorf("%d bytes in use after 50 pages, %d after 1050", few, many)
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
}
