package desk

import (
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"hubrule/internal/geom"
	"hubrule/internal/handout"
	"hubrule/internal/job"
	"hubrule/internal/report"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// classFile is what a class of a call is called; paths in it start from the desk's folder. The others are the files that it is printed to.
const (
	classFile  = "class.yaml"
	sheetsFile = "class.pdf"
	keyFile    = "key.pdf"
)

// openClass reads the class that the page begins with.
func (d *Desk) openClass(path string, in io.Reader) error {
	file, jobs, err := job.LoadClass(d.files, path, in)
	if err != nil {
		return err
	}
	if _, err := handout.Solve(path, file, jobs); err != nil && !errors.As(err, new(*layout.Clash)) {
		return err
	}
	d.folder, d.first = segments.FolderOf(path), firstJob{Place: onHandout, Name: filepath.Base(path), Class: job.ClassJSON(file)}
	return nil
}

// parseClass reads a class without solving its vehicles.
func (d *Desk) parseClass(doc *strict.Document) (*segments.ClassFile, []job.Job, error) {
	return job.ReadClass(d.files, filepath.Join(d.folder, classFile), doc)
}

// classOf reads a class of a call and solves its vehicles.
func (d *Desk) classOf(data json.RawMessage) (*segments.ClassFile, handout.Job, error) {
	doc, err := strict.ParseJSON(data)
	if err != nil {
		return nil, handout.Job{}, malformed("class: " + err.Error())
	}
	if !doc.Is("class", "") {
		return nil, handout.Job{}, doc.Err()
	}
	file, jobs, err := d.parseClass(doc)
	if err != nil {
		return nil, handout.Job{}, err
	}
	j, err := handout.Solve("the class", file, jobs)
	return file, j, clashesInPlace(err)
}

// clashesInPlace turns the clashes of a class's pages into mistakes at their pins: one page that cannot be drawn is no answer to all.
func clashesInPlace(err error) error {
	many, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return err
	}
	return errors.Join(slice.Map(many.Unwrap(), func(err error) error {
		var clash report.ClashError
		if !errors.As(err, &clash) {
			return err
		}
		return errors.Join(slice.Map(clash.Sets, func(set layout.ClashSet) error {
			var pins, ways []string
			for _, p := range set.Pins {
				pins = append(pins, p.Figure.String()+" "+p.Written)
				if p.Suggestion != "" {
					ways = append(ways, fmt.Sprintf("%s %s would work", p.Figure, p.Suggestion))
				}
			}
			text := strings.Join(pins, " and ") + " cannot hold: " + report.ClashReason(set)
			return misplaced{set.Pins[0].Origin.Place, strings.Join(append([]string{text}, ways...), "; ")}
		})...)
	})...)
}

// openedClass reads a class file into a class.
func (d *Desk) openedClass(text string) (any, error) {
	read, _, err := d.parseClass(strict.Parse(classFile, []byte(text)))
	if err != nil {
		return nil, err
	}
	return map[string]json.RawMessage{"class": job.ClassJSON(read)}, nil
}

// openRoster reads a list of students: a .csv, or else a name a line.
func openRoster(name, text string) (any, error) {
	list := "names.txt"
	if strings.EqualFold(filepath.Ext(name), ".csv") {
		list = "names.csv"
	}
	students, err := segments.ReadRoster(list, []byte(text))
	if err != nil {
		return nil, err
	}
	return map[string][]enrolled{"students": slice.Map(students, func(s segments.Student) enrolled {
		return enrolled{s.Name, s.Facing, json.Number(s.Set), s.Absent}
	})}, nil
}

// enrolled is a student as a class has them.
type enrolled struct {
	Name   string      `json:"name"`
	Facing string      `json:"facing,omitempty"`
	Set    json.Number `json:"set,omitempty"`
	Absent bool        `json:"absent,omitempty"`
}

// keepClass answers with the class file.
func (d *Desk) keepClass(data json.RawMessage, format string) (any, error) {
	if format != "yaml" {
		return nil, misplaced{"format", strict.Unknown("format", format, []string{"yaml"})}
	}
	read, _, err := d.classOf(data)
	if err != nil {
		return nil, err
	}
	return file{classFile, mimes["yaml"], []byte(job.WrittenClass(read))}, nil
}

// commandOfClass answers with a line that prints the class.
func (d *Desk) commandOfClass(data json.RawMessage, duplex bool) (any, error) {
	_, j, err := d.classOf(data)
	if err != nil {
		return nil, err
	}
	line := "hubrule handout " + classFile + " -o " + sheetsFile
	if j.HasPractice() {
		line += " --answers-to " + keyFile
	}
	if duplex {
		line += " --duplex"
	}
	return map[string]string{"line": line}, nil
}

// student finds the student of a name, or a number in the list.
func student(j *handout.Job, asked json.RawMessage) (int, error) {
	if asked == nil {
		return 0, nil
	}
	var name string
	number := 0
	switch {
	case json.Unmarshal(asked, &number) == nil:
		if number < 1 || number > len(j.Enrolled) {
			return 0, misplaced{"student", fmt.Sprintf("%d; want 1 to %d", number, len(j.Enrolled))}
		}
		return number - 1, nil
	case json.Unmarshal(asked, &name) != nil:
		return 0, malformed("student: want a name or a number")
	}
	if i := j.Find(name); i >= 0 {
		return i, nil
	}
	return 0, misplaced{"student", j.Unknown(name)}
}

// mostWheels is how many classes' wheels are remembered: a class of sixty, each at a class of their own.
const mostWheels = 64

// wheels remembers the wheel on paper of the last classes: it takes a tenth of a second to find, and follows from the pages, the variation
// and the seed alone.
type wheels struct {
	mutex sync.Mutex
	last  []knownWheel
}

type knownWheel struct {
	of    [sha256.Size]byte
	wheel geom.MM
}

func wheelKey(file *segments.ClassFile) [sha256.Size]byte {
	return sha256.Sum256(file.Table.Value.JSON("kind", "title", "date", "students", "order"))
}

// of returns a wheel that is remembered, or 0.
func (w *wheels) of(key [sha256.Size]byte) geom.MM {
	w.mutex.Lock()
	defer w.mutex.Unlock()
	known, _ := slice.Find(w.last, func(k knownWheel) bool { return k.of == key })
	return known.wheel
}

// keep remembers a wheel.
func (w *wheels) keep(key [sha256.Size]byte, wheel geom.MM) {
	w.mutex.Lock()
	defer w.mutex.Unlock()
	w.last = slices.DeleteFunc(w.last, func(k knownWheel) bool { return k.of == key })
	if w.last = append(w.last, knownWheel{key, wheel}); len(w.last) > mostWheels {
		w.last = slices.Delete(w.last, 0, 1)
	}
}
