package cli

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"hubrule/internal/job"
	"hubrule/internal/report"
	"hubrule/layout"
	"hubrule/render/format"
	"hubrule/segments"
)

// job reads segments and briefs, lays the flags over them and solves every plan. It also returns the brief to save, if one was asked for.
func (f *drawFlags) job(c *cobra.Command, args []string) (job.Job, []output, error) {
	fail := func(err error) (job.Job, []output, error) { return job.Job{}, nil, err }
	if ext := filepath.Ext(f.save); f.save != "" && (ext != ".yaml" && ext != ".yml" || filepath.Base(f.save) == ext) {
		return fail(usagef("--save %s: want a name that ends in .yaml", f.save))
	}
	briefs, err := job.LoadBriefs(withAll(args), c.InOrStdin())
	if err != nil {
		return fail(err)
	}
	var r job.Reader
	readSettings(&r, c.Flags())
	for _, b := range briefs {
		r.Brief(b)
		f.names = append(f.names, b.Name)
	}
	if len(args) == 1 && namesAll(args[0]) {
		f.names = []string{everySegment}
	}
	j, err := r.Job()
	if err != nil {
		return fail(err)
	}
	f.notes = r.Notes
	if err := f.solve(&j, briefs); err != nil {
		return fail(err)
	}
	if err := r.Check(j.Request); err != nil {
		return fail(err)
	}
	if f.save == "" {
		return j, nil, nil
	}
	made := filesOf(j.Request, j.Files...)
	if i := slices.IndexFunc(made, segments.IsStream); i >= 0 {
		return fail(usagef("--save: the brief would name %s, which cannot be read again; want it in a file", made[i]))
	}
	if refuseInput(f.save, made) != nil {
		return fail(usagef("--save %s: the brief is made of this file; want another name", f.save))
	}
	folder := filepath.Dir(f.save)
	text := job.Written(j.Request, func(path string) string { return relative(folder, path) }) + job.WrittenOptions(j,
		format.All()...)
	return j, []output{{f.save, []byte(text), fileFacts{pages: "brief"}}}, nil
}

// everySegment stands for all segments of the catalogue.
const everySegment = "all"

func namesAll(arg string) bool { return strings.EqualFold(arg, everySegment) }

// withAll puts the names of all segments where the word for them stands.
func withAll(args []string) []string {
	var out []string
	for _, arg := range args {
		if namesAll(arg) {
			out = append(out, segments.Names()...)
		} else {
			out = append(out, arg)
		}
	}
	return out
}

// solve solves every vehicle of the briefs with the flags laid over it, and those that they are compared with.
func (f *drawFlags) solve(j *job.Job, briefs []*segments.BriefFile) error {
	var failed []error
	for _, file := range briefs {
		for _, b := range file.Briefs {
			b, notes, err := f.Apply(b)
			if err != nil {
				return err
			}
			f.notes = append(f.notes, append(notes, report.GaveWay(b)...)...)
			plan, err := report.Solve(b)
			failed = append(failed, err)
			j.Plans = append(j.Plans, plan)
		}
	}
	failed = append(failed, solveAgainst(j))
	f.notes = append(f.notes, notesAgainst(*j)...)
	return errors.Join(failed...)
}

// notesAgainst lists what the user should know of the vehicles that a job compares its own with.
func notesAgainst(j job.Job) []string {
	var out []string
	for _, c := range j.Compared {
		out = append(out, vehicleNotes(c.Brief)...)
	}
	return out
}

// vehicleNotes are the notes of a vehicle that no flag bends: what its tweaks do not do, overhangs that were probably meant from the axle,
// and what gave way.
func vehicleNotes(b segments.Brief) []string {
	return slices.Concat(b.Notes(), layout.PinNotes(b), report.GaveWay(b))
}

// solveAgainst solves the vehicles that a job compares its own with.
func solveAgainst(j *job.Job) error {
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
