package handout

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

// Choose puts the students whose sheets are printed into the class: those that are chosen, each given by its index, or with nil all who are not
// absent.
func (j *Job) Choose(chosen []bool) error {
	for i, s := range j.Enrolled {
		switch {
		case chosen != nil && !chosen[i]:
			continue
		case chosen == nil && s.Absent:
			j.Absent = append(j.Absent, s.Name)
			continue
		}
		j.Students = append(j.Students, Student(s))
	}
	if len(j.Students) == 0 {
		return errors.New("all students are absent; --only prints the sheets of one of them")
	}
	return nil
}

// Student returns a student of a class file as one of a class.
func Student(s segments.Student) class.Student {
	return class.Student{Name: s.Name, Number: s.Number, Set: s.Set, Facing: request.Facing(s.Facing)}
}

// calledInClass is what a student is called: the name, or the number where there are no names.
func calledInClass(s segments.Student) string {
	if s.Name == "" {
		return fmt.Sprint(s.Number)
	}
	return s.Name
}

// Find returns the index of the student of a name, whatever its capitals, or −1.
func (j *Job) Find(name string) int {
	name = norm.NFC.String(strings.Join(strings.Fields(name), " "))
	return slices.IndexFunc(j.Enrolled, func(s segments.Student) bool { return strings.EqualFold(calledInClass(s), name) })
}

// Unknown is the message for a name that no student has, with the nearest: one with the same word in it, or one with few other letters.
func (j *Job) Unknown(name string) string {
	const fewest = 8 // names to list: judged by eye
	var names []string
	near := ""
	for _, s := range j.Enrolled {
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
	case j.Enrolled[0].Name == "":
		return fmt.Sprintf("%s; %s has no names; want a number from 1 to %d", unknown, j.Listed, len(names))
	case len(names) <= fewest:
		return fmt.Sprintf("%s; want %s", unknown, strict.JoinOr(names))
	}
	return fmt.Sprintf("%s; want one of the %d names in %s", unknown, len(names), j.Listed)
}
