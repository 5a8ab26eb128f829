package desk

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"hubrule/segments"
	"hubrule/segments/strict"
)

// usualProfile is what a profile is called that has no name.
const usualProfile = "norms"

// fileStem returns the name of a file that a call makes up: without folder and ending, and nothing that leads elsewhere.
func fileStem(where, name, usual string) (string, error) {
	switch letter, found := strict.Control(name); {
	case name == "":
		return usual, nil
	case found:
		return "", misplaced{where, strict.Quote(string(letter)) + " in it; want a file's name without its ending"}
	case len(name) > 200 || strings.ContainsAny(name, `/\`) || strings.TrimSpace(name) != name || segments.Stem(name+".yaml") != name:
		return "", misplaced{where, strict.Excerpt(name) + "; want a file's name without its folder and its ending"}
	}
	return name, nil
}

// filesOf returns the files that a job may name, and the job: where it brings a profile along, that is one of them, under the name of the
// job's segment, and the segment is that file.
func (d *Desk) filesOf(data json.RawMessage) (*segments.Files, json.RawMessage, error) {
	if !has(data, "profile") {
		return d.files, data, nil
	}
	if _, err := strict.ParseJSON(data); err != nil { // a key that stands twice is not seen below
		return nil, nil, malformed("job: " + err.Error())
	}
	var keys map[string]json.RawMessage
	var text, name string
	if err := json.Unmarshal(data, &keys); err != nil {
		return nil, nil, malformed("job: " + err.Error())
	}
	if json.Unmarshal(keys["profile"], &text) != nil {
		return nil, nil, misplaced{"profile", "want the YAML of a profile as a text"}
	}
	if raw, named := keys["segment"]; named && json.Unmarshal(raw, &name) != nil {
		return nil, nil, misplaced{"segment", "want a name for the profile"}
	}
	name, err := fileStem("segment", strings.TrimSuffix(strings.TrimPrefix(name, "./"), ".yaml"), usualProfile)
	if err != nil {
		return nil, nil, err
	}
	files, err := d.filesWith(name, text)
	if err != nil {
		return nil, nil, err
	}
	delete(keys, "profile")
	keys["segment"], _ = json.Marshal(name + ".yaml") // a text
	data, err = json.Marshal(keys)
	return files, data, err
}

// filesWith returns the desk's files with one more profile.
func (d *Desk) filesWith(name, text string) (*segments.Files, error) {
	path := filepath.Join(d.folder, name+".yaml")
	profile, err := segments.ReadProfile(path, strict.Parse(name+".yaml", []byte(text)))
	if err != nil {
		return nil, err
	}
	return d.files.With(path, profile), nil
}

// openWithProfile reads a brief whose segment is a profile, or the profile alone, into a job that brings the profile along.
func (d *Desk) openWithProfile(brief, profile, name string) (any, error) {
	doc := strict.Parse("brief.yaml", []byte(brief))
	if isProfile(doc) {
		stem, err := fileStem("name", name, usualProfile)
		if err != nil {
			return nil, err
		}
		profile, brief = brief, "kind: brief\nsegment: "+strconv.Quote(stem+".yaml")+"\n"
		doc = strict.Parse("brief.yaml", []byte(brief))
	}
	if !doc.Is("brief", "kind: brief") {
		return nil, doc.Err()
	}
	segment, _ := doc.Peek("segment")
	path, _ := segment.Scalar()
	stem, err := fileStem("yaml", segments.Stem(path), usualProfile)
	if err != nil {
		return nil, err
	}
	files, err := d.filesWith(stem, profile)
	if err != nil {
		return nil, err
	}
	out, err := d.opened(files, doc)
	if err != nil {
		return nil, err
	}
	text, err := json.Marshal(profile)
	out.Job = fmt.Appendf(nil, `{"profile":%s,%s`, text, bytes.TrimPrefix(out.Job, []byte("{")))
	return out, err
}
