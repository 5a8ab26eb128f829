package main

import (
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hubrule/render/svg"
	"hubrule/segments"
)

const root = "../../.."

// The tables in the docs say what the program says.
func TestTablesAreFresh(t *testing.T) {
	for _, table := range tables() {
		old, err := os.ReadFile(filepath.Join(root, table.file))
		if err != nil {
			t.Fatal(err)
		}
		if fresh, err := table.fresh(string(old)); err != nil || fresh != string(old) {
			t.Errorf("%s: the table of %s is not the program's (%v); run make docs", table.file, table.name, err)
		}
	}
}

// A table without its comments is an error, not a lost text.
func TestTableNeedsItsComments(t *testing.T) {
	if text, err := (table{"x.md", "figures", "new"}).fresh("no comments here\n"); err == nil {
		t.Errorf("got %q, want an error", text)
	}
}

// Every picture that the gallery's page shows is there.
func TestGalleryHasItsPictures(t *testing.T) {
	if index := index(); strings.Count(index, "](") < 20 {
		t.Errorf("the gallery shows too little:\n%s", index)
	}
	for _, link := range strings.Split(index(), "](")[1:] {
		name, _, _ := strings.Cut(link, ")")
		if _, err := os.Stat(filepath.Join(root, folder, name)); err != nil {
			t.Error(err)
		}
	}
}

// Every segment has its outline and its name on the contact sheet.
func TestContactSheet(t *testing.T) {
	page, err := contactSheet()
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := svg.Write(&b, page); err != nil {
		t.Fatal(err)
	}
	elements := map[string]int{}
	for d := xml.NewDecoder(strings.NewReader(b.String())); ; {
		token, err := d.Token()
		if err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		if e, ok := token.(xml.StartElement); ok {
			elements[e.Name.Local]++
		}
	}
	if n := len(segments.Names()); elements["text"] != n || elements["circle"] != 4*n {
		t.Errorf("%d names and %d circles of %d segments, want one and four each", elements["text"], elements["circle"], n)
	}
}
