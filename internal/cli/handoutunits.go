package cli

import (
	"fmt"
	"strings"

	"hubrule/internal/handout"
	"hubrule/render"
	"hubrule/render/class"
	"hubrule/render/format"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// madeUnit is one student's sheets of one page, ready to be written.
type madeUnit struct {
	handout.Packed
	files           [][]byte // where each page has a file of its own
	facts, keyFacts fileFacts
	note            string
}

// produce composes and packs a unit; several goroutines do it at a time.
func (h *handoutFiles) produce(n int) (out madeUnit, err error) {
	u := handout.UnitAt(h.set, n)
	composed, err := h.set.Handout(u.Student, u.Page)
	if err != nil {
		return out, err
	}
	out.note = composed.Note
	for _, page := range composed.Sheets {
		out.facts.add(page)
	}
	for _, page := range composed.Answers {
		out.keyFacts.add(page)
	}
	if !h.format.ManyPages() {
		if out.files, err = h.wholeFiles(u.Page, composed.Sheets); err != nil {
			return out, err
		}
	}
	out.Packed, err = h.packer.Pack(u, composed)
	return out, err
}

// wholeFiles returns the contents of one file for each sheet of a page.
func (h *handoutFiles) wholeFiles(page int, sheets []render.Page) (files [][]byte, err error) {
	for i, sheet := range sheets {
		one, err := h.format.Files(render.Document{About: handout.About(h.set, h.set.FirstPage(page)+i), Pages: []render.Page{sheet}},
			format.Options{})
		if err != nil {
			return nil, err
		}
		files = append(files, one...)
	}
	return files, nil
}

// fileName is the name of a student's file, without ending. It is made of the student's name alone, so that it stays when others come
// or go.
func fileName(s class.Student) string {
	if s.Name == "" {
		return fmt.Sprintf("student-%02d", s.Number)
	}
	if name := segments.FileName(s.Name); name != "" {
		return name
	}
	return fmt.Sprintf("student-%x", s.Name) // nothing but signs
}

// checkFileNames refuses two students who would share a file. Some systems do not tell capitals from small letters.
func checkFileNames(students []class.Student) error {
	owner := map[string]string{}
	for _, s := range students {
		name := fileName(s)
		key := strings.ToLower(name)
		if other, ok := owner[key]; ok {
			return fmt.Errorf("--split: %s and %s would both be %s; add an initial to one of the names",
				strict.Quote(other), strict.Quote(s.Name), name)
		}
		owner[key] = s.Name
	}
	return nil
}
