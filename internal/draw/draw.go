// Package draw turns a job into the bytes of its files: it solves the vehicles, composes the pages and renders them in memory. Whoever
// asks for a drawing gets it from here, so that equal jobs give equal files.
package draw

import (
	"context"
	"errors"
	"fmt"
	"iter"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"hubrule/internal/job"
	"hubrule/internal/report"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/format"
	"hubrule/render/request"
	"hubrule/render/sheet"
	"hubrule/segments"
)

// Version is printed by --version; incremented with each release.
const Version = "1.0.0"

// Program is what the metadata of files names as their maker.
const Program = "hubrule " + Version

// MostPages is more than a class of forty draws in a year. Judged by eye.
const MostPages = 20_000

// Solve solves every vehicle of the briefs with the overrides laid over it, and those that they are compared with, and enters the plans
// into the job. Notes are what the user should know of the vehicles before anything is drawn.
func Solve(j *job.Job, over job.Overrides, briefs []*segments.BriefFile) (notes []string, err error) {
	var failed []error
	for _, file := range briefs {
		for _, b := range file.Briefs {
			b, more, err := over.Apply(b)
			if err != nil {
				return nil, err
			}
			notes = append(notes, append(more, report.GaveWay(b)...)...)
			plan, err := report.Solve(b)
			failed = append(failed, err)
			j.Plans = append(j.Plans, plan)
		}
	}
	failed = append(failed, SolveAgainst(j))
	return append(notes, NotesAgainst(*j)...), errors.Join(failed...)
}

// SolveAgainst solves the vehicles that a job compares its own with.
func SolveAgainst(j *job.Job) error {
	var failed []error
	for i, b := range j.Compared {
		plan, err := report.Solve(b.Brief)
		if err != nil {
			failed = append(failed, fmt.Errorf("%s: %w", b.Place, err))
		}
		j.Against[i] = plan
	}
	return errors.Join(failed...)
}

// NotesAgainst lists what the user should know of the vehicles that a job compares its own with.
func NotesAgainst(j job.Job) []string {
	var out []string
	for _, c := range j.Compared {
		out = append(out, VehicleNotes(c.Brief)...)
	}
	return out
}

// VehicleNotes are the notes of a vehicle that no flag bends: what its tweaks do not do, overhangs that were probably meant from the axle,
// and what gave way.
func VehicleNotes(b segments.Brief) []string {
	return slices.Concat(b.Notes(), layout.PinNotes(b), report.GaveWay(b))
}

// PlanNotes returns what the user should know of solved plans, and warns of those that read as no segment.
func PlanNotes(plans []layout.Plan) (notes, warnings []string) {
	for _, p := range plans {
		notes, warnings = slices.Concat(notes, p.Brief.Notes(), p.Rounded()), append(warnings, report.Extremes(p))
	}
	return notes, warnings
}

// Compose draws the pages of a request unless they are more than most, or ctx ends.
func Compose(ctx context.Context, r request.Request, most float64) (render.Document, request.Messages, error) {
	if err := CheckPages(sheet.Count(r), most); err != nil {
		return render.Document{}, request.Messages{}, err
	}
	doc, messages, err := sheet.ComposeUntil(ctx, r)
	if err == nil {
		err = CheckPages(len(doc.Pages), most) // of tiles
	}
	doc.About.Program = Program
	return doc, messages, err
}

// CheckPages refuses more pages than are allowed.
func CheckPages(pages int, most float64) error {
	if float64(pages) > most {
		return fmt.Errorf("%d pages; want 1 to %.0f, or more with --max-pages", pages, most)
	}
	return nil
}

// Render turns pages into the files of a format, in memory: one, or one a page. Sizes are the pages without their marks. The document's
// own pages are not looked at: they may be made one at a time, and are not kept.
func Render(doc render.Document, pages iter.Seq2[render.Page, error], f format.Format, j job.Job) (
	files [][]byte, sizes []render.Page, err error) {
	if f.Raster {
		doc.About.Job = InASCII(doc.About.Job)
	}
	doc.About.Job += job.WrittenOptions(j, f)
	files, err = f.FilesOf(doc, func(yield func(render.Page, error) bool) {
		for p, err := range pages {
			sizes = append(sizes, render.Page{Width: p.Width, Height: p.Height, Wheel: p.Wheel})
			if !yield(p, err) {
				return
			}
		}
	}, j.Picture)
	return files, sizes, err
}

// Saved returns a job as a brief in a folder that draws the same files in any format.
func Saved(j job.Job, folder string) string {
	named := func(path string) string { return relative(folder, path) }
	return job.Written(j.Request, named) + job.WrittenOptions(j, format.All()...)
}

// relative turns a path into one from folder, in quotes: files that move together are found again.
func relative(folder, nameOrPath string) string {
	from, err := filepath.Abs(folder)
	to, err2 := filepath.Abs(nameOrPath)
	if rel, err3 := filepath.Rel(from, to); errors.Join(err, err2, err3) == nil {
		nameOrPath = filepath.ToSlash(rel)
		if !strings.HasPrefix(nameOrPath, "../") {
			nameOrPath = "./" + nameOrPath
		}
	}
	return fmt.Sprintf("%q", nameOrPath)
}

// InASCII spells letters beyond ASCII as YAML does in quotes, where those of a brief all stand: programs show the Latin-1 of a PNG as
// bytes that are no UTF-8, and many pass over its UTF-8.
func InASCII(brief string) string {
	var b strings.Builder
	for _, r := range brief {
		if r <= 0x7e {
			b.WriteRune(r)
		} else {
			b.WriteString(strings.Trim(strconv.QuoteRuneToASCII(r), "'"))
		}
	}
	return b.String()
}

// FilesOf lists the files that a job is made of: profiles, tweaks, and those of more that are paths and not names.
func FilesOf(r request.Request, more ...string) []string {
	more = slices.Clone(more)
	for _, p := range slices.Concat(r.Plans, r.Against) {
		more = append(more, p.Brief.Source)
		for _, d := range p.Brief.Tweaks {
			more = append(more, d.Source)
		}
	}
	return slices.DeleteFunc(more, segments.IsName)
}
