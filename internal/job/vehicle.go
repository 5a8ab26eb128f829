package job

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"hubrule/layout"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// LoadBriefs finds each segment or reads each file. All mistakes in files are reported at once, file by file; a name that is no segment
// is a [segments.UnknownName]. One of them may be - and is read from in. Files, which may be nil, keep what was read.
func LoadBriefs(files *segments.Files, namesOrPaths []string, in io.Reader) ([]*segments.BriefFile, error) {
	isStdin := func(name string) bool { return name == strict.Stdin }
	if first := slices.IndexFunc(namesOrPaths, isStdin); slices.ContainsFunc(namesOrPaths[first+1:], isStdin) && first >= 0 {
		return nil, UsageError("- (standard input) stands twice; want it once")
	}
	var found []*segments.BriefFile
	var mistakes []error
	for _, name := range namesOrPaths {
		b, err := library(files).LoadBrief(name, in, everyKey())
		var inFile *strict.Problems
		if errors.As(err, &inFile) {
			mistakes = append(mistakes, err)
		} else if err != nil {
			return nil, err
		}
		found = append(found, b)
	}
	return found, errors.Join(mistakes...)
}

// ReadBrief reads a brief that came in another way than as a file. Paths in it start from folder.
func ReadBrief(files *segments.Files, folder string, doc *strict.Document) *segments.BriefFile {
	return library(files).ReadBrief(filepath.Join(folder, "brief.yaml"), doc, everyKey())
}

func everyKey() []string { return keys(func(Setting) bool { return false }) }

// LoadVehicle reads a segment or a brief of one vehicle, - from in; settings of its sheets are checked, and its title is kept.
func LoadVehicle(nameOrPath string, in io.Reader) (segments.Brief, error) {
	return loadVehicle(nil, nameOrPath, in)
}

func loadVehicle(files *segments.Files, nameOrPath string, in io.Reader) (segments.Brief, error) {
	if segments.IsName(nameOrPath) {
		files = nil // they are for paths
	}
	return segments.ReadOnce(files, nameOrPath, func(string) (segments.Brief, error) { return readVehicle(files, nameOrPath, in) })
}

func readVehicle(files *segments.Files, nameOrPath string, in io.Reader) (segments.Brief, error) {
	briefs, err := LoadBriefs(files, []string{nameOrPath}, in)
	if err != nil {
		return segments.Brief{}, err
	}
	r := Reader{Files: files}
	r.Brief(briefs[0])
	j, err := r.Job()
	if err != nil {
		return segments.Brief{}, err
	}
	if n := len(briefs[0].Briefs); n > 1 {
		return segments.Brief{}, fmt.Errorf("%s asks for %d vehicles; want a brief of one", nameOrPath, n)
	}
	b := briefs[0].Briefs[0]
	b.Title = j.Setting.Title
	return b, nil
}

// Overrides are the flags for every vehicle, as written: tweaks, pins and figures to keep.
type Overrides struct{ Tweaks, Pins, Keeps []string }

// Apply lays the overrides over what files say. Within the overrides a figure stands once. The error holds every mistake in them:
// a [UsageError], or what is wrong in the files that they name. Notes are keeps of a file that have nothing left to keep a figure from,
// and overhangs that were probably meant from the axle.
func (o Overrides) Apply(base segments.Brief) (b segments.Brief, notes []string, err error) {
	base.Tweaks, base.Pins, base.Keeps = slices.Clone(base.Tweaks), slices.Clone(base.Pins), slices.Clone(base.Keeps)
	r := overrider{library: library(nil), brief: base, from: map[segments.Figure]string{}}
	r.tweaks(r.items("--tweak", o.Tweaks), "--tweak ")
	for _, text := range r.items("--pin", o.Pins) {
		r.pin(text, "--pin ")
	}
	for _, text := range r.items("--keep", o.Keeps) {
		r.keep(text)
	}
	r.bounds()
	r.idleKeeps()
	if len(r.inFiles) > 0 {
		return r.brief, nil, errors.Join(r.inFiles...)
	}
	if len(r.wrong) > 0 {
		return r.brief, nil, UsageError(strings.Join(r.wrong, "\n"))
	}
	return r.brief, append(r.notes, layout.PinNotes(r.brief)...), nil
}

// PinsAlone returns the pins of overrides that bend no segment. The error is a [UsageError].
func (o Overrides) PinsAlone() ([]segments.Pin, error) {
	if len(o.Tweaks)+len(o.Keeps) > 0 {
		return nil, UsageError("--tweak and --keep bend a segment; name one, like figures suv --tweak sporty")
	}
	sedan, err := segments.Find("sedan") // its form has every figure
	if err != nil {
		return nil, err
	}
	b, _, err := o.Apply(segments.Brief{Profile: sedan})
	return b.Pins, err
}

// overrider applies overrides one by one and gathers what is wrong.
type overrider struct {
	library segments.Library
	brief   segments.Brief
	from    map[segments.Figure]string // flag by which a figure was pinned or kept
	wrong   []string
	inFiles []error
	notes   []string
}

func (r *overrider) problem(format string, args ...any) {
	r.wrong = append(r.wrong, fmt.Sprintf(format, args...))
}

// items splits the values of a flag at commas, unless a value is the path of a file. Empty items are reported.
func (r *overrider) items(flag string, values []string) []string {
	var out []string
	for _, value := range values {
		list := strict.SplitList(value, ',')
		if path, _, err := segments.ParseAppliedTweak(value); err == nil && !segments.IsName(path) && isFile(path) {
			list = []string{value}
		}
		switch {
		case strings.TrimSpace(value) == "":
			r.problem("%s: a value is missing", flag)
		case slices.Contains(list, ""):
			r.problem("%s: %s", flag, strict.EmptyItem)
		default:
			out = append(out, list...)
		}
	}
	return out
}

// isFile reports whether there is a file of that name.
func isFile(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// tweaks applies tweaks; a mistake in one is reported after flag.
func (r *overrider) tweaks(given []string, flag string) {
	var names []string
	for _, text := range given {
		name, strength, err := segments.ParseAppliedTweak(text)
		if err != nil {
			r.problem("%s%s: %v", flag, text, err)
			continue
		}
		t, err := r.library.FindTweak(name)
		var unknown segments.UnknownName
		switch {
		case errors.As(err, &unknown):
			r.problem("%s%s: %v", flag, text, err)
			continue
		case err != nil:
			r.inFiles = append(r.inFiles, err)
			continue
		}
		if segments.IsName(name) {
			name = t.Name // however it was written
		}
		if slices.Contains(names, tweakKey(name)) {
			r.problem("%s%s: %s is named twice", flag, text, name)
			continue
		}
		names = append(names, tweakKey(name))
		r.brief.Tweaks = slices.DeleteFunc(r.brief.Tweaks,
			func(d segments.AppliedTweak) bool { return tweakKey(d.Source) == tweakKey(name) })
		r.brief.Tweaks = append(r.brief.Tweaks, segments.AppliedTweak{Tweak: t, Strength: strength, Source: name})
	}
}

// tweakKey is the same for all ways to write one tweak's name or path.
func tweakKey(nameOrPath string) string {
	if whole, err := filepath.Abs(nameOrPath); err == nil && !segments.IsName(nameOrPath) {
		return whole
	}
	return nameOrPath
}

// figure finds the figure that a flag names, if it can be pinned on this segment.
func (r *overrider) figure(flag, name string) (segments.Figure, bool) {
	f, known := segments.Lookup(strings.ToLower(name))
	switch {
	case !known:
		r.problem("%s: %s", flag, segments.UnknownFigure(name, segments.Brief{}.Pinnable()))
	case r.brief.CannotPin(f) != "":
		r.problem("%s: %s", flag, r.brief.CannotPin(f))
	case r.from[f] != "":
		r.problem("%s: %s names the figure too; give one of them", flag, r.from[f])
	default:
		r.from[f] = flag
		// A flag overrides the same figure of a file.
		r.brief.Pins = slices.DeleteFunc(r.brief.Pins, func(p segments.Pin) bool { return p.Figure == f })
		r.brief.Keeps = slices.DeleteFunc(r.brief.Keeps, func(k segments.Keep) bool { return k.Figure == f })
		return f, true
	}
	return 0, false
}

// pin applies a pin; a mistake in it is reported after flag.
func (r *overrider) pin(text, flag string) {
	flag += text
	name, value, ok := strings.Cut(text, "=")
	if !ok {
		r.problem("%s: want FIGURE=VALUE, like height=2.2w", flag)
		return
	}
	f, ok := r.figure(flag, name)
	if !ok {
		return
	}
	p, err := segments.ParsePin(f, value)
	if err != nil {
		r.problem("%s: %v", flag, err)
		return
	}
	p.Origin = segments.Origin{Place: flag}
	r.brief.Pins = append(r.brief.Pins, p)
}

func (r *overrider) keep(name string) {
	flag := "--keep " + name
	if f, ok := r.figure(flag, name); ok {
		if p, pinned := r.brief.Profile.Pin(f); pinned { // without tweaks and with them
			r.brief.Pins = append(r.brief.Pins, p)
			return
		}
		r.brief.Keeps = append(r.brief.Keeps, segments.Keep{Figure: f, Origin: segments.Origin{Place: flag}})
	}
}

// bounds refuses lengths that make no sense on this brief's wheel.
func (r *overrider) bounds() {
	fitted := r.brief.FittedProfile()
	wheel := fitted.Wheel.Diameter
	if q := fitted.RearRatio(); q < .5 || q > 2 {
		r.problem("the rear wheel, %s, beside the front wheel, %s; want half to twice as large", fitted.RearWheel, fitted.Wheel)
	}
	for _, p := range r.brief.Pins {
		if err := p.CheckBounds(wheel); err != nil && p.Origin.InFile {
			r.inFiles = append(r.inFiles, fmt.Errorf("%s: %v", p.Origin.Place, err)) // a flag gave it another wheel
		} else if err != nil {
			r.problem("%s: %v", p.Origin.Place, err)
		}
	}
}

// idleKeeps refuses figures to keep where nothing would move them; one of a file is left out.
func (r *overrider) idleKeeps() {
	moved := func(d segments.AppliedTweak) bool { return d.Strength != 0 }
	if len(r.brief.Pins) > 0 || slices.ContainsFunc(r.brief.Tweaks, moved) || len(r.wrong)+len(r.inFiles) > 0 {
		return
	}
	for _, k := range r.brief.Keeps {
		if k.Origin.InFile {
			r.notes = append(r.notes, k.Origin.Place+": keep: "+nothingMoves(k.Figure)+"; left out")
		} else {
			r.problem("%s: %s", k.Origin.Place, nothingMoves(k.Figure))
		}
	}
	r.brief.Keeps = nil
}

func nothingMoves(f segments.Figure) string {
	return fmt.Sprintf("%s stays as it is without a tweak or a pin", f)
}
