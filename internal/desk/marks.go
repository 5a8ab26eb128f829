package desk

import (
	"context"
	"encoding/json"
	"path/filepath"
	"strings"

	"hubrule/internal/job"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/reading"
	"hubrule/segments/strict"
)

type markItem struct {
	Name  string `json:"name"`
	Least int    `json:"least"`
	Most  int    `json:"most"`
	Where string `json:"where"`
	On    string `json:"on"`
}

// listMarks lists the names of marks in the order in which they are set, and the papers that a sketch may lie on.
func listMarks() any {
	marks := slice.Map(reading.Names(), func(n reading.Name) markItem {
		i := n.Info()
		return markItem{i.Name, i.Least, i.Most, i.Where, n.On()}
	})
	papers := slice.Map(request.Papers(), func(p request.Paper) string { return p.Name })
	return map[string]any{"marks": marks, "papers": papers}
}

// marked is marks as a call has them: what a marks file says, and the file's name without its ending.
type marked struct {
	Marks json.RawMessage `json:"marks"`
	Name  string          `json:"name"`
}

// usualMarks is what marks are called that have no name.
const usualMarks = "side"

// marks reads the marks of a call, as read does a marks file of that name in the desk's folder, but for its picture.
func (d *Desk) marks(in marked) (*reading.File, error) {
	name, err := fileStem("name", in.Name, usualMarks)
	if err != nil {
		return nil, err
	}
	doc, err := strict.ParseJSON(in.Marks)
	if err != nil {
		return nil, malformed("marks: " + err.Error())
	}
	file, err := reading.ReadMarks(d.files, filepath.Join(d.folder, name+".yaml"), doc)
	if err != nil {
		return nil, err
	}
	file.Marks.Path = name + ".yaml"
	return file, nil
}

// openMarks reads a marks file.
func (d *Desk) openMarks(text string) (any, error) {
	const name = "marks.yaml"
	file, err := reading.ReadMarks(d.files, filepath.Join(d.folder, name), strict.Parse(name, []byte(text)))
	if err != nil {
		return nil, err
	}
	return map[string]json.RawMessage{"marks": marksJSON(file)}, nil
}

// has reports whether a body has a key. What is wrong with it is for the call to say.
func has(body []byte, key string) bool {
	var keys map[string]ignored
	_ = json.Unmarshal(body, &keys)
	_, found := keys[key]
	return found
}

// ignored is a value that is not kept.
type ignored struct{}

func (*ignored) UnmarshalJSON([]byte) error { return nil }

// standard is what a reading is held against; the zero standard holds nothing.
type standard struct {
	plan  *layout.Plan
	exact bool // its own figures are wanted, not the ranges of its segment
	name  string
	path  string // that a command names it by
}

// against finds what a call holds a reading against: a segment by its name, or a job.
func (d *Desk) against(data json.RawMessage) (s standard, err error) {
	var word string
	switch {
	case len(data) == 0 || string(data) == "null":
		return s, nil
	case json.Unmarshal(data, &word) != nil:
		a, err := d.readSolved(data)
		if err != nil {
			return s, err
		}
		return standard{&a.Plans[0], true, segments.Stem(a.briefFile()), a.briefFile()}, nil
	case !segments.IsName(word):
		return s, misplaced{"against", strict.Excerpt(word) + "; want a segment's name, or a job"}
	}
	plan, name, exact, err := job.FindStandard(d.files, word)
	if err != nil {
		return s, misplaced{"against", strings.TrimPrefix(err.Error(), "--against "+word+": ")}
	}
	return standard{&plan, exact, name, word}, nil
}

// differences returns how a reading lies to the standard.
func (s standard) differences(r reading.Reading) []reading.Difference {
	switch {
	case s.plan == nil:
		return nil
	case s.exact:
		return r.AgainstPlan(*s.plan)
	}
	return r.AgainstRange(*s.plan)
}

// frame answers with the place of a picture of which nothing was read.
func (d *Desk) frame(_ context.Context, body []byte) (any, error) {
	var in struct {
		Screen photoScreen `json:"screen"`
	}
	if err := decode(body, &in); err != nil {
		return nil, err
	}
	return in.Screen.frame()
}
