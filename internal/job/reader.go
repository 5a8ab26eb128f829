package job

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"hubrule/internal/slice"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// place is where a setting is given.
type place uint8

const (
	onFlag place = iota
	inFile
	inClass // for every page of a class that does not say otherwise
)

// entry is one setting as given, and where.
type entry struct {
	words []string
	place place
	value strict.Value   // in a file
	items []strict.Value // of its list, where each word may be wrong by itself
}

// item returns where a word stands in a file.
func (e entry) item(word string) strict.Value {
	if i := slices.Index(e.words, word); i >= 0 && e.items != nil {
		return e.items[i]
	}
	return e.value
}

// Reader gathers settings from flags and files. Its zero value has none.
type Reader struct {
	Notes []string        // settings of files that were left out because flags leave them no sheet
	Files *segments.Files // what settings may name; nil: any file

	flags, files map[string]entry
	briefs       []*segments.BriefFile
	idle         []string // settings of a class that this page does not use
	class        bool     // the files are of a class, whose sheets are a PDF
	drawn        bool     // kinds and views are known
	refused      bool     // something is wrong with some setting
	usage        []string // mistakes on the command line
	errs         []error  // what is wrong in files that settings name
}

// Flag takes a setting from the command line. It wins over all files.
func (r *Reader) Flag(name string, words ...string) {
	if r.flags == nil {
		r.flags = map[string]entry{}
	}
	r.flags[name] = entry{words: words}
}

// Brief takes the settings of a brief. Several briefs of one command have to agree, unless a flag overrides them.
func (r *Reader) Brief(b *segments.BriefFile) {
	found := r.table(b.Table, b.Folder, inFile)
	for name, first := range r.files {
		s, twice := found[name]
		if _, flagged := r.flags[name]; twice && !flagged && !slices.Equal(first.words, s.words) {
			s.value.Problem("%s; another brief of this command says %s; want them to agree, or --%s",
				strings.Join(s.words, ", "), strings.Join(first.words, ", "), name)
		}
		found[name] = first
	}
	r.files, r.briefs = found, append(r.briefs, b)
}

// table returns the settings of a table; paths in it start from folder.
func (r *Reader) table(t strict.Table, folder string, from place) map[string]entry {
	found := map[string]entry{}
	for _, s := range Settings() {
		v, ok := t.Get(s.Key)
		if !ok || from == inClass && s.outsideClass { // a class has a title of its own
			continue
		}
		var words []string
		var items []strict.Value
		switch s.Name {
		case "against":
			var err error
			words, items, err = library(r.Files).ReadAgainst(v, folder)
			r.fail(err)
		case "camera": // a name, or a file of this folder
			for _, word := range v.Strings() {
				words = append(words, segments.PathFrom(folder, word))
			}
		default:
			words = v.Strings()
		}
		found[s.Name] = entry{words, from, v, items}
	}
	return found
}

func (r *Reader) fail(err error) {
	if err != nil {
		r.errs = append(r.errs, err)
	}
}

// fileError is what is wrong with a file that one of a setting's values names.
type fileError struct {
	word string
	error
}

// wordError is what is wrong with one of a setting's values.
type wordError struct{ word, text string }

func (e wordError) Error() string { return e.word + ": " + e.text }

// report notes what is wrong with a setting where it is given.
func (r *Reader) report(s Setting, at entry, err error) {
	switch e := err.(type) {
	case interface{ Unwrap() []error }:
		for _, err := range e.Unwrap() {
			r.report(s, at, err)
		}
	case fileError:
		var inside *strict.Problems
		if r.refused = true; at.place != onFlag && !errors.As(e.error, &inside) {
			at.item(e.word).Problem("%v", e.error)
		} else {
			r.fail(e.error)
		}
	case wordError:
		at.value = at.item(e.word)
		r.refuse(settingError{s.Name, " " + err.Error()}, at)
	default:
		r.refuse(settingError{s.Name, ": " + err.Error()}, at)
	}
}

// refuse reports a setting that makes no sense in its request.
func (r *Reader) refuse(e settingError, at entry) {
	r.refused = true
	if at.place == onFlag {
		r.usage = append(r.usage, e.Error())
	} else {
		at.value.Problem("%s", keysFor(strings.TrimLeft(e.Reason, ": ")))
	}
}

// parse fills in some settings. Mistakes are reported; settings that no sheet uses are reported or left out.
func (r *Reader) parse(j *Job, all map[string]entry, settings []Setting) {
	for _, s := range settings {
		at, ok := all[s.Name]
		if !ok {
			continue
		}
		before := *j
		err := s.parse(j, at.words)
		if _, both := all["lens"]; err == nil && both && s.Name == "distance" {
			err = errors.New("a lens sets the distance too; give one of them")
		}
		if r.class && s.Name == "dpi" && j.Setting.Paper.DPI == 0 {
			err = errors.New("it goes with a paper in pixels, like 1920x1080px")
		}
		switch {
		case err != nil:
			r.report(s, at, err)
		case r.drawn && !s.UsedBy(j.Request) && s.changes(*j):
			r.idleSetting(s, at, *j)
			*j = before
		case r.drawn && s.Name == "guides":
			r.dropGuides(s, at, j)
		case s.Name == "against" && at.place != onFlag:
			for i := range j.Compared {
				j.Compared[i].stands(at.items[i].Place(), ": against")
			}
		}
	}
}

// dropGuides refuses chosen guides that no view of the job draws; those of a file give way to views of the command line.
func (r *Reader) dropGuides(s Setting, at entry, j *Job) {
	stray, why := strayGuides(j.Request)
	_, flagged := r.flags["view"]
	switch {
	case stray == nil:
	case at.place == inFile && flagged:
		r.leaveOut(s, at, why)
		j.Setting.Guides = slices.DeleteFunc(j.Setting.Guides, func(g request.Guide) bool { return slices.Contains(stray, g) })
		if len(j.Setting.Guides) == 0 {
			j.Setting.Guides = nil
		}
	default:
		r.refuse(settingError{s.Name, ": " + why}, at)
	}
}

// leaveOut notes a setting of a file that flags make idle.
func (r *Reader) leaveOut(s Setting, at entry, why string) {
	r.Notes = append(r.Notes, fmt.Sprintf("%s: %s %s; left out", at.value.Place(), s.Key, keysFor(why)))
}

// idleSetting reports or notes a setting that no sheet of the job uses.
func (r *Reader) idleSetting(s Setting, at entry, j Job) {
	why := settingError{s.Name, " " + s.goesWith(j.Request)}
	if e := checkTile(j.Request); e != nil && s.Name == e.Setting {
		why = *e
	}
	switch {
	case at.place == inClass:
		r.idle = append(r.idle, s.Name)
	case at.place == inFile && s.UsedBy(r.ofFiles().Request):
		r.leaveOut(s, at, s.goesWith(j.Request))
	default:
		r.refuse(why, at)
	}
}

// ofFiles returns the kinds and views that the files ask for by themselves.
func (r *Reader) ofFiles() Job {
	j := Default()
	for _, s := range Settings() {
		if at, ok := r.files[s.Name]; ok && s.chooses {
			_ = s.parse(&j, at.words) // a flag may replace what is wrong
		}
	}
	return j
}

// Job makes a job of all settings, without its vehicles. The error holds every mistake: a [UsageError], or what is wrong in files.
func (r *Reader) Job() (Job, error) {
	j := r.read()
	if r.usage != nil {
		return j, UsageError(strings.Join(r.usage, "\n"))
	}
	return j, errors.Join(append(r.inBriefs(), r.errs...)...)
}

// Check is the package's Check of a job of r with its vehicles. What a file asks for is reported where it stands there, all else as a
// [UsageError].
func (r *Reader) Check(q request.Request) error {
	err := Check(q)
	var crowd crowdError
	if !errors.As(err, &crowd) {
		return asUsage(err)
	}
	_, flagged := r.flags[crowd.setting]
	at, inFile := r.files[crowd.setting]
	if flagged || !inFile {
		return asUsage(err)
	}
	at.value.Problem("%s", keysFor(strings.TrimPrefix(crowd.text, "--"+crowd.setting+": ")))
	return errors.Join(r.inBriefs()...)
}

// inBriefs lists what is wrong in each brief.
func (r *Reader) inBriefs() []error { return slice.Map(r.briefs, (*segments.BriefFile).Err) }

func asUsage(err error) error {
	if err == nil {
		return nil
	}
	return UsageError(err.Error())
}

// read is Job without gathering what is wrong.
func (r *Reader) read() Job {
	all := map[string]entry{}
	maps.Copy(all, r.files)
	maps.Copy(all, r.flags)
	r.agree(all)
	j := Default()
	j.files = r.Files
	r.parse(&j, all, slices.DeleteFunc(slices.Clone(Settings()), func(s Setting) bool { return !s.chooses }))
	wrong := checkViews(j.Request)
	if wrong != nil && !r.refused {
		r.refuse(*wrong, r.blamed(all, "view", "sheet"))
	}
	r.drawn = !r.refused // what is drawn decides which of the others are used
	r.parse(&j, all, slices.DeleteFunc(slices.Clone(Settings()), func(s Setting) bool { return s.chooses }))
	j.Setting.Paper = j.Setting.Paper.At(j.Picture.DPI)
	if err := j.Setting.Paper.Check(j.Kinds); err != nil && !r.refused {
		r.refuse(settingError{"paper", ": " + err.Error()}, r.blamed(all, "paper", "portrait", "landscape", "dpi", "sheet"))
	}
	if wrong := checkTile(j.Request); wrong != nil && !r.refused {
		r.refuse(*wrong, r.blamed(all, "tile", "sheet", "view", "scale", "frame"))
	}
	return j
}

// agree leaves one of two settings that contradict each other: the command line wins over files, and a page over its class. It refuses two
// in one place.
func (r *Reader) agree(all map[string]entry) {
	is := func(name, want string) bool { return strings.Join(all[name].words, ",") == want }
	if is("portrait", "true") && is("landscape", "true") {
		r.keepOne(all, "portrait", "landscape", "the paper cannot stand in portrait too")
	}
	guides, _ := listOf(all["guides"].words, request.Guides())
	for _, name := range []string{"outline", "checks"} {
		if is(name, "false") && slices.Contains(guides, request.Guide(name)) {
			r.keepOne(all, "guides", name, "the guide "+name+" is among those to draw")
		}
	}
}

// keepOne leaves out the second of two settings where the first wins, and refuses it where both stand in one place.
func (r *Reader) keepOne(all map[string]entry, first, second, why string) {
	a, b := all[first], all[second]
	switch {
	case a.place < b.place:
		delete(all, second)
	case a.place == b.place:
		r.refuse(settingError{second, ": " + why + "; give one of them"}, b)
	case first == "portrait":
		delete(all, first)
	}
}

// blamed returns where a setting is given that goes against others: on the command line if one of them is.
func (r *Reader) blamed(all map[string]entry, name string, others ...string) entry {
	for _, other := range others {
		if at, ok := r.flags[other]; ok {
			return at
		}
	}
	return all[name]
}
