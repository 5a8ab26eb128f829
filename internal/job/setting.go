// Package job holds the one table of settings: how each setting of a sheet is named, parsed, written and explained, and which sheets use
// it. Flags, briefs, class files, the metadata of drawn files, saved briefs and shell completion are all made from the table. The package
// fills a [request.Request] from them and writes one back as a brief.
package job

import (
	"cmp"
	"slices"
	"strings"
	"sync"

	"hubrule/internal/slice"
	"hubrule/render/format"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// Job is a request before its vehicles are solved, and how its pictures are made.
type Job struct {
	request.Request
	Compared []Compared // what Against is solved from
	Picture  format.Options
	Files    []string // the files that settings name

	files *segments.Files // what they may name; nil: any
}

// Compared is a vehicle that others are compared with, and where it is asked for.
type Compared struct {
	Brief segments.Brief
	Place string // "--against suv+sporty", "brief.yaml:4:10: against"
}

// Setting is one setting of sheets: a row of the table.
type Setting struct {
	Name    string // of the flag
	Key     string // in files
	Group   Group  // in the help of a command
	Help    string // one line, the value's placeholder in backquotes
	Default string // as it is written; "" where each kind of sheet has its own, or there is none
	Bool    bool
	List    bool            // it takes several values
	Words   []string        // what completion offers
	Bounds  []strict.Bounds // of a number, one for each unit that it may have; none for anything else

	Format func(format.Format) bool // of a setting about files, not about what is drawn: which formats use it

	outsideClass, outsidePage bool // a class, or its page, cannot have it
	chooses                   bool // it chooses what is drawn, and with it which of the others are used
	always                    bool // it is written even where it has its default
	parse                     func(j *Job, words []string) error
	write                     func(w *writer, j Job) string // the value in YAML; "" where it changes nothing
	used                      func(v request.View) kinds    // the kinds of sheet of a view that use it
}

// AboutFiles reports whether the setting changes the files of a drawing and not the drawing itself. The resolution of a paper in pixels is
// its size.
func (s Setting) AboutFiles(p request.Paper) bool {
	return s.Format != nil && (s.Name != "dpi" || p.DPI == 0)
}

// Group is a heading under which the help of a command lists flags.
type Group string

// The groups. Shape and File have flags that are no settings of sheets.
const (
	What    Group = "What to draw"
	Shape   Group = "The vehicle's shape"
	Look    Group = "How a sheet looks"
	Paper   Group = "Paper and scale"
	View    Group = "View and camera"
	Picture Group = "Pictures (.png)"
	File    Group = "Files"
)

// Groups lists the groups in the order of help.
func Groups() []Group { return []Group{What, Shape, Look, Paper, View, Picture, File} }

// grouped puts rows of the table into a group.
func grouped(group Group, rows []Setting) []Setting {
	for i := range rows {
		rows[i].Group = group
	}
	return rows
}

// table is the table of settings, made once.
var table struct {
	once sync.Once
	rows []Setting
}

// Settings returns the table, in the order in which settings are written and explained. It is shared: callers must not change it.
func Settings() []Setting {
	table.once.Do(func() {
		table.rows = slices.Concat(grouped(What, sheetSettings()), grouped(View, viewSettings()), grouped(View, perspectiveSettings()),
			grouped(Paper, paperSettings()), grouped(Look, lookSettings()), grouped(Picture, pictureSettings()))
		for i := range table.rows {
			s := &table.rows[i]
			s.Key = cmp.Or(s.Key, s.Name)
			if s.used == nil {
				s.used = func(request.View) kinds { return anyKind() }
			}
		}
	})
	return table.rows
}

// Find returns the setting with a name.
func Find(name string) (Setting, bool) {
	return slice.Find(Settings(), func(s Setting) bool { return s.Name == name })
}

// Default returns the job with the default of every setting.
func Default() Job {
	var j Job
	for _, s := range Settings() {
		if s.Default == "" {
			continue
		}
		if err := s.parse(&j, []string{s.Default}); err != nil {
			panic("job: the default of " + s.Name + ": " + err.Error())
		}
	}
	return j
}

// keys lists the keys of a file in which settings for which left returns true cannot stand.
func keys(left func(Setting) bool) []string {
	var out []string
	for _, s := range Settings() {
		if !left(s) {
			out = append(out, s.Key)
		}
	}
	return out
}

// changes reports whether a job says more of the setting than its default does.
func (s Setting) changes(j Job) bool {
	text := s.write(&writer{named: strict.Quote}, j)
	return text != "" && text != s.Default
}

// keysFor turns a message about flags into one about the keys of a file.
func keysFor(text string) string {
	for _, s := range Settings() {
		text = strings.ReplaceAll(text, "--"+s.Name+" ", s.Key+": ")
	}
	return text
}

// UsageError is a mistake on the command line.
type UsageError string

// Error returns the text.
func (e UsageError) Error() string { return string(e) }
