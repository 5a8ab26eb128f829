package segments

import (
	"errors"
	"path/filepath"
	"slices"

	"hubrule/segments/strict"
)

// BriefFile is a brief as it was read, with the settings of its sheets, which are for another room to judge.
type BriefFile struct {
	Brief    Brief
	Name     string // the segment's, or the file's stem
	Segment  string // the name or path that its profile was found by
	Settings []Setting
	doc      *strict.Document
	nested   error // what is wrong in the files that it names
}

// Setting is one key of a brief about its sheets and the words that stand there.
type Setting struct {
	Key   string
	Words []string
	at    strict.Value
}

// Problem reports what is wrong with a setting; Err of its file then tells it.
func (s Setting) Problem(text string) { s.at.Problem("%s", text) }

// Err returns everything that was found wrong in the file, nil where nothing was.
func (b *BriefFile) Err() error {
	if b.doc == nil {
		return nil
	}
	return errors.Join(b.doc.Err(), b.nested)
}

// LoadBrief reads a brief. A segment's name or a path to a profile is the brief that asks for nothing else; settings are the keys
// about sheets that a brief's file may have. What is wrong in a brief waits in its Err, so that its settings can be judged first; the
// error returned is about a name, a file that cannot be read, or a profile (*strict.Problems).
func LoadBrief(nameOrPath string, settings []string) (*BriefFile, error) {
	if !IsName(nameOrPath) {
		doc, err := strict.Load(nameOrPath)
		if err != nil {
			return nil, err
		}
		if v, ok := doc.Peek("kind"); ok {
			if text, _ := v.Scalar(); text == "class" {
				v.Problem("class; its sheets are drawn by hubrule handout")
				return nil, doc.Err()
			}
			switch kind, known := v.Choice("kind of file", []string{"segment", "brief"}); {
			case kind == "brief":
				return readBrief(nameOrPath, doc, settings)
			case !known:
				return nil, doc.Err() // of a file of another kind there is no more to say
			}
		}
	}
	p, err := Find(nameOrPath)
	if err != nil {
		return nil, err
	}
	return &BriefFile{Brief: Brief{Profile: p}, Name: p.Name, Segment: nameOrPath}, nil
}

// Vehicle is what a file asks for of one vehicle, wherever in the file that stands.
type Vehicle struct {
	Brief   Brief  // its Profile is nil where none was found
	Segment string // the name or path that the profile was found by
}

// VehicleKeys lists the keys that ask for one vehicle.
func VehicleKeys() []string { return []string{"segment", "tweak", "pin", "keep"} }

// ReadVehicle reads those keys of a table; paths in them start from folder. What is wrong is reported to the table's document;
// the error is about the files that are named.
func ReadVehicle(t strict.Table, folder string) (Vehicle, error) {
	r := briefReader{folder: folder, top: t}
	r.segment()
	r.tweaks()
	r.pins()
	r.keeps()
	return Vehicle{r.brief, r.from}, errors.Join(r.nested...)
}

// ReadSettings returns the keys of a table about its sheets, with their words.
func ReadSettings(t strict.Table, keys []string) []Setting {
	var out []Setting
	for _, f := range t.Fields {
		if slices.Contains(keys, f.Name) {
			out = append(out, Setting{f.Name, f.Value.Words(), f.Value})
		}
	}
	return out
}

func readBrief(path string, doc *strict.Document, settings []string) (*BriefFile, error) {
	top := doc.Top().Table("key", slices.Concat([]string{"kind"}, VehicleKeys(), settings))
	v, nested := ReadVehicle(top, filepath.Dir(path))
	return &BriefFile{Brief: v.Brief, Name: stem(path), Segment: v.Segment, Settings: ReadSettings(top, settings), doc: doc, nested: nested}, nil
}

// briefReader reads one vehicle; paths in it start from a folder.
type briefReader struct {
	folder string
	top    strict.Table
	brief  Brief
	from   string  // of the profile
	nested []error // what is wrong in the files that it names
}

// path returns where a name or path of the file leads.
func (r *briefReader) path(nameOrPath string) string {
	if IsName(nameOrPath) || filepath.IsAbs(nameOrPath) {
		return nameOrPath
	}
	return filepath.Join(r.folder, nameOrPath)
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
	v, ok := r.top.Get("segment")
	if !ok {
		if r.top.Value.IsTable() {
			r.top.Value.Problem("no segment; want segment: and a name, or the path of a profile")
		}
		return
	}
	text, ok := v.Text(longestSentence)
	if !ok {
		return
	}
	p, err := Find(r.path(text))
	if err != nil {
		r.found(v, err)
		return
	}
	r.brief.Profile, r.from = p, r.path(text)
}

func (r *briefReader) tweaks() {
	v, ok := r.top.Get("tweak")
	if !ok {
		return
	}
	for _, f := range v.AnyTable().Fields {
		t, err := FindTweak(r.path(f.Name))
		strength, ok := f.Value.Number(-strongest, strongest)
		switch {
		case err != nil && IsName(f.Name):
			f.Problem("%v", err)
		case err != nil:
			r.found(f.Value, err)
		case ok:
			r.brief.Doses = append(r.brief.Doses, Dose{Tweak: t, Strength: strength, From: r.path(f.Name)})
		}
	}
}

func (r *briefReader) pins() {
	v, ok := r.top.Get("pin")
	if !ok {
		return
	}
	allowed, others := r.pinnable()
	var at []strict.Value
	for _, field := range v.Table("figure", allowed, others...).Fields {
		f, _ := Lookup(field.Name)
		if why := cannotPin(f, r.brief.Profile); why != "" {
			field.Problem("%s", why)
			continue
		}
		text, ok := field.Value.Scalar()
		if !ok {
			field.Value.Want("what %s is to be", f)
			continue
		}
		p, err := ParsePin(f, text)
		if err != nil {
			field.Value.Problem("%v", err)
			continue
		}
		p.Said = Said{Place: field.Value.Place(), InFile: true}
		r.brief.Pins, at = append(r.brief.Pins, p), append(at, field.Value)
	}
	if r.brief.Profile == nil {
		return
	}
	wheel := r.brief.Fitted().Wheel.Diameter
	for i, p := range r.brief.Pins {
		if err := p.Check(wheel); err != nil {
			at[i].Problem("%v", err)
		}
	}
}

// pinnable returns the figures that the brief's segment can be told, and those that it cannot.
func (r *briefReader) pinnable() (allowed, others []string) {
	for f := range FigureCount {
		if cannotPin(f, r.brief.Profile) != "" {
			others = append(others, f.String())
		} else {
			allowed = append(allowed, f.String())
		}
	}
	return allowed, others
}

// cannotPin says why figure f cannot be pinned on p; "" where it can. p may be nil: not known.
func cannotPin(f Figure, p *Profile) string {
	switch {
	case f.About().Unit == AsWord:
		return wordPinned
	case p != nil && !p.Form.Has(f):
		return f.String() + ": a " + string(p.Form) + " has none"
	}
	return ""
}

func (r *briefReader) keeps() {
	v, ok := r.top.Get("keep")
	if !ok {
		return
	}
	items := []strict.Value{v}
	if _, single := v.Scalar(); !single {
		items, _ = v.Items(1, int(FigureCount))
	}
	allowed, _ := r.pinnable()
	for _, item := range items {
		name, ok := item.Choice("figure", allowed)
		f, _ := Lookup(name)
		if !ok {
			continue
		}
		switch _, pinned := r.brief.Pin(f); {
		case pinned:
			item.Problem("%s is pinned already; want one of both", f)
		case slices.ContainsFunc(r.brief.Keeps, func(k Keep) bool { return k.Figure == f }):
			item.Problem("%s stands twice; want it once", f)
		default:
			r.brief.Keeps = append(r.brief.Keeps, Keep{f, Said{Place: item.Place(), InFile: true}})
		}
	}
}
