package cli

import (
	"strings"

	"hubrule/internal/handout"
	"hubrule/render/class"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// choose puts the students whose sheets are printed into a class: those of --only, else all who are not absent. It returns a note about
// those who are.
func (f *handoutFlags) choose(j *handout.Job) (note string, err error) {
	chosen, err := f.chosen(j)
	if err == nil {
		err = j.Choose(chosen)
	}
	if err != nil || j.Absent == nil {
		return "", err
	}
	return "absent, so without sheets: " + strings.Join(j.Absent, ", "), nil
}

// chosen returns for each student whether --only names them; nil without the flag.
func (f *handoutFlags) chosen(j *handout.Job) ([]bool, error) {
	if f.only == nil {
		return nil, nil
	}
	out := make([]bool, len(j.Enrolled))
	for _, given := range f.only {
		if i := j.Find(given); i >= 0 { // a name may have a comma in it
			out[i] = true
			continue
		}
		for name := range strings.SplitSeq(given, ",") {
			i := j.Find(name)
			if strings.TrimSpace(name) == "" {
				return nil, usagef("--only: %s", strict.EmptyItem)
			}
			if i < 0 {
				return nil, usagef("--only: %s", j.Unknown(strings.TrimSpace(name)))
			}
			out[i] = true
		}
	}
	return out, nil
}

// stem names the file of sheets where -o does not: like the class file, and with --only like whom it is for, so that it does not stand in
// the way of the whole class's.
func (f *handoutFlags) stem(path string, students []class.Student) string {
	out := segments.Stem(path)
	if segments.IsStream(path) {
		out = "class"
	}
	switch {
	case f.only == nil:
		return out
	case len(students) == 1:
		return out + "-" + fileName(students[0])
	}
	return out + "-only"
}
