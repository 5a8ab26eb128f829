// Package handout turns a class file into the pages of its two files, in their order: the students' sheets and the key. Whoever hands a
// class out gets them from here, so that equal classes give equal files.
package handout

import (
	"cmp"
	"errors"
	"io"
	"slices"

	"golang.org/x/text/unicode/norm"

	"hubrule/internal/draw"
	"hubrule/internal/job"
	"hubrule/internal/report"
	"hubrule/layout"
	"hubrule/render/class"
	"hubrule/segments"
)

// Job is a class without its students, the files that it is made of, and the students to choose from.
type Job struct {
	class.Class
	Inputs   []string
	Enrolled []segments.Student
	Listed   string   // the file that lists them
	Notes    []string // about its vehicles, each once
}

// Load reads a class file, - from in, and solves its plans.
func Load(path string, in io.Reader) (Job, error) {
	file, jobs, err := job.LoadClass(nil, path, in)
	if err != nil {
		return Job{}, err
	}
	return Solve(path, file, jobs)
}

// Solve solves the plans of a class file that was read from a path.
func Solve(path string, file *segments.ClassFile, jobs []job.Job) (Job, error) {
	// Some keyboards write an accent as a mark of its own after the letter; composed, it is one letter that the face has.
	group := class.Class{Title: norm.NFC.String(file.Title), Date: file.Date, Vary: file.Vary, Seed: file.Seed, ByPage: file.ByPage}
	inputs := []string{path}
	if file.Roster != "" {
		inputs = append(inputs, file.Roster)
	}
	var failed []error
	var notes []string
	for i, p := range file.Pages {
		j := jobs[i]
		plan, err := report.Solve(p.Brief)
		failed = append(failed, err, draw.SolveAgainst(&j))
		j.Plans = []layout.Plan{plan}
		for _, note := range slices.Concat(draw.VehicleNotes(p.Brief), plan.Rounded(), draw.NotesAgainst(j)) {
			if !slices.Contains(notes, note) { // pages may share a vehicle
				notes = append(notes, note)
			}
		}
		group.Pages = append(group.Pages, class.Page{Request: j.Request, Copies: p.Copies})
		inputs = append(inputs, draw.FilesOf(j.Request, j.Files...)...)
	}
	return Job{group, inputs, file.Students, cmp.Or(file.Roster, path), notes}, errors.Join(failed...)
}

// Words lists the words of a class file that its sheets show.
func Words(group class.Class) []string {
	out := append([]string{group.Title}, group.Absent...)
	for _, p := range group.Pages {
		out = append(out, p.Request.Plans[0].Profile.Title, p.Request.Setting.Title)
	}
	for _, s := range group.Students {
		out = append(out, s.Name)
	}
	return out
}
