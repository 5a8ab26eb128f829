package cli

import (
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"hubrule/internal/draw"
	"hubrule/internal/job"
	"hubrule/segments"
)

// job reads segments and briefs, lays the flags over them and solves every plan. It also returns the brief to save, if one was asked for.
func (f *drawFlags) job(c *cobra.Command, args []string) (job.Job, []output, error) {
	fail := func(err error) (job.Job, []output, error) { return job.Job{}, nil, err }
	if ext := filepath.Ext(f.save); f.save != "" && (ext != ".yaml" && ext != ".yml" || filepath.Base(f.save) == ext) {
		return fail(usagef("--save %s: want a name that ends in .yaml", f.save))
	}
	briefs, err := job.LoadBriefs(nil, withAll(args), c.InOrStdin())
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
	notes, err := draw.Solve(&j, f.Overrides, briefs)
	if err != nil {
		return fail(err)
	}
	f.notes = append(r.Notes, notes...)
	if err := r.Check(j.Request); err != nil {
		return fail(err)
	}
	if f.save == "" {
		return j, nil, nil
	}
	made := draw.FilesOf(j.Request, j.Files...)
	if i := slices.IndexFunc(made, segments.IsStream); i >= 0 {
		return fail(usagef("--save: the brief would name %s, which cannot be read again; want it in a file", made[i]))
	}
	if refuseInput(f.save, made) != nil {
		return fail(usagef("--save %s: the brief is made of this file; want another name", f.save))
	}
	text := draw.Saved(j, filepath.Dir(f.save))
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
