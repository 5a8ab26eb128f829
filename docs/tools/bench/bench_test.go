//go:build unix

package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"hubrule/internal/outside"
	"hubrule/render"
	"hubrule/render/pdf"
)

func TestMedian(t *testing.T) {
	for _, c := range []struct {
		of   []float64
		want float64
	}{{[]float64{3}, 3}, {[]float64{9, 1, 2}, 2}, {[]float64{4, 1, 3, 10}, 3.5}} {
		if got := median(c.of); got != c.want {
			t.Errorf("median(%v) = %v, want %v", c.of, got, c.want)
		}
	}
}

// Every mark of the page goes to the text file, and every word of it.
func TestExportIsComplete(t *testing.T) {
	path := filepath.Join(t.TempDir(), "marks.txt")
	if err := exportMarks(path); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	page, err := suvPage()
	if err != nil {
		t.Fatal(err)
	}
	painted, spans := 0, 0
	for _, m := range page.Marks {
		switch m := m.(type) {
		case *render.Text:
			spans += len(m.Spans)
		case *render.Circle:
			if painted++; m.Fill != nil {
				painted++
			}
		default:
			painted++
		}
	}
	got := len(regexp.MustCompile(`(?m)^(stroke|fill) `).FindAll(text, -1))
	if words := len(regexp.MustCompile(`(?m)^text `).FindAll(text, -1)); got != painted || words != spans || painted < 100 {
		t.Errorf("%d painted, %d words; want %d and %d", got, words, painted, spans)
	}
}

// TestOracleCairoDrawsTheSame: what is compared for speed is the same picture; a single word less is noticed.
func TestOracleCairoDrawsTheSame(t *testing.T) {
	outside.Oracle(t, "gcc", "pkg-config", "pdftoppm")
	dir := t.TempDir()
	cairo, err := buildCairo(filepath.Join("cairo", "marks.c"), dir)
	if err != nil {
		t.Fatal(err)
	}
	path, theirs := filepath.Join(dir, "marks.txt"), filepath.Join(dir, "cairo.pdf")
	if err := exportMarks(path); err != nil {
		t.Fatal(err)
	}
	marks, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	page, err := suvPage()
	if err != nil {
		t.Fatal(err)
	}
	var ours bytes.Buffer
	if err := pdf.Write(&ours, render.Document{Pages: []render.Page{page}}); err != nil {
		t.Fatal(err)
	}
	want := raster(t, outside.File(t, "ours.pdf", ours.Bytes()))
	outside.Run(t, cairo, path, theirs, "1")
	if n := apart(t, want, raster(t, theirs)); n > 5 {
		t.Errorf("%d pixels differ", n)
	}
	less := outside.File(t, "less.txt", regexp.MustCompile(`(?m)^text .* axle .*\n`).ReplaceAll(marks, nil))
	outside.Run(t, cairo, less, theirs, "1")
	if n := apart(t, want, raster(t, theirs)); n <= 5 {
		t.Errorf("a missing word is not noticed: %d pixels differ", n)
	}
}

// raster returns poppler's grey picture of a PDF.
func raster(t *testing.T, pdf string) []byte {
	return outside.Run(t, "pdftoppm", "-r", "80", "-gray", pdf)
}

// apart counts the bytes of two pictures that differ by more than half the way from black to white.
func apart(t *testing.T, a, b []byte) int {
	t.Helper()
	if len(a) != len(b) {
		t.Fatalf("pictures of %d and %d bytes", len(a), len(b))
	}
	n := 0
	for i := range a {
		if d := int(a[i]) - int(b[i]); d > 128 || d < -128 {
			n++
		}
	}
	return n
}

// TestBarePages: what the bare writer writes is a PDF that others read, with every mark of the file.
func TestBarePages(t *testing.T) {
	outside.Need(t, "qpdf", "pdfinfo", "pdftotext")
	dir := t.TempDir()
	marks, path := filepath.Join(dir, "marks.txt"), filepath.Join(dir, "bare.pdf")
	if err := exportMarks(marks); err != nil {
		t.Fatal(err)
	}
	if err := barePages(marks, path, 3); err != nil {
		t.Fatal(err)
	}
	outside.Run(t, "qpdf", "--check", path)
	if info := outside.Run(t, "pdfinfo", path); !bytes.Contains(info, []byte("Pages:           3\n")) {
		t.Errorf("pdfinfo: %s", info)
	}
	if words := outside.Run(t, "pdftotext", path, "-"); bytes.Count(words, []byte("Sport utility")) != 3 {
		t.Errorf("pdftotext: %s", words)
	}
}
