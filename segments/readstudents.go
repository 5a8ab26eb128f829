package segments

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/text/unicode/norm"

	"hubrule/segments/strict"
)

// Student is one student of a class file.
type Student struct {
	Name   string // composed (NFC), with single spaces; "" where the file only says how many there are
	Number int    // place in the file, from 1
	Facing string // "left", "right" or ""
	Set    string // whole number that picks another draw of this student's figures, or ""
	Absent bool
}

// students reads how many there are, who they are, or which file lists them.
func (c *ClassFile) students() {
	v, _ := c.Table.Need("students", "students: and how many, a list, or a .txt or .csv file")
	text, plain := v.Scalar()
	switch {
	case plain && isRoster(text):
		c.Roster = text
		if !filepath.IsAbs(text) {
			c.Roster = filepath.Join(c.Folder, text)
		}
		if c.library.Files != nil && c.library.Files.closed {
			v.Want("how many there are, or a list of names: files are read only where the program was started with them")
			return
		}
		data, err := strict.ReadFile(c.Roster, "a list of students")
		if err != nil {
			v.Problem("%v", err)
			return
		}
		c.Students, err = ReadRoster(c.Roster, data)
		c.nested = append(c.nested, err)
	case plain:
		if _, number := strict.ParseNumber(text); !number {
			v.Want("how many there are, a list of names, or a file that ends in .txt or .csv")
			return
		}
		n, _ := whole(v, 1, maxStudents)
		for i := range int(n) {
			c.Students = append(c.Students, Student{Number: i + 1})
		}
	default:
		items, _ := v.Items(1, maxStudents)
		var known names
		for i, item := range items {
			s, at := readStudent(item)
			s.Number = i + 1
			c.Students = append(c.Students, s)
			if other, twice := known.add(s.Name, at.OnLine(fmt.Sprintf("student %d", s.Number))); twice {
				at.Problem("%s", other)
			}
		}
	}
}

// readStudent reads a name, or a table with a name. It also returns where the name stands.
func readStudent(v strict.Value) (Student, strict.Value) {
	var out Student
	at := v
	if v.IsTable() {
		t := v.Table("key", rosterColumns())
		at, _ = t.Need("name", "name: and the student's name")
		out.Facing = t.Choice("facing", "side", sides())
		if set, ok := t.Get("set"); ok {
			n, _ := whole(set, -maxSeed, maxSeed)
			out.Set = formatSet(n)
		}
		if absent, ok := t.Get("absent"); ok {
			out.Absent, _ = absent.Bool()
		}
	} else if _, plain := v.Scalar(); !plain {
		v.Table("key", rosterColumns()) // reports what it is instead
		return out, v
	}
	name, _ := line(at, maxName)
	out.Name = plainName(name)
	return out, at
}

// Listed writes each student as YAML; isList is false where the file only says how many there are.
func (c *ClassFile) Listed() (items []string, isList bool) {
	for _, s := range c.Students {
		fields := []string{strict.Plain(s.Name)}
		if s.Facing+s.Set != "" || s.Absent {
			fields[0] = "name: " + fields[0]
		}
		if s.Facing != "" {
			fields = append(fields, "facing: "+s.Facing)
		}
		if s.Set != "" {
			fields = append(fields, "set: "+s.Set)
		}
		if s.Absent {
			fields = append(fields, "absent: true")
		}
		item := strings.Join(fields, ", ")
		if strings.HasPrefix(item, "name: ") {
			item = "{" + item + "}"
		}
		items, isList = append(items, item), isList || s.Name != ""
	}
	return items, isList
}

// sides are the values of facing.
func sides() []string { return []string{"left", "right"} }

// rosterColumns are the keys of a student.
func rosterColumns() []string { return []string{"name", "facing", "set", "absent"} }

// formatSet writes one number in one way, so that 7 and +7 pick the same draw.
func formatSet(n float64) string { return strconv.FormatInt(int64(n), 10) }

// plainName returns a name as all of the program knows it. Some keyboards write an accent as a mark of its own after the letter; composed,
// it is one letter that the face has.
func plainName(name string) string { return norm.NFC.String(strings.Join(strings.Fields(name), " ")) }

// names knows where each name so far stands, whatever its capitals: some systems keep only one of two files that differ in them.
type names map[string]string

// add notes a name. Where it is known, it returns the message about that.
func (n *names) add(name, where string) (message string, twice bool) {
	key := strings.ToLower(name)
	if name == "" {
		return "", false // reported already
	}
	if *n == nil {
		*n = names{}
	}
	if first, ok := (*n)[key]; ok {
		return fmt.Sprintf("%s is also %s; add an initial to tell them apart, like %s",
			strict.Quote(name), first, strict.Quote(withInitial(name))), true
	}
	(*n)[key] = where
	return "", false
}

// withInitial returns a name with an initial after its first word.
func withInitial(name string) string {
	words := strings.Fields(name)
	return strings.Join(slices.Insert(words, 1, "B."), " ")
}
