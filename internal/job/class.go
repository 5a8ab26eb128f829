package job

import (
	"errors"
	"io"
	"maps"
	"slices"

	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// LoadClass is ReadClass of a file, - from in.
func LoadClass(files *segments.Files, path string, in io.Reader) (*segments.ClassFile, []Job, error) {
	doc, err := strict.LoadFrom(path, in)
	if err != nil {
		return nil, nil, err
	}
	if !doc.Is("class", "kind: class, students and pages") {
		return nil, nil, doc.Err()
	}
	return ReadClass(files, path, doc)
}

// ReadClass reads a class and makes a job of each page: its settings over those of the class. All mistakes are reported at once. Paths start
// from path's folder. Vehicles are not solved; each job has place for one plan.
func ReadClass(files *segments.Files, path string, doc *strict.Document) (*segments.ClassFile, []Job, error) {
	file := library(files).ReadClass(path, doc, classKeys(), pageKeys())
	var jobs []Job
	var readers []*Reader
	wrong := []error{nil}
	for _, page := range file.Pages {
		r := &Reader{class: true, Files: files}
		r.files = r.table(file.Table, file.Folder, inClass)
		maps.Copy(r.files, r.table(page.Table, file.Folder, inFile))
		j := r.read()
		j.Plans = make([]layout.Plan, 1)
		if err := r.checkPage(j.Request); err != nil {
			page.Problem(err.Error())
		}
		wrong = append(wrong, r.errs...)
		jobs, readers = append(jobs, j), append(readers, r)
	}
	reportIdle(file.Table, jobs, readers)
	wrong[0] = file.Err()
	return file, jobs, errors.Join(wrong...)
}

// checkPage refuses what a page of a class cannot be, besides the settings that were refused where they stand.
func (r *Reader) checkPage(page request.Request) error {
	switch {
	case page.Has(request.Demonstration):
		return errors.New("a demonstration is projected, not handed out; draw it with hubrule draw")
	case page.Has(request.Answer):
		return errors.New("an answer sheet does not go to students; the key is written apart, with --answers-to")
	case r.refused:
		return nil
	}
	return checkVehicles(page)
}

// reportIdle refuses the settings of a class that none of its pages use.
func reportIdle(class strict.Table, jobs []Job, readers []*Reader) {
	for _, s := range Settings() {
		v, ok := class.Get(s.Key)
		var all request.Request // of all pages together
		idle, used := false, false
		for i, r := range readers {
			if r.files[s.Name].place != inClass {
				continue // the page has its own
			}
			if slices.Contains(r.idle, s.Name) {
				idle = true
			} else {
				used = true
			}
			all.Kinds = append(all.Kinds, jobs[i].Kinds...)
			all.Setting.Views = append(all.Setting.Views, jobs[i].Setting.Seen()...)
		}
		switch {
		case !ok || s.outsideClass || used || len(jobs) == 0:
		case idle:
			v.Problem("no page uses it: it %s", keysFor(s.goesWith(all)))
		default:
			v.Problem("every page sets its own; set it in one place only")
		}
	}
}

// classKeys are the keys about sheets that a class may have for all its pages.
func classKeys() []string { return keys(func(s Setting) bool { return s.outsideClass }) }

// pageKeys are those that a page of a class may have.
func pageKeys() []string { return keys(func(s Setting) bool { return s.outsidePage }) }
