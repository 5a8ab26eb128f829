package segments

import (
	"fmt"
	"maps"
	"path/filepath"
	"slices"

	"hubrule/segments/strict"
)

// Library finds vehicles and tweaks: those of the catalogue, and those in files. The zero Library knows profiles, tweaks and briefs.
type Library struct {
	// Readers read files of other kinds as profiles, by the word after kind:.
	Readers map[string]func(path string, doc *strict.Document) (*Profile, error)
	Files   *Files // nil: every file is read anew
}

// Files keeps what the user's own files hold. Once closed, no other file is read: whoever asks from outside names what is there already.
// Before, it is for one goroutine, and then for many.
type Files struct {
	held   map[string]any
	closed bool
}

// Close ends reading.
func (f *Files) Close() { f.closed = true }

// IsClosed reports whether no more files are read.
func (f *Files) IsClosed() bool { return f != nil && f.closed }

// With returns closed files that hold one more profile, which stands at a path.
func (f *Files) With(path string, p *Profile) *Files {
	out := &Files{map[string]any{}, true}
	maps.Copy(out.held, f.held)
	out.held[heldAs[*Profile](path)] = p
	return out
}

// heldAs is the key under which files hold what was made of the file at a path.
func heldAs[T any](path string) string { return fmt.Sprintf("%T %s", *new(T), filepath.Clean(path)) }

// ReadOnce returns what read makes of the file at a path, or what it made of it before.
func ReadOnce[T any](f *Files, path string, read func(path string) (T, error)) (T, error) {
	if f == nil {
		return read(path)
	}
	key := heldAs[T](path)
	if held, ok := f.held[key]; ok {
		return held.(T), nil
	}
	out, err := read(path)
	if err == nil && !f.closed {
		if f.held == nil {
			f.held = map[string]any{}
		}
		f.held[key] = out
	}
	return out, err
}

// Load is strict.Load where files may be read.
func (l Library) Load(path string) (*strict.Document, error) {
	if l.Files.IsClosed() {
		return nil, fmt.Errorf("%s; want a name: files are read only where the program was started with them", strict.Excerpt(path))
	}
	return strict.Load(path)
}

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
	return ReadOnce(l.Files, nameOrPath, func(path string) (*Profile, error) {
		doc, err := l.Load(path)
		if err != nil {
			return nil, err
		}
		return l.profile(path, doc)
	})
}

// FindTweak returns the tweak with this name, in any case, or reads the one at a path, as Find does segments.
// What is wrong inside a file comes back as a *strict.Problems.
func (l Library) FindTweak(nameOrPath string) (*Tweak, error) {
	if name := spelled(nameOrPath); slices.Contains(TweakNames(), name) {
		return readEmbedded("tweaks/", name, readTweak), nil
	}
	if IsName(nameOrPath) {
		return nil, UnknownName(strict.Unknown("tweak", nameOrPath, TweakNames()))
	}
	return ReadOnce(l.Files, nameOrPath, func(path string) (*Tweak, error) {
		doc, err := l.Load(path)
		if err != nil {
			return nil, err
		}
		return readTweak(nameOf(path, doc), doc)
	})
}

// profile reads a document that is no brief.
func (l Library) profile(path string, doc *strict.Document) (*Profile, error) {
	if v, ok := doc.Peek("kind"); ok {
		kind, _ := v.Scalar()
		if read, ok := l.Readers[kind]; ok {
			return read(path, doc)
		}
	}
	return readOwnProfile(nameOf(path, doc), doc)
}

// kinds lists the kinds of files that are vehicles, and others.
func (l Library) kinds(others ...string) []string {
	for kind := range l.Readers {
		others = append(others, kind)
	}
	slices.Sort(others)
	return others
}

// ReadProfile reads a profile that came in another way than as a file; its path names it.
func ReadProfile(path string, doc *strict.Document) (*Profile, error) {
	return Library{}.profile(path, doc)
}

// Find is [Library.Find] of the zero Library.
func Find(nameOrPath string) (*Profile, error) { return Library{}.Find(nameOrPath) }

// FindTweak is [Library.FindTweak] of the zero Library.
func FindTweak(nameOrPath string) (*Tweak, error) { return Library{}.FindTweak(nameOrPath) }
