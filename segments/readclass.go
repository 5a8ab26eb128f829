package segments

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"hubrule/segments/strict"
)

// ClassFile is a class file as read: who gets which sheets. Another package checks the settings of the sheets.
type ClassFile struct {
	Title, Date string // either may be empty
	Students    []Student
	Roster      string // file that lists the students, or ""
	Pages       []ClassPage
	Table       strict.Table // of its keys
	Folder      string       // from which paths in it start
	Vary        float64      // 0 to 1
	Seed        uint64
	ByPage      bool // order: page
	doc         *strict.Document
	library     Library
	nested      []error // what is wrong in the files that it names
}

// ClassPage is one vehicle that every student gets on some sheets, so many copies of each.
type ClassPage struct {
	Brief  Brief
	Table  strict.Table // of its keys
	Copies int
}

// Problem reports a mistake of the page as a whole; Err of its file then holds it.
func (p ClassPage) Problem(text string) { p.Table.Value.Problem("%s", text) }

// Err returns everything that was found wrong in the file, nil where nothing was.
func (c *ClassFile) Err() error {
	return errors.Join(append([]error{c.doc.Err()}, c.nested...)...)
}

// The bounds of a class.
const (
	maxStudents = 10_000
	maxPages    = 50
	maxCopies   = 100
	maxName     = 300 // letters
	maxTitle    = 80
	maxSeed     = 1 << 53 // a number of YAML is a float64
)

// ReadClass reads the class of a document; paths in it start from path's folder. Common are the keys about sheets that the class may have
// for all its pages, own those that a page may have. What is wrong waits in the file's Err, so that its settings can be judged first.
func (l Library) ReadClass(path string, doc *strict.Document, common, own []string) *ClassFile {
	keys := append([]string{"kind", "title", "date", "students", "pages", "vary", "seed", "order"}, common...)
	c := &ClassFile{Table: doc.Top().Table("key", keys), Folder: FolderOf(path), doc: doc, library: l}
	c.words()
	c.students()
	c.variation()
	c.pages(own)
	return c
}

// words reads title and date.
func (c *ClassFile) words() {
	c.Title, _ = line(c.Table.At("title"), maxTitle)
	v := c.Table.At("date")
	text, _ := v.Scalar()
	if _, err := time.Parse(time.DateOnly, text); err != nil {
		v.Want("a date like 2026-11-25")
		return
	}
	c.Date = text
}

// line reads one line of letters of any script.
func line(v strict.Value, most int) (string, bool) {
	text, ok := v.Scalar()
	text = strings.TrimSpace(text)
	want := "a text"
	if ok {
		want = wantOfLine(text, most)
	}
	if want != "" {
		v.Want("%s", want)
		return "", false
	}
	return text, true
}

// wantOfLine returns what a text should be instead, "" if it is one line of 1 to most letters of any script.
func wantOfLine(text string, most int) string {
	switch n := utf8.RuneCountInString(text); {
	case n == 0 || n > most:
		return fmt.Sprintf("a text of 1 to %d characters", most)
	}
	if _, found := strict.Control(text); found {
		return "one line without control characters"
	}
	return ""
}

// whole reads a whole number.
func whole(v strict.Value, lo, hi float64) (float64, bool) {
	x, ok := v.Number(lo, hi)
	if ok && x != math.Trunc(x) {
		v.Want("a whole number")
		return 0, false
	}
	return x, ok
}

// variation reads how far the students' figures differ, and the order of the sheets.
func (c *ClassFile) variation() {
	c.Table.Number("vary", 0, 1, &c.Vary)
	seed, _ := whole(c.Table.At("seed"), 0, maxSeed)
	c.Seed = uint64(seed)
	c.ByPage = c.Table.Choice("order", "order", []string{"student", "page"}) == "page"
}

// pages reads the pages, whose keys about sheets are own.
func (c *ClassFile) pages(own []string) {
	v, _ := c.Table.Need("pages", "pages: and a list like - {segment: suv, sheets: [steps, practice]}")
	items, _ := v.Items(1, maxPages)
	for _, item := range items {
		top := item.Table("key", slices.Concat(vehicleKeys(), []string{"copies"}, own))
		brief, nested := c.library.readVehicle(top, c.Folder)
		page := ClassPage{Brief: brief, Table: top, Copies: 1}
		if v, ok := top.Get("copies"); ok {
			n, _ := whole(v, 1, maxCopies)
			page.Copies = int(n)
		}
		c.nested = append(c.nested, nested)
		c.Pages = append(c.Pages, page)
	}
}
