package render_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"testing"

	"hubrule/internal/outside"
	"hubrule/render"
)

// split divides a page in two: what lies on the layers named is the base's.
func split(page render.Page, shared ...string) render.Page {
	base := page
	base.Marks, page.Marks = nil, nil
	for _, m := range sample().Marks {
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
	whole, parted := sample(), split(sample(), "ground", "wheels", "belt")
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

// TestBookmarksOfChapters has qpdf list the bookmarks: pages of one chapter stand below it.
func TestBookmarksOfChapters(t *testing.T) {
	outside.Need(t, "qpdf")
	var pages []render.Page
	for i, chapter := range []string{"", "Ada", "Ada", "Ben", "", "Ada"} {
		page := sample()
		page.Title, page.Chapter = fmt.Sprint("page ", i+1), chapter
		pages = append(pages, page)
	}
	type entry struct {
		Title string  `json:"title"`
		Page  int     `json:"destpageposfrom1"`
		Kids  []entry `json:"kids"`
	}
	var read struct{ Outlines []entry }
	if err := json.Unmarshal(outside.Run(t, "qpdf", "--json", "--json-key=outlines", outside.File(t, "chapters.pdf", pdfOf(t, pages...))), &read); err != nil {
		t.Fatal(err)
	}
	var list func([]entry) string
	list = func(entries []entry) (s string) {
		for _, e := range entries {
			s += fmt.Sprintf("%s:%d", e.Title, e.Page)
			if len(e.Kids) > 0 {
				s += "(" + list(e.Kids) + ")"
			}
			s += " "
		}
		return s
	}
	const want = "page 1:1 Ada:2(page 2:2 page 3:3 ) Ben:4(page 4:4 ) page 5:5 Ada:6(page 6:6 ) "
	if got := list(read.Outlines); got != want {
		t.Errorf("bookmarks %q, want %q", got, want)
	}
}
