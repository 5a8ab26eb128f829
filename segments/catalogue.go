package segments

import (
	"cmp"
	"embed"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"unicode"

	"hubrule/internal/parallel"
	"hubrule/segments/strict"

	"golang.org/x/text/unicode/norm"
)

// The embedding directive needs a variable of the package; nothing writes to it.
//
//go:embed catalogue/*.yaml tweaks/*.yaml
var embedded embed.FS

// Names lists the catalogue's segments in display order.
func Names() []string {
	return []string{
		"city", "hatchback", "sedan-compact", "sedan", "sedan-large", "estate",
		"coupe", "convertible", "sports", "mid-engine",
		"crossover", "suv", "suv-large", "off-roader",
		"pickup", "pickup-large", "minivan", "van",
	}
}

// All returns the whole catalogue in the order of Names.
func All() []*Profile {
	return parallel.Map(Names(), fromCatalogue)
}

// unknownSegment is the error for a name that is no segment. It suggests the nearest name or everyday word, whose segment it names too.
func unknownSegment(word string) UnknownName {
	words := Names()
	for _, p := range All() {
		words = append(words, p.Aliases...)
	}
	near := strict.Nearest(word, words)
	if segment, _ := named(near); near != "" && !slices.Contains(Names(), near) {
		return UnknownName(fmt.Sprintf("unknown segment %s; did you mean %q (%s)?", strict.Quote(word), near, segment))
	}
	return UnknownName(strict.Unknown("segment", word, Names()))
}

// spelled returns a name as the catalogue spells names: "People carrier" is people-carrier.
func spelled(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r == ' ' || r == '_' || r == '-' }), "-")
}

// named returns the segment that a name or an everyday word stands for, in any case. The catalogue is read only for a word that is no name.
func named(word string) (name string, ok bool) {
	if name = spelled(word); slices.Contains(Names(), name) {
		return name, true
	}
	if name == "" || !IsName(word) {
		return "", false
	}
	for _, p := range All() {
		if slices.ContainsFunc(p.Aliases, func(alias string) bool { return spelled(alias) == name }) {
			return p.Name, true
		}
	}
	return "", false
}

// UnknownName is the error for a name that no segment or tweak has. Its text suggests another.
type UnknownName string

// Error returns the text.
func (e UnknownName) Error() string { return string(e) }

// IsName reports whether Find takes s for a segment's name, right or wrong, and not for a path; - is the path of standard input.
func IsName(s string) bool {
	return s != strict.Stdin && !strings.ContainsAny(s, `/\`) && !strings.HasSuffix(s, ".yaml") && !strings.HasSuffix(s, ".yml")
}

// IsStream reports whether a path stands for what another program hands over: standard input, or a pipe that the shell opened. It has
// no name, paths in it start from the working directory, and it cannot be read again.
func IsStream(path string) bool {
	opened := func(folder string) bool { return strings.HasPrefix(path, folder) }
	return path == strict.Stdin || path == "/dev/stdin" || slices.ContainsFunc([]string{"/dev/fd/", "/proc/"}, opened)
}

// FolderOf returns where paths in a file start from.
func FolderOf(path string) string {
	if IsStream(path) {
		return "."
	}
	return filepath.Dir(path)
}

// nameOf returns what a profile is called: as its file is, or by its title where it came through a stream.
func nameOf(path string, doc *strict.Document) string {
	if !IsStream(path) {
		return Stem(path)
	}
	title, _ := doc.Peek("title")
	text, _ := title.Scalar()
	return cmp.Or(strings.ToLower(FileName(text)), "segment")
}

// FileName turns a name or a title into part of a file's name that every system takes: letters, digits, and single dashes for all else.
func FileName(name string) string {
	const most = 60 // letters; a file's name may have 255 bytes
	var b []rune
	for _, r := range norm.NFC.String(name) {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r):
			b = append(b, r)
		case len(b) > 0 && b[len(b)-1] != '-':
			b = append(b, '-')
		}
		if len(b) == most || len(string(b)) > 180 {
			break
		}
	}
	return strings.Trim(string(b), "-")
}

// Stem returns the last element of a path without its ending: what a file is named after. It begins with no dot, since nobody would see
// that file, and is "drawing" where nothing is left.
func Stem(path string) string {
	base := filepath.Base(path)
	return cmp.Or(strings.TrimLeft(strings.TrimSuffix(base, filepath.Ext(base)), "."), "drawing")
}

// parsed keeps the profiles and tweaks of the program that were read: a process reads each at most once, and only those it is asked for.
var parsed sync.Map

// fromCatalogue returns a copy of a segment that is known to exist.
func fromCatalogue(name string) *Profile {
	clone := *readEmbedded("catalogue/", name, readProfile)
	clone.inCatalogue = true
	return &clone
}

// readEmbedded reads a file that is part of the program: a mistake in it is the program's own. What it returns is shared.
func readEmbedded[T any](folder, name string, read func(string, *strict.Document) (*T, error)) *T {
	file := folder + name + ".yaml"
	if held, ok := parsed.Load(file); ok {
		return held.(*T)
	}
	data, err := embedded.ReadFile(file)
	if err == nil {
		var t *T
		if t, err = read(name, strict.Parse(file, data)); err == nil {
			held, _ := parsed.LoadOrStore(file, t)
			return held.(*T)
		}
	}
	panic("segments: " + err.Error())
}
