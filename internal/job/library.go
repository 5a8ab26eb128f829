package job

import (
	"hubrule/internal/slice"
	"hubrule/segments"
	"hubrule/segments/reading"
	"hubrule/segments/strict"
)

// library finds vehicles in profiles and in marks files.
func library() segments.Library {
	return segments.Library{"marks": func(path string, doc *strict.Document) (*segments.Profile, error) {
		file, err := reading.ReadMarks(path, doc)
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
	}}
}
