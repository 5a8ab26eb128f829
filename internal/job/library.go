package job

import (
	"hubrule/internal/slice"
	"hubrule/segments"
	"hubrule/segments/reading"
	"hubrule/segments/strict"
)

// library finds vehicles in profiles and in marks files; files may be nil.
func library(files *segments.Files) segments.Library {
	marks := func(path string, doc *strict.Document) (*segments.Profile, error) { return readMarks(files, path, doc) }
	return segments.Library{Files: files, Readers: map[string]func(string, *strict.Document) (*segments.Profile, error){"marks": marks}}
}

func readMarks(files *segments.Files, path string, doc *strict.Document) (*segments.Profile, error) {
	file, err := reading.ReadMarks(files, path, doc)
	if err != nil {
		return nil, err
	}
	r, err := file.Reading()
	if err != nil {
		return nil, err
	}
	p, notes, err := r.Profile()
	if err != nil {
		return nil, err
	}
	p.Notes = append(notes, slice.Map(r.Messages, func(text string) string { return p.Name + ": " + text })...)
	return p, nil
}
