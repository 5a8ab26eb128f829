package render_test

import (
	"bytes"
	"slices"
	"testing"

	"hubrule/internal/outside"
	"hubrule/internal/testpage"
	"hubrule/render"
)

// split divides a page in two: what lies on the layers named is the base's.
func split(page render.Page, shared ...string) render.Page {
	base := page
	base.Marks, page.Marks = nil, nil
	for _, m := range testpage.Sample().Marks {
		if slices.Contains(shared, m.Tag().Guide) {
			base.Marks = append(base.Marks, m)
		} else {
			page.Marks = append(page.Marks, m)
		}
	}
	page.Base = &base
	return page
}

// TestSharedMarksLookTheSame: whether marks are a page's own or shared with others, the page looks the same; a PDF holds what is
// shared once, an SVG and a PNG do not know the difference.
func TestSharedMarksLookTheSame(t *testing.T) {
	t.Parallel()
	outside.Need(t, "pdftoppm", "qpdf")
	whole, parted := testpage.Sample(), split(testpage.Sample(), "ground", "wheels", "belt")
	if one, two := svgOf(t, whole), svgOf(t, parted); !bytes.Equal(one, two) {
		t.Errorf("the SVG differs:\n%s\nwant\n%s", two, one)
	}
	draw := func(name string, pages ...render.Page) []byte {
		path := outside.File(t, name, pdfOf(t, pages...))
		outside.Run(t, "qpdf", "--check", path)
		return outside.Run(t, "pdftoppm", "-r", "100", path)
	}
	if one, two := draw("whole.pdf", whole, whole), draw("parted.pdf", parted, parted); !bytes.Equal(one, two) {
		t.Error("poppler draws shared marks differently")
	}
	forms := bytes.Count(pdfOf(t, parted, parted, parted), []byte("/Subtype/Form"))
	if forms != 1 {
		t.Errorf("%d forms for one base, want 1", forms)
	}
}
