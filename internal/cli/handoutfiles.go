package cli

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"sync"

	"hubrule/internal/files"
	"hubrule/render/class"
	"hubrule/render/format"
	"hubrule/render/pdf"
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

	packers sync.Pool
	file    *files.File // of pdf
	pdf     *pdf.Writer // that pages go into; nil where each page has a file of its own
	key     *pdf.Writer // or nil
	last    unit        // whose pages were written last
	run     int         // pages of the last student since they began
	number  int         // of the last file of one page
	notes   []string    // about students' sheets

	written, pages, keyPages int       // files but for the key, their pages, and those of the key
	facts, keyFacts          fileFacts // of all files but the key, and of the key
}

// write writes every file whole, or none.
func (h *handoutFiles) write(ctx context.Context) error {
	h.packers.New = func() any { return new(pdf.Packer) }
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
	h.last = unit{-1, -1}
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
	bar := newProgress(h.errs, "sheets of", h.units())
	defer bar.end()
	err := inOrder(ctx, h.units(), h.produce, func(u packedUnit) error {
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
		h.pdf = pdf.New(h.file, h.set.Title, h.about(0))
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
	h.key = pdf.New(file, strings.TrimPrefix(h.set.Title+", key", ", "), h.about(0))
	for _, page := range append(h.set.KeyFront(), h.set.SharedAnswers()...) {
		h.keyPages++
		h.keyFacts.add(page)
		if err := h.key.AddPage(page); err != nil {
			return err
		}
	}
	return nil
}

// take writes a unit to the files it belongs to.
func (h *handoutFiles) take(u packedUnit) error {
	if u.note != "" {
		h.notes = append(h.notes, u.note)
	}
	h.facts.merge(u.facts)
	if h.key != nil {
		h.keyPages += len(u.answers)
		h.keyFacts.merge(u.keyFacts)
		if err := addAll(h.key, u.answers...); err != nil {
			return err
		}
	}
	if !h.format.ManyPages() {
		return h.takeFiles(u)
	}
	fresh := h.set.ByPage || u.student != h.last.student
	if fresh && h.flags.split != "" {
		if err := h.end(); err != nil {
			return err
		}
		if err := h.start(filepath.Join(h.flags.split, fileName(h.set.Students[u.student])+".pdf")); err != nil {
			return err
		}
	}
	if fresh && h.flags.duplex && h.run%2 == 1 {
		h.pages++
		if err := h.pdf.AddPacked(u.back); err != nil {
			return err
		}
	}
	if fresh {
		h.run = 0
	}
	h.run += len(u.sheets)
	h.pages += len(u.sheets)
	h.last = u.unit
	return addAll(h.pdf, u.sheets...)
}

func addAll(w *pdf.Writer, pages ...pdf.Packed) error {
	for _, p := range pages {
		if err := w.AddPacked(p); err != nil {
			return err
		}
	}
	return nil
}

// end ends the PDF of sheets that is being written, if there is one.
func (h *handoutFiles) end() error {
	if h.pdf == nil {
		return nil
	}
	if err := h.pdf.Close(); err != nil {
		return err
	}
	h.pdf, h.run = nil, 0
	h.written++
	return h.file.Close()
}

// takeFiles writes each sheet to a file of its own.
func (h *handoutFiles) takeFiles(u packedUnit) error {
	if u.student != h.last.student && h.flags.split != "" {
		h.number = 0
	}
	h.last = u.unit
	ending := "." + h.format.Name
	stem := strings.TrimSuffix(h.flags.out, ending)
	if h.flags.split != "" {
		stem = filepath.Join(h.flags.split, fileName(h.set.Students[u.student]))
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
