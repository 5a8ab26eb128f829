package cli

import (
	"fmt"
	"image"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"hubrule/internal/files"
	"hubrule/internal/job"
	"hubrule/internal/picture"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/format"
	"hubrule/render/photo"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// photoSheets draws each picture with its reading, one page each, and before several that are held against something a table of all.
func (f *readFlags) photoSheets(path string, readings []reading.Reading, s standard) ([]output, error) {
	j := job.Default()
	doc := render.Document{Title: "Readings", About: madeFrom("a reading", readings, f.against)}
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
	if len(sheets) > 1 && s.plans != nil {
		doc.Pages = photo.Overview(sheets, j.Setting, "")
	}
	for i, sheet := range sheets {
		pixels, err := pixelsOf(sheet.Reading.Picture.Path)
		if err != nil {
			return nil, f.files[sheet.Reading.Picture].PictureProblem(err)
		}
		sheet.Pixels = pixels
		page, err := sheet.Page(j.Setting, sheetNumber(i, len(sheets)))
		if err != nil {
			return nil, fmt.Errorf("%s: %w", sheet.Reading.Name, err)
		}
		doc.Pages = append(doc.Pages, page)
	}
	if len(readings) == 1 {
		doc.Title = readings[0].Name
	}
	kind, _ := format.Find(strings.TrimPrefix(strings.ToLower(filepath.Ext(path)), "."))
	return renderAll(doc, []target{{path, kind}}, j)
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
	j := job.Default()
	doc := render.Document{Title: "Marks", About: madeFrom("marks", nil, "")}
	for i, path := range paths {
		file, err := reading.LoadMarks(path, c.InOrStdin())
		if err != nil {
			return err
		}
		f.inputs = append(append(f.inputs, path), file.Inputs()...)
		var pixels *image.RGBA
		if file.Marks.Picture != "" {
			if pixels, err = pixelsOf(file.Marks.PicturePath()); err != nil {
				return file.PictureProblem(err)
			}
		}
		doc.Pages = append(doc.Pages, photo.Check(&file.Marks, pixels, j.Setting, sheetNumber(i, len(paths))))
	}
	var out []output
	for _, path := range f.out {
		kind, known := format.Find(strings.TrimPrefix(strings.ToLower(filepath.Ext(path)), "."))
		if !known {
			return usagef("-o %s: unknown kind of file; want a name that ends in %s", path, endings())
		}
		drawn, err := renderAll(doc, []target{{path, kind}}, j)
		if err != nil {
			return err
		}
		out = append(out, drawn...)
	}
	return f.finish(c, set, nil, out, nil)
}

// madeFrom is what a file says of how it was made: nothing of a photograph's own file, and no path of the user's.
func madeFrom(what string, readings []reading.Reading, against string) render.About {
	names := slice.Map(readings, func(r reading.Reading) string { return r.Name })
	job := "# " + strings.TrimSpace(what+" "+strings.Join(names, ", "))
	if against != "" {
		job += ", held against " + segments.Stem(against)
	}
	return render.About{Program: program, Job: job + "\n"}
}

// sheetNumber says which of several sheets one is.
func sheetNumber(i, n int) string {
	if n == 1 {
		return ""
	}
	return fmt.Sprintf("%d/%d", i+1, n)
}
