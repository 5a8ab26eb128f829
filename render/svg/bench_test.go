package svg_test

import (
	"io"
	"testing"

	"hubrule/internal/testpage"
	"hubrule/render/svg"
)

func BenchmarkSVG(b *testing.B) {
	page := testpage.Busy()
	b.ReportAllocs()
	for b.Loop() {
		if err := svg.Write(io.Discard, page); err != nil {
			b.Fatal(err)
		}
	}
}
