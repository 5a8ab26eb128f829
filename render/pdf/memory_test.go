package pdf_test

import (
	"bytes"
	"fmt"
	"io"
	"runtime"
	"testing"

	"hubrule/internal/testpage"
	"hubrule/render"
	"hubrule/render/pdf"
)

// TestMemoryStaysFlat: a written page is forgotten but for its place in the file and its bookmark.
func TestMemoryStaysFlat(t *testing.T) {
	out := pdf.New(io.Discard, "", render.About{})
	page := testpage.Busy()
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

func BenchmarkPDF(b *testing.B) {
	for _, pages := range []int{1, 1000} {
		b.Run(fmt.Sprint(pages, "pages"), func(b *testing.B) {
			page := testpage.Busy()
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

func pdfOf(t testing.TB, pages ...render.Page) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, render.Document{Title: "Sämple (1)", About: render.About{Author: "A. \\ B."}, Pages: pages}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
