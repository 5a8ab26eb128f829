package segments

import (
	"embed"
	"errors"
	"path/filepath"
	"slices"
	"strings"

	"hubrule/segments/strict"
)

// Reading a file costs a cold start more than drawing its outline, so the catalogue lies prepared as Go; see docs/speed.md.
//
//go:generate go test -run TestPreparedCatalogue -update

// The embedding directive needs a variable of the package; nothing writes to it.
//
//go:embed catalogue/*.yaml
var catalogue embed.FS

// Names lists the catalogue's segments in the order they are told to people.
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
	var out []*Profile
	for _, name := range Names() {
		out = append(out, fromCatalogue(name))
	}
	return out
}

// Find returns the segment of the catalogue with this name, or reads the profile at a path:
// anything with a slash or ending in .yaml or .yml is a path. Only the profile asked for is read (and the one it extends).
// What is wrong inside a file comes back as a *strict.Problems.
func Find(nameOrPath string) (*Profile, error) {
	if slices.Contains(Names(), nameOrPath) {
		return fromCatalogue(nameOrPath), nil
	}
	if IsName(nameOrPath) {
		return nil, errors.New(strict.Unknown("segment", nameOrPath, Names()))
	}
	doc, err := strict.Load(nameOrPath)
	if err != nil {
		return nil, err
	}
	return readProfile(Stem(nameOrPath), doc)
}

// IsName reports whether Find takes s for a segment's name, right or wrong, and not for a path.
func IsName(s string) bool {
	return !strings.ContainsAny(s, `/\`) && !strings.HasSuffix(s, ".yaml") && !strings.HasSuffix(s, ".yml")
}

// Stem returns the last element of a path without its ending: what a file is named after.
func Stem(path string) string {
	base := filepath.Base(path)
	return strings.TrimSuffix(base, filepath.Ext(base))
}

// fromCatalogue returns a segment that is known to exist; its file is read only while nothing lies prepared for it.
// The file is part of the program: a mistake in it is the program's own.
func fromCatalogue(name string) *Profile {
	if p := prepared(name); p != nil {
		return p
	}
	file := "catalogue/" + name + ".yaml"
	data, err := catalogue.ReadFile(file)
	if err == nil {
		var p *Profile
		if p, err = readProfile(name, strict.Parse(file, data)); err == nil {
			return p
		}
	}
	panic("segments: " + err.Error())
}
