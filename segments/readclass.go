package segments

import (
	"errors"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"hubrule/segments/strict"
)

// ClassFile is a class file as read: who gets which sheets. Another package checks the settings of the sheets.
type ClassFile struct {
	Title, Date string // either may be empty
	Students    []Student
	Pages       []ClassPage
	Table       strict.Table // of its keys
	Folder      string       // from which paths in it start
	Vary        float64      // 0 to 1
	Seed        uint64
	ByPage      bool // order: page
	doc         *strict.Document
	nested      []error // what is wrong in the files that it names
}

// Student is one student. Name may be empty, and Facing is "left", "right" or "".
type Student struct{ Name, Facing string }

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

// LoadClass reads a class file. Common are the keys about sheets that the class may have for all its pages, own those that a page may
// have. What is wrong waits in the file's Err, so that its settings can be judged first; the error returned is about a file that
// cannot be read or is of another kind.
func LoadClass(path string, common, own []string) (*ClassFile, error) {
	doc, err := strict.Load(path)
	if err != nil {
		return nil, err
	}
	if !doc.Is("class", "kind: class, students and pages") {
		return nil, doc.Err()
	}
	keys := append([]string{"kind", "title", "date", "students", "pages", "vary", "seed", "order"}, common...)
	c := &ClassFile{Table: doc.Top().Table("key", keys), Folder: filepath.Dir(path), doc: doc}
	c.words()
	c.students()
	c.variation()
	c.pages(own)
	return c, nil
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
	n := utf8.RuneCountInString(text)
	switch {
	case !ok:
		v.Want("a text")
	case n == 0 || n > most:
		v.Want("a text of 1 to %d characters", most)
	case strings.ContainsFunc(text, func(r rune) bool { return unicode.In(r, unicode.Cc, unicode.Zl, unicode.Zp) }):
		v.Want("one line without control characters")
	default:
		return text, true
	}
	return "", false
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

// students reads how many there are, or who.
func (c *ClassFile) students() {
	v, _ := c.Table.Need("students", "students: and how many, or a list")
	if _, plain := v.Scalar(); plain {
		n, _ := whole(v, 1, maxStudents)
		c.Students = make([]Student, int(n))
		return
	}
	items, _ := v.Items(1, maxStudents)
	for _, item := range items {
		c.Students = append(c.Students, readStudent(item))
	}
}

// readStudent reads a name, or a table with name and facing.
func readStudent(v strict.Value) Student {
	var out Student
	if _, plain := v.Scalar(); plain {
		out.Name, _ = line(v, maxName)
		return out
	}
	t := v.Table("key", []string{"name", "facing"})
	out.Name, _ = line(t.At("name"), maxName)
	out.Facing = t.Choice("facing", "side", []string{"left", "right"})
	return out
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
		brief, nested := readVehicle(top, c.Folder)
		page := ClassPage{Brief: brief, Table: top, Copies: 1}
		if v, ok := top.Get("copies"); ok {
			n, _ := whole(v, 1, maxCopies)
			page.Copies = int(n)
		}
		c.nested = append(c.nested, nested)
		c.Pages = append(c.Pages, page)
	}
}
