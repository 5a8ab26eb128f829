package segments

import (
	"slices"

	"hubrule/segments/strict"
)

// Library finds vehicles: segments of the catalogue, profiles in files, and, by the word after kind:, files that another package reads as
// profiles. The zero Library knows no such files.
type Library map[string]func(path string, doc *strict.Document) (*Profile, error)

// Find returns the segment of the catalogue with this name or alias, in any case, or reads the profile at a path:
// anything with a slash or ending in .yaml or .yml is a path. Only the profile asked for is read (and the one it extends).
// What is wrong inside a file comes back as a *strict.Problems.
func (l Library) Find(nameOrPath string) (*Profile, error) {
	if name, ok := named(nameOrPath); ok {
		return fromCatalogue(name), nil
	}
	if IsName(nameOrPath) {
		return nil, unknownSegment(nameOrPath)
	}
	doc, err := strict.Load(nameOrPath)
	if err != nil {
		return nil, err
	}
	return l.profile(nameOrPath, doc)
}

// profile reads a document that is no brief.
func (l Library) profile(path string, doc *strict.Document) (*Profile, error) {
	if v, ok := doc.Peek("kind"); ok {
		kind, _ := v.Scalar()
		if read, ok := l[kind]; ok {
			return read(path, doc)
		}
	}
	return readOwnProfile(nameOf(path, doc), doc)
}

// kinds lists the kinds of files that are vehicles, and others.
func (l Library) kinds(others ...string) []string {
	for kind := range l {
		others = append(others, kind)
	}
	slices.Sort(others)
	return others
}

// Find is [Library.Find] of a library that knows nothing but segments and profiles.
func Find(nameOrPath string) (*Profile, error) { return Library(nil).Find(nameOrPath) }
