package cli

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"hubrule/internal/files"
	"hubrule/internal/handout"
	"hubrule/internal/parallel"
	"hubrule/render/class"
	"hubrule/render/format"
)

// handoutFiles writes the files of one class set.
type handoutFiles struct {
	flags  *handoutFlags
	format format.Format
	stem   string
	set    class.Set
	inputs []string // that no file may replace
	out    *files.Set
	errs   io.Writer

	packer handout.Packer
	file   *files.File     // of sheets
	sheets *handout.Sheets // that pages go into; nil where each page has a file of its own
	key    *handout.Key    // or nil
	last   int             // student whose pages were written last
	number int             // of the last file of one page
	notes  []string        // about students' sheets

	written, pages, keyPages int       // files but for the key, their pages, and those of the key
	facts, keyFacts          fileFacts // of all files but the key, and of the key
}

// write writes every file whole, or none.
func (h *handoutFiles) write(ctx context.Context) error {
	if isFolder(h.flags.out) {
		h.flags.out = filepath.Join(h.flags.out, h.stem+"."+h.format.Name)
	}
	if err := h.compose(ctx); err != nil {
		return err
	}
	return h.out.Commit()
}

// compose fills all the files.
func (h *handoutFiles) compose(ctx context.Context) error {
	h.last = -1
	h.packer = handout.Packer{Set: h.set, Sheets: h.format.ManyPages(), Backs: h.flags.duplex, Answers: h.flags.answers != ""}
	if h.flags.split != "" {
		if err := h.out.Mkdir(h.flags.split); err != nil {
			return err
		}
	}
	if h.flags.answers != "" {
		if err := h.startKey(); err != nil {
			return err
		}
	}
	if h.flags.split == "" && h.format.ManyPages() {
		if err := h.start(cmp.Or(h.flags.out, h.stem+".pdf")); err != nil {
			return err
		}
	}
	units := handout.Units(h.set)
	bar := newProgress(h.errs, "sheets of", units)
	defer bar.end()
	err := parallel.InOrder(ctx, units, h.produce, func(u madeUnit) error {
		bar.step()
		return h.take(u)
	})
	if err == nil {
		err = h.end()
	}
	if err == nil && h.key != nil {
		err = h.key.Close()
	}
	return err
}

// allow refuses a file that would replace one of another program, or one that the command reads.
func (h *handoutFiles) allow(path string) error {
	if err := refuseInput(path, h.inputs); err != nil || h.flags.force {
		return err
	}
	return refuseForeign(output{path: path})
}

// start begins a PDF of sheets.
func (h *handoutFiles) start(path string) error {
	err := h.allow(path)
	if err == nil {
		h.file, err = h.out.Create(path)
	}
	if err == nil {
		h.sheets = handout.NewSheets(h.file, h.set, h.flags.duplex)
	}
	return err
}

// startKey begins the key: cover, contents, and the answers that all share.
func (h *handoutFiles) startKey() error {
	if err := h.allow(h.flags.answers); err != nil {
		return err
	}
	file, err := h.out.Create(h.flags.answers)
	if err != nil {
		return err
	}
	key, front, err := handout.NewKey(file, h.set)
	h.key, h.keyPages = &key, len(front)
	for _, page := range front {
		h.keyFacts.add(page)
	}
	return err
}

// take writes a unit to the files it belongs to.
func (h *handoutFiles) take(u madeUnit) error {
	if u.note != "" {
		h.notes = append(h.notes, u.note)
	}
	h.facts.merge(u.facts)
	if h.key != nil {
		h.keyPages += len(u.Answers)
		h.keyFacts.merge(u.keyFacts)
		if err := h.key.Add(u.Packed); err != nil {
			return err
		}
	}
	if !h.format.ManyPages() {
		return h.takeFiles(u)
	}
	if h.flags.split != "" && u.Student != h.last {
		if err := h.end(); err != nil {
			return err
		}
		if err := h.start(filepath.Join(h.flags.split, fileName(h.set.Students[u.Student])+".pdf")); err != nil {
			return err
		}
	}
	h.last = u.Student
	return h.sheets.Add(u.Packed)
}

// end ends the PDF of sheets that is being written, if there is one.
func (h *handoutFiles) end() error {
	if h.sheets == nil {
		return nil
	}
	if err := h.sheets.Close(); err != nil {
		return err
	}
	h.pages += h.sheets.Pages
	h.sheets = nil
	h.written++
	return h.file.Close()
}

// takeFiles writes each sheet to a file of its own.
func (h *handoutFiles) takeFiles(u madeUnit) error {
	if u.Student != h.last && h.flags.split != "" {
		h.number = 0
	}
	h.last = u.Student
	ending := "." + h.format.Name
	stem := strings.TrimSuffix(h.flags.out, ending)
	if h.flags.split != "" {
		stem = filepath.Join(h.flags.split, fileName(h.set.Students[u.Student]))
	}
	for _, data := range u.files {
		h.number++
		name := fmt.Sprintf("%s-%d%s", stem, h.number, ending)
		if err := h.allow(name); err != nil {
			return err
		}
		if err := h.out.Add(name, data); err != nil {
			return err
		}
		h.written++
	}
	return nil
}

// tell says which files were written.
func (h *handoutFiles) tell() {
	if h.format.ManyPages() {
		h.facts.pages = counted(h.pages, "page")
	}
	ending := "." + h.format.Name
	what := cmp.Or(h.flags.out, h.stem+ending)
	switch stem := strings.TrimSuffix(what, ending); {
	case h.flags.split != "":
		what = counted(h.written, "file") + " into " + h.flags.split
	case h.format.ManyPages():
	case h.written == 1:
		what = stem + "-1" + ending
	default:
		what = fmt.Sprintf("%d files, %s-1%s to %s-%d%s", h.written, stem, ending, stem, h.written, ending)
	}
	tellWritten(h.errs, what, h.facts)
	if h.key != nil {
		h.keyFacts.pages = counted(h.keyPages, "page")
		tellWritten(h.errs, h.flags.answers, h.keyFacts)
	}
}
