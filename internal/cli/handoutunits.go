package cli

import (
	"fmt"
	"strings"

	"hubrule/internal/draw"
	"hubrule/render"
	"hubrule/render/class"
	"hubrule/render/format"
	"hubrule/render/pdf"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// unit is one student's sheets of one page.
type unit struct{ student, page int }

// packedUnit is a unit ready to be written.
type packedUnit struct {
	unit
	sheets, answers []pdf.Packed
	files           [][]byte // where each page has a file of its own
	facts, keyFacts fileFacts
	note            string
	back            pdf.Packed // empty page of the last sheet's size
}

// units is how many there are.
func (h *handoutFiles) units() int { return len(h.set.Students) * len(h.set.Pages) }

// unit is number i of the set's order.
func (h *handoutFiles) unit(i int) unit {
	if h.set.ByPage {
		return unit{i % len(h.set.Students), i / len(h.set.Students)}
	}
	return unit{i / len(h.set.Pages), i % len(h.set.Pages)}
}

// produce composes and packs a unit; several goroutines do it at a time.
func (h *handoutFiles) produce(n int) (packedUnit, error) {
	out := packedUnit{unit: h.unit(n)}
	handout, err := h.set.Handout(out.student, out.page)
	if err != nil {
		return out, err
	}
	out.note = handout.Note
	for _, page := range handout.Sheets {
		out.facts.add(page)
	}
	for _, page := range handout.Answers {
		out.keyFacts.add(page)
	}
	k := h.packers.Get().(*pdf.Packer)
	defer h.packers.Put(k)
	pack := func(pages []render.Page) (packed []pdf.Packed, err error) {
		for _, page := range pages {
			page.Chapter, page.Title = h.bookmark(out.unit, page.Title)
			p, err := k.Pack(page)
			if err != nil {
				return nil, err
			}
			packed = append(packed, p)
		}
		return packed, nil
	}
	if h.format.ManyPages() {
		out.sheets, err = pack(handout.Sheets)
	} else {
		out.files, err = h.wholeFiles(out.page, handout.Sheets)
	}
	if err == nil && h.flags.duplex {
		out.back, err = k.Pack(class.Blank(handout.Sheets[len(handout.Sheets)-1]))
	}
	if err == nil && h.key != nil {
		out.answers, err = pack(handout.Answers)
	}
	return out, err
}

// wholeFiles returns the contents of one file for each sheet of a page.
func (h *handoutFiles) wholeFiles(page int, sheets []render.Page) (files [][]byte, err error) {
	for i, sheet := range sheets {
		one, err := h.format.Files(render.Document{About: h.about(h.set.FirstPage(page) + i), Pages: []render.Page{sheet}},
			format.Options{})
		if err != nil {
			return nil, err
		}
		files = append(files, one...)
	}
	return files, nil
}

// bookmark names a page of the file and the chapter that it belongs to: the student's, or the class's page for all students.
func (h *handoutFiles) bookmark(u unit, title string) (chapter, page string) {
	name := h.set.NameOf(u.student)
	if h.set.ByPage {
		return fmt.Sprintf("%d  %s", u.page+1, h.set.Pages[u.page].Request.Plans[0].Profile.Title), name + ", " + title
	}
	return name, title
}

// about returns the metadata of a file: the class and its seed, and the page where the file holds one. Neither figures nor pins: no
// answer hides in a student's file.
func (h *handoutFiles) about(page int) render.About {
	job := ""
	if h.set.Title != "" {
		job = "class: " + h.set.Title + "\n"
	}
	job += fmt.Sprintf("seed: %d\n", h.set.Seed)
	if page > 0 {
		job += fmt.Sprintf("page: %d\n", page)
	}
	return render.About{Author: h.set.Pages[0].Request.Setting.Author, Program: draw.Program, Job: job}
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
