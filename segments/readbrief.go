package segments

import (
	"errors"
	"io"
	"path/filepath"
	"slices"

	"hubrule/segments/strict"
)

// BriefFile is a brief as it was read, with the settings of its sheets, which another package checks.
type BriefFile struct {
	Briefs []Brief      // at least one: of each vehicle
	Name   string       // the segment's, or the file's stem
	Table  strict.Table // of its keys; empty where there is no brief's file
	Folder string       // from which paths in it start
	doc    *strict.Document
	nested error // what is wrong in the files that it names
}

// Err returns everything that was found wrong in the file, nil where nothing was.
func (b *BriefFile) Err() error {
	if b.doc == nil {
		return nil
	}
	return errors.Join(b.doc.Err(), b.nested)
}

// LoadBrief reads a brief. A segment's name or a path to a profile is the brief that asks for nothing else; [strict.Stdin] is read from
// in. Settings are the keys about sheets that a brief's file may have. What is wrong in a brief waits in its Err, so that its settings
// can be judged first; the error returned is about a name, a file that cannot be read, or a profile (*strict.Problems).
func (l Library) LoadBrief(nameOrPath string, in io.Reader, settings []string) (*BriefFile, error) {
	if IsName(nameOrPath) || l.Files != nil && l.Files.closed {
		p, err := l.Find(nameOrPath)
		return plainBrief(p, nameOrPath), err
	}
	doc, err := strict.LoadFrom(nameOrPath, in)
	if err != nil {
		return nil, err
	}
	if v, ok := doc.Peek("kind"); ok {
		if text, _ := v.Scalar(); text == "class" {
			v.Problem("class; its sheets are drawn by hubrule handout")
			return nil, doc.Err()
		}
		switch kind, known := v.Choice("kind of file", l.kinds("brief", "segment")); {
		case kind == "brief":
			return l.ReadBrief(nameOrPath, doc, settings), nil
		case !known:
			return nil, doc.Err() // of a file of another kind there is no more to say
		}
	}
	if lacksKind(doc) {
		return nil, doc.Err()
	}
	p, err := ReadOnce(l.Files, nameOrPath, func(path string) (*Profile, error) { return l.profile(path, doc) })
	return plainBrief(p, nameOrPath), err
}

// lacksKind reports, to the document too, whether a file without kind has a key that profiles, which need none, do not have.
func lacksKind(doc *strict.Document) bool {
	if _, ok := doc.Peek("kind"); ok {
		return false
	}
	for _, other := range []struct{ key, kind string }{{"segment", "brief"}, {"students", "class"}, {"marks", "marks"}, {"moves", "tweak"}} {
		if _, ok := doc.Peek(other.key); ok {
			doc.Top().Problem("no kind; a file with %s: wants kind: %s", other.key, other.kind)
			return true
		}
	}
	return false
}

// plainBrief is the brief that asks for a profile and nothing else; nil where there is none.
func plainBrief(p *Profile, nameOrPath string) *BriefFile {
	if p == nil {
		return nil
	}
	b := Brief{Profile: p, Source: sourceOf(nameOrPath, p.Name)}
	return &BriefFile{Briefs: []Brief{b.withProfilePins()}, Name: p.Name}
}

// sourceOf returns what finds a profile or tweak again: its path, or its name however it was written.
func sourceOf(nameOrPath, name string) string {
	if IsName(nameOrPath) {
		return name
	}
	return nameOrPath
}

// vehicleKeys lists the keys that ask for one vehicle.
func vehicleKeys() []string { return []string{"segment", "tweak", "pin", "keep"} }

// readVehicle reads those keys of a table; paths in them start from folder. What is wrong is reported to the table's document;
// the error is about the files that are named. The brief's profile is nil where none was found.
func (l Library) readVehicle(t strict.Table, folder string) (Brief, error) {
	r := briefReader{library: l, folder: folder, top: t}
	r.segment()
	r.tweaks()
	r.pins()
	r.keeps()
	return r.brief, errors.Join(r.nested...)
}

// readOtherVehicle reads a vehicle beside a brief's own, which may have a title like that. The brief's own is a setting of its sheets.
func (l Library) readOtherVehicle(v strict.Value, folder string) (Brief, error) {
	const longest = 80 // characters
	t := v.Table("key", append(vehicleKeys(), "title"))
	b, nested := l.readVehicle(t, folder)
	if title, ok := t.Get("title"); ok {
		b.Title, _ = line(title, longest)
	}
	return b, nested
}

// maxOtherVehicles is how many vehicles a brief may list under also: no kind of sheet holds more.
const maxOtherVehicles = 23

// ReadBrief reads the brief of a document; paths in it start from path's folder. See [Library.LoadBrief].
func (l Library) ReadBrief(path string, doc *strict.Document, settings []string) *BriefFile {
	folder := FolderOf(path)
	top := doc.Top().Table("key", slices.Concat([]string{"kind"}, vehicleKeys(), []string{"also"}, settings))
	first, nested := l.readVehicle(top, folder)
	file := &BriefFile{Briefs: []Brief{first}, Name: Stem(path), Table: top, Folder: folder, doc: doc}
	if IsStream(path) && first.Profile != nil {
		file.Name = first.Profile.Name
	}
	if v, ok := top.Get("also"); ok {
		items, _ := v.Items(1, maxOtherVehicles)
		for _, item := range items {
			b, err := l.readOtherVehicle(item, folder)
			file.Briefs, nested = append(file.Briefs, b), errors.Join(nested, err)
		}
	}
	file.nested = nested
	return file
}

// briefReader reads one vehicle; paths in it start from a folder.
type briefReader struct {
	library Library
	folder  string
	top     strict.Table
	brief   Brief
	nested  []error // what is wrong in the files that it names
}

// PathFrom resolves a name or path found in a file of folder.
func PathFrom(folder, nameOrPath string) string {
	if IsName(nameOrPath) || filepath.IsAbs(nameOrPath) {
		return nameOrPath
	}
	path := filepath.Join(folder, nameOrPath)
	if IsName(path) { // of a file in the working directory
		path = "./" + path
	}
	return path
}

// found gathers an error of a file that is named at v: its own problems as they are, all else at v.
func (r *briefReader) found(v strict.Value, err error) {
	var inside *strict.Problems
	if errors.As(err, &inside) {
		r.nested = append(r.nested, err)
	} else {
		v.Problem("%v", err)
	}
}

func (r *briefReader) segment() {
	v, _ := r.top.Need("segment", "segment: and a name, or the path of a profile")
	if text, ok := v.Text(longestSentence); ok {
		var err error
		r.brief.Source = PathFrom(r.folder, text)
		if r.brief.Profile, err = r.library.Find(r.brief.Source); err != nil {
			r.found(v, err)
			return
		}
		r.brief.Source = sourceOf(r.brief.Source, r.brief.Profile.Name)
	}
}

// table returns the table of a key; the message about anything else has an example.
func (r *briefReader) table(key, example string) strict.Value {
	v, ok := r.top.Get(key)
	if ok && !v.IsTable() {
		v.Want("a table of keys and values, like %s", example)
		return strict.Value{}
	}
	return v
}

func (r *briefReader) tweaks() {
	for _, f := range r.table("tweak", "{sporty: 1}").AnyTable().Fields {
		path := PathFrom(r.folder, f.Name)
		t, err := r.library.FindTweak(path)
		strength, ok := f.Value.Number(-strongest, strongest)
		switch {
		case err != nil && IsName(f.Name):
			f.Problem("%v", err)
		case err != nil:
			r.found(f.Value, err)
		case ok:
			source := sourceOf(path, t.Name)
			if slices.ContainsFunc(r.brief.Tweaks, func(d AppliedTweak) bool { return d.Source == source }) {
				f.Problem("%s stands twice; want it once", source)
				continue
			}
			r.brief.Tweaks = append(r.brief.Tweaks, AppliedTweak{Tweak: t, Strength: strength, Source: source})
		}
	}
}

func (r *briefReader) pins() {
	var at []strict.Value
	for f, field := range readFigureTable(r.table("pin", "{height: 1450mm}"), r.brief.CannotPin) {
		if p, ok := readPin(f, field.Value, "what "+f.String()+" is to be"); ok {
			r.brief.Pins, at = append(r.brief.Pins, p), append(at, field.Value)
		}
	}
	if r.brief.Profile == nil {
		return
	}
	wheel := r.brief.FittedProfile().Wheel.Diameter
	for i, p := range r.brief.Pins {
		if err := p.CheckBounds(wheel); err != nil {
			at[i].Problem("%v", err)
		}
	}
	own := len(r.brief.Pins)
	r.brief = r.brief.withProfilePins()
	for _, p := range r.brief.Pins[own:] {
		if err := p.CheckBounds(wheel); err != nil {
			r.top.At("segment").Problem("%s: %v", p.Origin.Place, err)
		}
	}
}

func (r *briefReader) keeps() {
	v, ok := r.top.Get("keep")
	if !ok {
		return
	}
	_, pins := r.top.Get("pin")
	if _, tweaks := r.top.Get("tweak"); !tweaks && !pins {
		v.Problem("a figure stays as it is without a tweak or a pin; want one of them")
		return
	}
	items := []strict.Value{v}
	if _, single := v.Scalar(); !single {
		items, _ = v.Items(1, int(FigureCount))
	}
	allowed := r.brief.Pinnable()
	for _, item := range items {
		name, ok := item.Choice("figure", allowed)
		f, _ := Lookup(name)
		if !ok {
			continue
		}
		switch _, pinned := r.brief.Pin(f); {
		case pinned:
			item.Problem("%s is already pinned; pin it or keep it, not both", f)
		case slices.ContainsFunc(r.brief.Keeps, func(k Keep) bool { return k.Figure == f }):
			item.Problem("%s stands twice; want it once", f)
		default:
			r.brief.Keeps = append(r.brief.Keeps, Keep{f, Origin{Place: item.Place(), InFile: true}})
		}
	}
}
