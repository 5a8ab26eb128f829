package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"hubrule/render"
	"hubrule/render/format"
	"hubrule/render/pdf"
	"hubrule/render/png"
	"hubrule/sheet"
)

// handoutFiles writes the files of one class set.
type handoutFiles struct {
	flags        *handoutFlags
	format       format.Format
	stem         string
	set          sheet.ClassSet
	stdout, errs io.Writer

	packers sync.Pool
	open    []*growing        // every file of the command
	targets map[string]string // what each was said to be
	pdf     *pdf.Writer       // that pages go into; nil where each page has a file of its own
	key     *pdf.Writer       // or nil
	last    unit              // whose pages were written last
	run     int               // pages of the last student since they began
	written int               // files of one page
}

// unit is one student's sheets of one page.
type unit struct{ student, page int }

// packedUnit is a unit ready to be written.
type packedUnit struct {
	unit
	sheets, answers []pdf.Packed
	files           [][]byte   // where each page has a file of its own
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

// write writes every file whole, or none.
func (h *handoutFiles) write(ctx context.Context) (err error) {
	made, err := h.makeFolder()
	if err != nil {
		return err
	}
	defer func() {
		for _, g := range h.open {
			g.drop()
		}
		if err != nil && made {
			os.Remove(h.flags.split) // empty again
		}
	}()
	h.packers.New = func() any { return new(pdf.Packer) }
	for {
		err := h.attempt(ctx)
		var none *sheet.NoRoom
		if !errors.As(err, &none) || none.Asked() {
			if err != nil {
				return err
			}
			break
		}
		if h.set, err = h.set.Smaller(); err != nil {
			return err
		}
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	files := h.open
	h.open = nil
	if err := finishAll(files, h.stdout); err != nil {
		return err
	}
	h.tell(files)
	return nil
}

// makeFolder sees to it that the folder of --split is there and reports whether it is new.
func (h *handoutFiles) makeFolder() (bool, error) {
	if h.flags.split == "" {
		return false, nil
	}
	switch info, err := os.Stat(h.flags.split); {
	case err == nil && !info.IsDir():
		return false, fmt.Errorf("cannot write into %s: it is no folder", h.flags.split)
	case err == nil:
		return false, nil
	}
	if err := os.Mkdir(h.flags.split, 0o777); err != nil {
		return false, fmt.Errorf("cannot make the folder %s: %w", h.flags.split, plainError(err))
	}
	return true, nil
}

// attempt writes the whole set at its wheel.
func (h *handoutFiles) attempt(ctx context.Context) error {
	for _, g := range h.open {
		g.drop()
	}
	h.open, h.pdf, h.key, h.last, h.run, h.written = nil, nil, nil, unit{-1, -1}, 0, 0
	h.targets = map[string]string{}
	if h.flags.answers != "" {
		if err := h.startKey(); err != nil {
			return err
		}
	}
	if h.flags.split == "" && h.format.ManyPages() {
		name := h.flags.out
		if name == "" {
			name = h.stem + ".pdf"
		}
		if err := h.start(name, h.flags.out != ""); err != nil {
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

// grow opens one more file of the command.
func (h *handoutFiles) grow(path string, said bool) (*growing, error) {
	if !said && !h.flags.force {
		if err := refuseExisting([]output{{path: path}}); err != nil {
			return nil, err
		}
	}
	g, err := grow(path)
	if err != nil {
		return nil, err
	}
	h.open = append(h.open, g)
	if other, twice := h.targets[g.staged.target]; twice && g.staged.target != "" {
		return nil, fmt.Errorf("cannot write %s: it is the same file as %s", path, other)
	}
	h.targets[g.staged.target] = path
	return g, nil
}

// start begins a PDF of sheets.
func (h *handoutFiles) start(path string, said bool) error {
	g, err := h.grow(path, said)
	if err != nil {
		return err
	}
	h.pdf = pdf.New(g, h.set.Title, h.about(0))
	return nil
}

// about is what a file says of itself: the class and its seed, and the page where the file holds one. Neither figures nor pins: no
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
	return render.About{Author: h.set.Pages[0].Request.Setting.Author, Program: program, Job: job}
}

// startKey begins the key: cover, contents, and the answers that all share.
func (h *handoutFiles) startKey() error {
	g, err := h.grow(h.flags.answers, true)
	if err != nil {
		return err
	}
	h.key = pdf.New(g, strings.TrimPrefix(h.set.Title+", key", ", "), h.about(0))
	for _, page := range append(h.set.KeyFront(), h.set.SharedAnswers()...) {
		if err := h.key.AddPage(page); err != nil {
			return err
		}
	}
	return nil
}

// produce composes and packs a unit; several goroutines do it at a time.
func (h *handoutFiles) produce(n int) (packedUnit, error) {
	out := packedUnit{unit: h.unit(n)}
	handout, err := h.set.Handout(out.student, out.page)
	if err != nil {
		return out, err
	}
	k := h.packers.Get().(*pdf.Packer)
	defer h.packers.Put(k)
	for i, page := range handout.Sheets {
		if !h.format.ManyPages() {
			var files [][]byte
			files, err = h.format.Files(render.Document{About: h.about(h.set.FirstPage(out.page) + i), Pages: []render.Page{page}}, png.Options{})
			out.files = append(out.files, files...)
		} else {
			page.Chapter, page.Title = h.bookmark(out.unit, page.Title)
			var p pdf.Packed
			p, err = k.Pack(page)
			out.sheets = append(out.sheets, p)
		}
		if err != nil {
			return out, err
		}
	}
	if h.flags.duplex {
		if out.back, err = k.Pack(sheet.Blank(handout.Sheets[len(handout.Sheets)-1])); err != nil {
			return out, err
		}
	}
	if h.key != nil {
		for _, page := range handout.Answers {
			page.Chapter, page.Title = h.bookmark(out.unit, page.Title)
			p, err := k.Pack(page)
			if err != nil {
				return out, err
			}
			out.answers = append(out.answers, p)
		}
	}
	return out, nil
}

// bookmark names a page of the file and the chapter that it belongs to: the student's, or the class's page for all students.
func (h *handoutFiles) bookmark(u unit, title string) (chapter, page string) {
	name := h.set.NameOf(u.student)
	if h.set.ByPage {
		return fmt.Sprintf("%d  %s", u.page+1, h.set.Pages[u.page].Request.Plans[0].Profile.Title), name + ", " + title
	}
	return name, title
}

// take writes a unit to the files it belongs to.
func (h *handoutFiles) take(u packedUnit) error {
	if h.key != nil {
		for _, p := range u.answers {
			if err := h.key.AddPacked(p); err != nil {
				return err
			}
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
		if err := h.start(filepath.Join(h.flags.split, h.fileName(u.student)+".pdf"), false); err != nil {
			return err
		}
	}
	if fresh && h.flags.duplex && h.run%2 == 1 {
		if err := h.pdf.AddPacked(u.back); err != nil {
			return err
		}
	}
	if fresh {
		h.run = 0
	}
	for _, p := range u.sheets {
		if err := h.pdf.AddPacked(p); err != nil {
			return err
		}
		h.run++
	}
	h.last = u.unit
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
	return h.open[len(h.open)-1].shut()
}

// takeFiles writes each sheet to a file of its own.
func (h *handoutFiles) takeFiles(u packedUnit) error {
	if u.student != h.last.student && h.flags.split != "" {
		h.written = 0
	}
	h.last = u.unit
	for _, data := range u.files {
		h.written++
		ending := "." + h.format.Name
		name, said := fmt.Sprintf("%s-%d%s", strings.TrimSuffix(h.flags.out, ending), h.written, ending), true
		if h.flags.split != "" {
			name, said = filepath.Join(h.flags.split, fmt.Sprintf("%s-%d%s", h.fileName(u.student), h.written, ending)), false
		}
		g, err := h.grow(name, said)
		if err != nil {
			return err
		}
		if _, err := g.Write(data); err != nil {
			return err
		}
		if err := g.shut(); err != nil {
			return err
		}
	}
	return nil
}

// tell says which files were written, where the user did not name them.
func (h *handoutFiles) tell(files []*growing) {
	switch {
	case h.flags.split != "":
		n := len(files)
		if h.flags.answers != "" {
			n--
		}
		fmt.Fprintf(h.errs, "wrote %d files into %s\n", n, h.flags.split)
	case h.flags.out == "":
		fmt.Fprintf(h.errs, "wrote %s.pdf\n", h.stem)
	}
}
