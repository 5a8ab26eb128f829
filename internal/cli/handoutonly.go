package cli

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"

	"hubrule/render/class"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// choose puts the students whose sheets are printed into a class: those of --only, else all who are not absent. It returns a note about
// those who are.
func (f *handoutFlags) choose(path string, all []segments.Student, group *class.Class) (note string, err error) {
	chosen, err := f.chosen(path, all)
	if err != nil {
		return "", err
	}
	for i, s := range all {
		switch {
		case chosen != nil && !chosen[i]:
			continue
		case chosen == nil && s.Absent:
			group.Absent = append(group.Absent, s.Name)
			continue
		}
		group.Students = append(group.Students, class.Student{Name: s.Name, Number: s.Number, Set: s.Set, Facing: request.Facing(s.Facing)})
	}
	switch {
	case len(group.Students) == 0:
		return "", errors.New("all students are absent; --only prints the sheets of one of them")
	case len(group.Absent) > 0:
		return "absent, so without sheets: " + strings.Join(group.Absent, ", "), nil
	}
	return "", nil
}

// chosen returns for each student whether --only names them; nil without the flag.
func (f *handoutFlags) chosen(path string, all []segments.Student) ([]bool, error) {
	if f.only == nil {
		return nil, nil
	}
	out := make([]bool, len(all))
	for _, given := range f.only {
		if i := findStudent(given, all); i >= 0 { // a name may have a comma in it
			out[i] = true
			continue
		}
		for name := range strings.SplitSeq(given, ",") {
			i := findStudent(name, all)
			if strings.TrimSpace(name) == "" {
				return nil, usagef("--only: %s", strict.EmptyItem)
			}
			if i < 0 {
				return nil, usagef("--only: %s", unknownStudent(path, strings.TrimSpace(name), all))
			}
			out[i] = true
		}
	}
	return out, nil
}

// calledInClass is what --only calls a student: the name, or the number where there are no names.
func calledInClass(s segments.Student) string {
	if s.Name == "" {
		return fmt.Sprint(s.Number)
	}
	return s.Name
}

// findStudent returns the index of the student of a name, whatever its capitals, or −1.
func findStudent(name string, all []segments.Student) int {
	name = norm.NFC.String(strings.Join(strings.Fields(name), " "))
	return slices.IndexFunc(all, func(s segments.Student) bool { return strings.EqualFold(calledInClass(s), name) })
}

// unknownStudent is the message for a name that no student has, with the nearest: one with the same word in it, or one with few other
// letters.
func unknownStudent(path, name string, all []segments.Student) string {
	const fewest = 8 // names to list: judged by eye
	var names []string
	near := ""
	for _, s := range all {
		called := calledInClass(s)
		names = append(names, called)
		if near == "" && slices.ContainsFunc(strings.Fields(called), func(word string) bool { return strings.EqualFold(word, name) }) {
			near = called
		}
	}
	if best := strict.Nearest(name, names); best != "" {
		near = best
	}
	unknown := "unknown student " + strict.Quote(name)
	switch {
	case near != "":
		return fmt.Sprintf("%s; did you mean %q?", unknown, near)
	case all[0].Name == "":
		return fmt.Sprintf("%s; %s has no names; want a number from 1 to %d", unknown, path, len(all))
	case len(names) <= fewest:
		return fmt.Sprintf("%s; want %s", unknown, strict.JoinOr(names))
	}
	return fmt.Sprintf("%s; want one of the %d names in %s", unknown, len(names), path)
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
