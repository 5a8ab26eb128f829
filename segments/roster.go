package segments

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"hubrule/segments/strict"
)

// isRoster reports whether a text names a file that lists students.
func isRoster(text string) bool {
	return slices.Contains([]string{".txt", ".csv"}, strings.ToLower(filepath.Ext(text)))
}

// roster is a list of students while it is read.
type roster struct {
	file     string
	students []Student
	known    names
	errs     []error
}

// ReadRoster reads a list of students: a .txt with one name a line, or a .csv whose first line names its columns. The error holds
// everything that is wrong with it, each with its line.
func ReadRoster(path string, data []byte) ([]Student, error) {
	r := roster{file: path}
	data = bytes.TrimPrefix(data, []byte("\ufeff")) // which spreadsheets write first
	switch bad := notUTF8(data); {
	case len(data) > strict.MaxSize:
		r.report(1, "larger than %d bytes; want less", strict.MaxSize)
	case bad > 0:
		r.report(bad, "not UTF-8; save the list as a text file in UTF-8")
	case strings.EqualFold(filepath.Ext(path), ".csv"):
		r.readTable(data)
	default:
		for i, text := range strings.Split(string(data), "\n") {
			if strings.TrimSpace(text) != "" {
				r.add(i+1, Student{Name: text})
			}
		}
	}
	if n := len(r.students); len(r.errs) == 0 && (n == 0 || n > maxStudents) {
		r.report(1, "%d students; want 1 to %d", n, maxStudents)
	}
	return r.students, errors.Join(r.errs...)
}

// notUTF8 returns the first line of data that is no UTF-8, or 0.
func notUTF8(data []byte) int {
	n := 0
	for line := range bytes.Lines(data) {
		if n++; !utf8.Valid(line) {
			return n
		}
	}
	return 0
}

func (r *roster) report(line int, format string, args ...any) {
	r.errs = append(r.errs, fmt.Errorf("%s:%d: %s", r.file, line, fmt.Sprintf(format, args...)))
}

// add checks a student's name and adds the student.
func (r *roster) add(line int, s Student) {
	name := strings.TrimSpace(s.Name)
	if want := wantOfLine(name, maxName); want != "" {
		r.report(line, "name: %s; want %s", strict.Excerpt(name), want)
		return
	}
	s.Name, s.Number = plainName(name), len(r.students)+1
	if message, twice := r.known.add(s.Name, fmt.Sprintf("on line %d", line)); twice {
		r.report(line, "%s", message)
	}
	r.students = append(r.students, s)
}

// readTable reads a .csv, with commas, semicolons or tabs.
func (r *roster) readTable(data []byte) {
	reader := csv.NewReader(bytes.NewReader(data))
	head, _, _ := bytes.Cut(data, []byte("\n"))
	for _, comma := range ";\t" {
		if bytes.ContainsRune(head, comma) {
			reader.Comma = comma
		}
	}
	reader.TrimLeadingSpace = reader.Comma != '\t' // which is a blank too: an empty field would be lost
	columns, ok := r.columns(reader)
	for ok {
		fields, err := reader.Read()
		var wrong *csv.ParseError
		switch {
		case err == io.EOF:
			return
		case errors.As(err, &wrong) && errors.Is(err, csv.ErrFieldCount):
			r.report(wrong.Line, "want %d fields as on the first line, not %d", len(columns), len(fields))
		case errors.As(err, &wrong):
			r.report(wrong.Line, "not CSV: %v", wrong.Err)
			return
		default:
			line, _ := reader.FieldPos(0)
			r.row(line, columns, fields)
		}
	}
}

// columns reads the first line, and reports whether it names the columns.
func (r *roster) columns(reader *csv.Reader) ([]string, bool) {
	const want = "want a first line that names the columns: name, and any of facing, set and absent"
	columns, err := reader.Read()
	if err != nil {
		r.report(1, "no names of columns; %s", want)
		return nil, false
	}
	for i, c := range columns {
		columns[i] = strings.ToLower(strings.TrimSpace(c))
	}
	if !slices.Contains(columns, "name") {
		r.report(1, "no column name; %s", want)
		return nil, false
	}
	for i, c := range columns {
		if !slices.Contains(rosterColumns(), c) {
			r.report(1, "%s", strict.Unknown("column", c, rosterColumns()))
		} else if slices.Contains(columns[:i], c) {
			r.report(1, "two columns %s; want one", c)
		}
	}
	return columns, len(r.errs) == 0
}

// row reads one student. A line of empty fields, which spreadsheets leave at the end, is none.
func (r *roster) row(line int, columns, fields []string) {
	if strings.TrimSpace(strings.Join(fields, "")) == "" {
		return
	}
	var s Student
	for i, text := range fields {
		text = strings.TrimSpace(text)
		want := ""
		switch column := columns[i]; {
		case column == "name":
			s.Name = text
		case text == "":
		case column == "facing":
			if s.Facing = strings.ToLower(text); !slices.Contains(sides(), s.Facing) {
				want = strict.JoinOr(sides())
			}
		case column == "set":
			n, err := strict.Bounds{Lo: -maxSeed, Hi: maxSeed, Whole: true}.Parse(text)
			if s.Set = formatSet(n); err != nil {
				r.report(line, "set: %v", err)
			}
		case column == "absent":
			s.Absent, want = readAbsent(text)
		}
		if want != "" {
			r.report(line, "%s: %s; want %s", columns[i], strict.Excerpt(text), want)
		}
	}
	r.add(line, s)
}

// readAbsent reads a mark for somebody absent, or returns what is wanted instead.
func readAbsent(text string) (absent bool, want string) {
	switch strings.ToLower(text) {
	case "true", "yes", "x", "1":
		return true, ""
	case "false", "no", "0":
		return false, ""
	}
	return false, "true, yes or x, or nothing"
}
