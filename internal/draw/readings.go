package draw

import (
	"fmt"
	"strings"

	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/compare"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// ReadingProfile writes a reading as a profile's file; notes are those of [reading.Reading.Profile].
func ReadingProfile(r reading.Reading) (text string, notes []string, err error) {
	p, notes, err := r.Profile()
	if err != nil {
		return "", nil, err
	}
	text, err = p.YAML("Read from "+r.Source+" by hubrule. Ranges are how far off a figure may be.",
		"Sources of the other figures stand in the segment that it extends.")
	return text, notes, err
}

// NormsProfile writes norms as a profile's file.
func NormsProfile(n *reading.Norms) (string, error) {
	of := "1 reading"
	if count := len(n.Readings); count > 1 {
		of = fmt.Sprintf("%d readings", count)
	}
	return n.Profile.YAML(append([]string{"Norms of " + of + ", gathered by hubrule."}, n.Messages...)...)
}

// NormsDocument draws norms on a page.
func NormsDocument(n *reading.Norms, set request.Setting) (render.Document, error) {
	page, err := compare.NormsPage(n, set)
	return render.Document{Title: page.Title, About: MadeFrom("norms of", n.Readings, ""), Pages: []render.Page{page}}, err
}

// PhotoDocument is the document of pictures with their readings, without its pages. Against is the segment or the file that they are held
// against; it may be empty.
func PhotoDocument(readings []reading.Reading, against string) render.Document {
	doc := render.Document{Title: "Readings", About: MadeFrom("a reading", readings, against)}
	if len(readings) == 1 {
		doc.Title = readings[0].Name
	}
	return doc
}

// MadeFrom is what a file says of how it was made: nothing of a photograph's own file, and no path of the user's.
func MadeFrom(what string, readings []reading.Reading, against string) render.About {
	names := slice.Map(readings, func(r reading.Reading) string { return r.Name })
	job := "# " + strings.TrimSpace(what+" "+strings.Join(names, ", "))
	if against != "" {
		job += ", held against " + segments.Stem(against)
	}
	return render.About{Program: Program, Job: job + "\n"}
}
