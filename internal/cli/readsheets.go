package cli

import (
	"fmt"
	"image"

	"github.com/spf13/cobra"

	"hubrule/internal/draw"
	"hubrule/internal/files"
	"hubrule/internal/job"
	"hubrule/internal/picture"
	"hubrule/render"
	"hubrule/render/photo"
	"hubrule/render/request"
	"hubrule/segments/reading"
)

// photoSheets draws each picture with its reading, one page each, and before several that are held against something a table of all.
func (f *readFlags) photoSheets(path string, readings []reading.Reading, s standard) ([]output, error) {
	j := job.Default()
	doc := draw.PhotoDocument(readings, f.against)
	var sheets []photo.Sheet
	for i, r := range readings {
		if r.Picture == nil {
			return nil, usagef("-o %s: %s has no picture; a row of a data sheet can only be written as a profile", path, r.Name)
		}
		sheet := photo.Sheet{Reading: r, Name: s.name, Date: s.date}
		if s.plans != nil {
			sheet.Against, sheet.Differences = &s.plans[i], s.differences(i, r)
		}
		sheets = append(sheets, sheet)
	}
	t, _ := targetOf(path)
	return renderPages(doc, func(yield func(render.Page, error) bool) {
		if len(sheets) > 1 && s.plans != nil {
			for _, page := range photo.Overview(sheets, j.Setting, "") {
				if !yield(page, nil) {
					return
				}
			}
		}
		for i, sheet := range sheets {
			if page, err := f.photoSheet(sheet, j.Setting, sheetNumber(i, len(sheets))); !yield(page, err) {
				return
			}
		}
	}, []target{t}, j)
}

// photoSheet draws one picture with its reading.
func (f *readFlags) photoSheet(s photo.Sheet, set request.Setting, number string) (page render.Page, err error) {
	if s.Pixels, err = pixelsOf(s.Reading.Picture.Path); err != nil {
		return page, f.files[s.Reading.Picture].PictureProblem(err)
	}
	if page, err = s.Page(set, number); err != nil {
		return page, fmt.Errorf("%s: %w", s.Reading.Name, err)
	}
	return page, nil
}

// pixelsOf reads a picture; nil where there is none. The error does not name it.
func pixelsOf(path string) (*image.RGBA, error) {
	if path == "" {
		return nil, nil
	}
	return picture.Decode(path)
}

// showMarks draws the marks of each file over its picture, without reading them.
func (f *readFlags) showMarks(c *cobra.Command, set *files.Set, paths []string) error {
	var all []*reading.File
	for _, path := range paths {
		file, err := reading.LoadMarks(path, c.InOrStdin())
		if err != nil {
			return err
		}
		all, f.inputs = append(all, file), append(append(f.inputs, path), file.Inputs()...)
	}
	j := job.Default()
	pages := func(yield func(render.Page, error) bool) {
		for i, file := range all {
			if page, err := checkSheet(file, j.Setting, sheetNumber(i, len(all))); !yield(page, err) {
				return
			}
		}
	}
	var out []output
	for _, path := range f.out {
		t, known := targetOf(path)
		if !known {
			return usagef("-o %s: unknown kind of file; want a name that ends in %s", path, endings())
		}
		drawn, err := renderPages(render.Document{Title: "Marks", About: draw.MadeFrom("marks", nil, "")}, pages, []target{t}, j)
		if err != nil {
			return err
		}
		out = append(out, drawn...)
	}
	return f.finish(c, set, nil, out, nil)
}

// checkSheet draws the marks of one file.
func checkSheet(file *reading.File, set request.Setting, number string) (page render.Page, err error) {
	var pixels *image.RGBA
	if file.Marks.Picture != "" {
		if pixels, err = pixelsOf(file.Marks.PicturePath()); err != nil {
			return page, file.PictureProblem(err)
		}
	}
	return photo.Check(&file.Marks, pixels, set, number), nil
}

// sheetNumber says which of several sheets one is.
func sheetNumber(i, n int) string {
	if n == 1 {
		return ""
	}
	return fmt.Sprintf("%d/%d", i+1, n)
}
