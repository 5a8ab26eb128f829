package pdf_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/outside"
	"hubrule/internal/testpage"
	"hubrule/render"
)

// objects are those of a PDF as qpdf reads them, by reference: "7 0 R".
type objects map[string]map[string]any

func readObjects(t *testing.T, pdf []byte) objects {
	t.Helper()
	var doc struct{ Qpdf [2]json.RawMessage } // a heading, then the objects
	var all map[string]struct{ Value any }
	path := outside.File(t, "structure.pdf", pdf)
	if err := json.Unmarshal(outside.Run(t, "qpdf", "--json", "--json-key=qpdf", path), &doc); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(doc.Qpdf[1], &all); err != nil {
		t.Fatal(err)
	}
	out := objects{}
	for name, object := range all {
		if dictionary, ok := object.Value.(map[string]any); ok {
			out[strings.TrimPrefix(name, "obj:")] = dictionary
		}
	}
	return out
}

// at returns what stands in o under a chain of keys, following references.
func (o objects) at(from map[string]any, keys ...string) map[string]any {
	for _, key := range keys {
		if reference, ok := from[key].(string); ok {
			from = o[reference]
		} else {
			from, _ = from[key].(map[string]any)
		}
	}
	return from
}

func (o objects) catalog(t *testing.T) map[string]any {
	t.Helper()
	for _, object := range o {
		if object["/Type"] == "/Catalog" {
			return object
		}
	}
	t.Fatal("no catalog")
	return nil
}

func TestPDFCatalog(t *testing.T) {
	outside.Need(t, "qpdf")
	o := readObjects(t, pdfOf(t, testpage.Sample(), testpage.Busy()))
	catalog := o.catalog(t)
	viewer := o.at(catalog, "/ViewerPreferences")
	if viewer["/PrintScaling"] != "/None" || viewer["/DisplayDocTitle"] != true {
		t.Errorf("viewers are told %v, want no scaling and the title shown", viewer)
	}
	var layers []string
	for _, reference := range o.at(catalog, "/OCProperties")["/OCGs"].([]any) {
		layers = append(layers, fmt.Sprint(o[reference.(string)]["/Name"]))
	}
	// Those of the first page in its order, then the one that only the second has; both have labels.
	if want := []string{"u:Ground line", "u:Wheels", "u:Belt line", "u:Words", "u:Lines"}; !slices.Equal(layers, want) {
		t.Errorf("layers %q, want %q", layers, want)
	}
}

// TestEveryPageHasItsExactBoxes: pdfinfo would fill in a box that is not there.
func TestEveryPageHasItsExactBoxes(t *testing.T) {
	outside.Need(t, "qpdf")
	o := readObjects(t, pdfOf(t, testpage.Sample(), testpage.Doubled(testpage.Sample())))
	kids := o.at(o.catalog(t), "/Pages")["/Kids"].([]any)
	// ISO 216: A3 is 420 x 297 mm, A1 (here twice A3) 840 x 594; 1 in = 25.4 mm = 72 pt (CALC).
	for i, want := range []string{"[0 0 1190.5512 841.8898]", "[0 0 2381.1024 1683.7795]"} {
		for _, box := range []string{"/MediaBox", "/CropBox", "/TrimBox"} {
			if got := fmt.Sprint(o[kids[i].(string)][box]); got != want {
				t.Errorf("page %d: %s is %s, want %s", i+1, box, got, want)
			}
		}
	}
}

// TestBookmarksLeadToTheirPages, forwards and backwards.
func TestBookmarksLeadToTheirPages(t *testing.T) {
	outside.Need(t, "qpdf")
	second, third := testpage.Busy(), testpage.Sample()
	second.Title, third.Title = "Zweites (\\) – Blatt", "third"
	o := readObjects(t, pdfOf(t, testpage.Sample(), second, third))
	kids := o.at(o.catalog(t), "/Pages")["/Kids"].([]any)
	root := o.at(o.catalog(t), "/Outlines")
	next := root["/First"]
	var last any
	for i, title := range []string{"u:Sample & <page>", "u:Zweites (\\) – Blatt", "u:third"} {
		mark := o[fmt.Sprint(next)]
		if mark["/Title"] != title || mark["/Prev"] != last || mark["/Dest"].([]any)[0] != kids[i] {
			t.Errorf("bookmark %d is %v, want %q that leads to %v and back to %v", i+1, mark, title, kids[i], last)
		}
		last, next = next, mark["/Next"]
	}
	if next != nil || root["/Last"] != last || root["/Count"] != 3. {
		t.Errorf("the bookmarks end with %v; their root is %v", last, root)
	}
}

// TestBookmarksOfChapters has qpdf list the bookmarks: pages of one chapter stand below it.
func TestBookmarksOfChapters(t *testing.T) {
	outside.Need(t, "qpdf")
	var pages []render.Page
	for i, chapter := range []string{"", "Ada", "Ada", "Ben", "", "Ada"} {
		page := testpage.Sample()
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

// TestPageLabels: qpdf reads what pages are called; those without a name keep their number.
func TestPageLabels(t *testing.T) {
	t.Parallel()
	outside.Need(t, "qpdf")
	pages := []render.Page{testpage.Sample(), testpage.Sample(), testpage.Sample()}
	pages[0].Label, pages[2].Label = "A1", "1-Ü(2)"
	o := readObjects(t, pdfOf(t, pages...))
	got := fmt.Sprint(o.at(o.catalog(t), "/PageLabels")["/Nums"])
	if want := "[0 map[/P:u:A1] 1 map[/S:/D /St:2] 2 map[/P:u:1-Ü(2)]]"; got != want {
		t.Errorf("labels %s, want %s", got, want)
	}
	if _, there := readObjects(t, pdfOf(t, testpage.Sample())).catalog(t)["/PageLabels"]; there {
		t.Error("a document without names has labels")
	}
}
