// Package desk serves one page, on which a sheet is changed where it stands, and answers its calls (docs/calls.md). It keeps nothing: every
// call carries the whole job. It solves, composes and writes nothing itself: jobs are read, solved and drawn by what draws them for the
// command line, and answered in its words.
package desk

import (
	"encoding/json"
	"errors"
	"io"
	"path/filepath"
	"runtime"
	"sync"
	"time"

	"hubrule/internal/draw"
	"hubrule/internal/job"
	"hubrule/layout"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// Desk answers the calls of one page.
type Desk struct {
	files  *segments.Files // of the brief that it was opened with; no call reads others
	folder string          // from which paths in jobs and marks start
	first  firstJob
	queue  *queue
	doors  *doors // nil: whoever reaches the desk may call

	wheels wheels
	prints prints

	picture  string // path of the one that the page begins with; "" where there is none
	pictures pictures

	bodyWait time.Duration // for the whole body of a call

	segments, tweaks, settings, figures func() any
}

// Open reads the segment, profile, brief, marks file or picture that the page begins with; "" is the first segment, - is read from in. The
// error is about what is wrong with it; that its pins clash is for the page to show.
func Open(nameOrPath string, in io.Reader) (*Desk, error) {
	d := &Desk{files: &segments.Files{}, folder: ".", queue: newQueue(runtime.GOMAXPROCS(0), mostWaiting), bodyWait: bodyWait,
		first: firstJob{Place: onUnderlay}, pictures: newPictures()}
	if job.IsClass(nameOrPath) {
		if err := d.openClass(nameOrPath, in); err != nil {
			return nil, err
		}
		nameOrPath = ""
	}
	if nameOrPath == "" {
		nameOrPath = segments.Names()[0]
	}
	nameOrPath, err := d.openPhoto(nameOrPath)
	if err != nil {
		return nil, err
	}
	briefs, err := job.LoadBriefs(d.files, []string{nameOrPath}, in)
	if err != nil {
		return nil, err
	}
	if !segments.IsName(nameOrPath) {
		d.folder = segments.FolderOf(nameOrPath)
	}
	if !segments.IsName(nameOrPath) && !segments.IsStream(nameOrPath) {
		d.first.Name = filepath.Base(nameOrPath)
	}
	a, err := d.ask(d.files, briefs[0])
	if err != nil {
		return nil, err
	}
	if err := a.solve(); err != nil && !errors.As(err, new(*layout.Clash)) {
		return nil, err
	}
	d.first.Job = d.asJSON(a)
	d.files.Close()
	d.segments, d.tweaks = sync.OnceValue(listSegments), sync.OnceValue(listTweaks)
	d.settings, d.figures = sync.OnceValue(listSettings), sync.OnceValue(listFigures)
	return d, nil
}

// asked is a job as it is asked for.
type asked struct {
	job.Job
	reader job.Reader
	brief  *segments.BriefFile
	notes  []string
}

// ask reads the settings of a brief. The error holds every mistake in it.
func (d *Desk) ask(files *segments.Files, b *segments.BriefFile) (*asked, error) {
	a := &asked{brief: b, reader: job.Reader{Files: files}}
	a.reader.Brief(b)
	var err error
	a.Job, err = a.reader.Job()
	return a, err
}

// read reads a job of a call.
func (d *Desk) read(data json.RawMessage) (*asked, error) {
	files, data, err := d.filesOf(data)
	if err != nil {
		return nil, err
	}
	doc, err := strict.ParseJSON(data)
	if err != nil {
		return nil, malformed("job: " + err.Error())
	}
	if !doc.Is("brief", "") {
		return nil, doc.Err()
	}
	return d.ask(files, job.ReadBrief(files, d.folder, doc))
}

// solve solves the vehicles. The error is a clash, or what else is wrong with the job.
func (a *asked) solve() error {
	notes, err := draw.Solve(&a.Job, job.Overrides{}, []*segments.BriefFile{a.brief})
	if err != nil {
		return err
	}
	a.notes = append(a.reader.Notes, notes...)
	return a.reader.Check(a.Request)
}

// readSolved is read and solve.
func (d *Desk) readSolved(data json.RawMessage) (*asked, error) {
	a, err := d.read(data)
	if err != nil {
		return nil, err
	}
	return a, a.solve()
}

// asJSON writes a job, solved or not, in the one form that equal jobs share.
func (d *Desk) asJSON(a *asked) json.RawMessage {
	j := a.Job
	j.Plans = nil
	for _, b := range a.brief.Briefs {
		j.Plans = append(j.Plans, layout.Plan{Profile: b.Profile, Brief: b.Canonical()})
	}
	doc := strict.Parse("brief.yaml", []byte(draw.Saved(j, d.folder)))
	return doc.Top().JSON("kind")
}
