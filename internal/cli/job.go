package cli

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/render/sheet"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// settingKeys are the keys of a brief about its sheets: the flags' names, sheets in the plural.
func settingKeys() []string {
	return []string{"sheets", "given", "against", "count", "view", "angle", "camera", "turn", "eye", "distance", "lens", "tilt", "near-wheel", "paper", "portrait", "scale", "tile", "facing", "guides", "labels", "units", "ink", "outline", "checks", "frame", "title", "author", "dpi", "transparent"}
}

// flagOf is the flag that says the same as a brief's key.
func flagOf(key string) string {
	if key == "sheets" {
		return "sheet"
	}
	return key
}

// job reads segments and briefs, lays the flags over them and solves every plan. It also returns the brief to save, if one was asked for.
func (f *drawFlags) job(c *cobra.Command, args []string) (request.Request, []output, error) {
	fail := func(err error) (request.Request, []output, error) { return request.Request{}, nil, err }
	if err := f.checkSave(); err != nil {
		return fail(err)
	}
	files, err := loadBriefs(args)
	if err != nil {
		return fail(err)
	}
	kinds, setting, err := f.setting(c.Flags(), files)
	if err != nil {
		return fail(err)
	}
	job := request.Request{Kinds: kinds, Setting: setting, Count: f.count}
	if job.Plans, err = f.plans(files); err != nil {
		return fail(err)
	}
	if job.Against, err = f.compared(); err != nil {
		return fail(err)
	}
	if err := sheet.Check(job); err != nil {
		return fail(usageError{err.Error()})
	}
	// A brief may say it of sheets that a flag has replaced.
	if c.Flags().Changed("given") && !slices.Contains(kinds, request.Practice) && !slices.Contains(kinds, request.Answer) {
		return fail(usagef("--given goes with --sheet practice or answer"))
	}
	if slices.ContainsFunc(job.Plans, func(p layout.Plan) bool { return p.Brief.Summary() != "" }) { // a typical plan is told as what it is; nothing else needs to be read for it
		job.Among = segments.All()
	}
	if f.save == "" {
		return job, nil, nil
	}
	if err := f.savesOverSource(job); err != nil {
		return fail(err)
	}
	picture, _ := f.picture() // the setting has seen to it that there is one
	folder := filepath.Dir(f.save)
	text := sheet.Written(job, func(path string) string { return relative(folder, path) }) + pictureKeys(picture)
	return job, []output{{f.save, []byte(text)}}, nil
}

// plans solves every vehicle of the files with the flags laid over it, and notes the names by which they are drawn.
func (f *drawFlags) plans(files []*segments.BriefFile) ([]layout.Plan, error) {
	var plans []layout.Plan
	var failed []error
	for _, file := range files {
		f.names = append(f.names, file.Name)
		for _, b := range file.Briefs {
			b, err := f.planFlags.brief(b)
			if err != nil {
				return nil, err
			}
			plan, err := solve(b)
			if err != nil {
				failed = append(failed, err)
			}
			plans = append(plans, plan)
		}
	}
	return plans, errors.Join(failed...)
}

// checkSave refuses what --save cannot do.
func (f *drawFlags) checkSave() error {
	ext := filepath.Ext(f.save)
	switch {
	case f.save == "":
	case ext != ".yaml" && ext != ".yml" || filepath.Base(f.save) == ext:
		return usagef("--save %s: want a name that ends in .yaml", f.save)
	}
	return nil
}

// savesOverSource refuses to write a brief over a file that it is made of.
func (f *drawFlags) savesOverSource(job request.Request) error {
	if refuseInput(f.save, filesOf(job, f.against, f.camera)) != nil {
		return usagef("--save %s: the brief is made of this file; want another name", f.save)
	}
	return nil
}

// solve is layout.Solve with a clash in words. The brief is solved in its one form, so that all who mean the same get the same.
func solve(b segments.Brief) (layout.Plan, error) {
	plan, err := layout.Solve(b.Canonical())
	var clash *layout.Clash
	if errors.As(err, &clash) {
		return plan, told(clash)
	}
	return plan, err
}

// loadBriefs finds each segment or reads each file. Mistakes in files are told all at once, file by file.
func loadBriefs(args []string) ([]*segments.BriefFile, error) {
	var found []*segments.BriefFile
	var mistakes []error
	for _, name := range args {
		b, err := segments.LoadBrief(name, settingKeys())
		var inFile *strict.Problems
		switch {
		case errors.As(err, &inFile):
			mistakes = append(mistakes, err)
		case err != nil && segments.IsName(name):
			return nil, usageError{err.Error()}
		case err != nil:
			return nil, err
		}
		found = append(found, b)
	}
	return found, errors.Join(mistakes...)
}

// setting reads the flags about sheets, and for those that were not given what the briefs say.
func (f *drawFlags) setting(flags *pflag.FlagSet, files []*segments.BriefFile) ([]request.Kind, request.Setting, error) {
	fail := func(err error) ([]request.Kind, request.Setting, error) { return nil, request.Setting{}, err }
	from := map[string]segments.Setting{}
	for _, file := range files {
		for _, s := range file.Settings {
			key := flagOf(s.Key)
			before, twice := from[key]
			switch {
			case flags.Changed(key):
			case twice && !slices.Equal(before.Words, s.Words):
				s.Problem(fmt.Sprintf("%s; another brief of this command says %s; want them to agree, or --%s",
					strings.Join(s.Words, ", "), strings.Join(before.Words, ", "), key))
			default:
				from[key] = s
				take(flags.Lookup(key).Value, s)
			}
		}
	}
	kinds, setting, wrong := f.settingFlags.read(func(key string) bool { _, there := from[key]; return there || flags.Changed(key) })
	var usage []string
	for _, w := range wrong {
		if s, there := from[w.key]; there {
			s.Problem(w.text)
		} else {
			usage = append(usage, "--"+w.key+": "+w.text)
		}
	}
	var mistakes []error
	for _, file := range files {
		if err := file.Err(); err != nil {
			mistakes = append(mistakes, err)
		}
	}
	switch {
	case usage != nil:
		return fail(usageError{strings.Join(usage, "\n")})
	case mistakes != nil || f.inFile != nil:
		return fail(errors.Join(append(mistakes, f.inFile)...))
	}
	return kinds, setting, f.checkCamera(setting.Views, flags.Changed)
}

// checkSettings judges what briefs say about their sheets for commands that draw none.
func checkSettings(files []*segments.BriefFile) error {
	var f drawFlags
	c := &cobra.Command{}
	f.settingFlags.register(c)
	_, _, err := f.setting(c.Flags(), files)
	return err
}

// take gives a flag the words of a brief. What is wrong with them is reported when the setting is read, but for yes and no,
// which flags hold as such.
func take(flag pflag.Value, s segments.Setting) {
	if list, ok := flag.(pflag.SliceValue); ok {
		_ = list.Replace(s.Words) // of texts: never fails
		return
	}
	if len(s.Words) != 1 {
		s.Problem("a list; want one value")
		return
	}
	if err := flag.Set(s.Words[0]); err != nil {
		s.Problem(strict.Excerpt(s.Words[0]) + "; want true or false")
	}
}

// relative turns a path into one from folder, in quotes.
func relative(folder, nameOrPath string) string {
	if filepath.IsAbs(nameOrPath) {
		return fmt.Sprintf("%q", nameOrPath)
	}
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
