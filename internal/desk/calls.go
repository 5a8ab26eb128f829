package desk

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"

	"hubrule/internal/job"
	"hubrule/internal/report"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// call answers a POST; the body was read whole. What takes long ends with ctx.
type call func(d *Desk, ctx context.Context, body []byte) (any, error)

// calls are the paths that are answered, besides the page and the lists.
func calls() map[string]call {
	return map[string]call{"/solve": (*Desk).solve, "/sheet": (*Desk).sheet,
		"/keep": (*Desk).keep, "/command": (*Desk).command, "/open": (*Desk).open,
		"/read": (*Desk).readMarks, "/frame": (*Desk).frame, "/norms": (*Desk).norms}
}

// lists are the paths of what does not change while the desk is open.
func (d *Desk) lists() map[string]func() any {
	return map[string]func() any{"/segments": d.segments, "/tweaks": d.tweaks, "/settings": d.settings, "/figures": d.figures,
		"/marks": listMarks,
		"/job":   func() any { return d.first }}
}

// malformed is what is wrong with a body before its job is looked at.
type malformed string

func (e malformed) Error() string { return string(e) }

// misplaced is what is wrong beside the job.
type misplaced struct{ where, text string }

func (e misplaced) Error() string { return e.where + ": " + e.text }

// within is what is wrong with one of several things that a call brings.
type within struct {
	where string
	err   error
}

func (e within) Error() string { return e.where + ": " + e.err.Error() }
func (e within) Unwrap() error { return e.err }

// decode reads a body with the keys of a call and no others.
func decode(body []byte, into any) error {
	d := json.NewDecoder(bytes.NewReader(body))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		return malformed(strings.TrimPrefix(err.Error(), "json: "))
	}
	if _, err := d.Token(); err != io.EOF {
		return malformed("more than one value; want one")
	}
	return nil
}

// problem is one mistake of a job.
type problem struct {
	Where   string `json:"where"`
	Text    string `json:"text"`
	Nearest string `json:"nearest,omitempty"`
}

type problems struct {
	Problems []problem `json:"problems"`
}

var meant = strict.Pattern(`did you mean "([^"]+)"`)

func problemOf(where, text string) problem {
	p := problem{Where: where, Text: text}
	if m := meant().FindStringSubmatch(text); m != nil {
		p.Nearest = m[1]
	}
	return p
}

// problemsOf lists every mistake of an error: those in a job or a file at their places, all else a line each.
func problemsOf(err error) (out []problem) {
	var inFile *strict.Problems
	switch e := err.(type) {
	case nil:
		return nil
	case misplaced:
		return []problem{problemOf(e.where, e.text)}
	case within:
		return slice.Map(problemsOf(e.err), func(p problem) problem {
			p.Where = strings.TrimSuffix(e.where+"."+p.Where, ".")
			return p
		})
	case interface{ Unwrap() []error }:
		for _, one := range e.Unwrap() {
			out = append(out, problemsOf(one)...)
		}
		return out
	}
	if errors.As(err, &inFile) {
		return slice.Map(inFile.List, func(p strict.Problem) problem {
			if inFile.File == "" {
				return problemOf(p.Path, p.Text)
			}
			text := strings.TrimPrefix(p.Path+": "+p.Text, ": ")
			return problemOf(fmt.Sprintf("%s:%d:%d", inFile.File, p.Line, p.Column), text)
		})
	}
	return slice.Map(strings.Split(err.Error(), "\n"), func(line string) problem { return problemOf("", line) })
}

// refusal returns the status and the body that an error is answered with. A clash is an answer.
func refusal(err error) (int, any) {
	var clash *layout.Clash
	var wrong malformed
	switch {
	case errors.Is(err, context.DeadlineExceeded):
		err = fmt.Errorf("this takes longer than %v; do it with hubrule in a terminal", workWait)
	case errors.As(err, &clash):
		return http.StatusOK, clashOf(clash)
	case errors.As(err, &wrong):
		return http.StatusBadRequest, problems{problemsOf(err)}
	case errors.Is(err, errTooLarge):
		return http.StatusRequestEntityTooLarge, problems{problemsOf(err)}
	}
	return http.StatusUnprocessableEntity, problems{problemsOf(err)} // RFC 9110, 15.5.21 (MEM)
}

type clashAnswer struct {
	Clash struct {
		Sets  []clashSet `json:"sets"`
		Words string     `json:"words"`
	} `json:"clash"`
}

type clashSet struct {
	report.ClashSet
	Words string `json:"words"`
}

func clashOf(c *layout.Clash) (out clashAnswer) {
	out.Clash.Sets = []clashSet{}
	var reasons []string
	for i, set := range report.ClashSets(c) {
		why := report.ClashReason(c.Sets[i])
		reasons = append(reasons, why)
		out.Clash.Sets = append(out.Clash.Sets, clashSet{set, why})
	}
	if out.Clash.Words = strings.Join(reasons, "; "); reasons == nil {
		out.Clash.Words = c.Error()
	}
	return out
}

type solved struct {
	report.Figures
	Room  []json.Number `json:"room,omitempty"`
	Stops *stops        `json:"stops,omitempty"`
	Notes []string      `json:"notes"`
}

type stops struct {
	Lo string `json:"lo"`
	Hi string `json:"hi"`
}

// solve answers with the figures of the job's first vehicle, and the room of the one in hand.
func (d *Desk) solve(_ context.Context, body []byte) (any, error) {
	var in struct {
		Job  json.RawMessage `json:"job"`
		Hold string          `json:"hold"`
	}
	if err := decode(body, &in); err != nil {
		return nil, err
	}
	a, err := d.readSolved(in.Job)
	if err != nil {
		return nil, err
	}
	out := solved{Figures: report.FiguresOf(a.Plans[0]), Notes: a.remarks()}
	if in.Hold == "" {
		return out, nil
	}
	f, known := segments.Lookup(in.Hold)
	if !known {
		return nil, misplaced{"hold", segments.UnknownFigure(in.Hold, a.brief.Briefs[0].Pinnable())}
	}
	room, err := layout.RoomOf(a.Plans[0].Brief, f)
	if err != nil {
		return nil, misplaced{"hold", err.Error()}
	}
	out.Room = []json.Number{report.Six(room.Lo), report.Six(room.Hi)}
	out.Stops = &stops{room.StopLo, room.StopHi}
	return out, nil
}

// open reads a brief's file into a job, or a marks file.
func (d *Desk) open(_ context.Context, body []byte) (any, error) {
	var in struct {
		YAML    string  `json:"yaml"`
		Profile string  `json:"profile"` // that a brief names
		Roster  *string `json:"roster"`  // a list of students
		Name    string  `json:"name"`    // of the file: of a list its ending says what kind it is
	}
	if err := decode(body, &in); err != nil {
		return nil, err
	}
	if in.Roster != nil {
		return openRoster(in.Name, *in.Roster)
	}
	doc := strict.Parse("brief.yaml", []byte(in.YAML))
	switch kindOf(doc) {
	case "marks":
		return d.openMarks(in.YAML)
	case "class":
		return d.openedClass(in.YAML)
	}
	if in.Profile != "" || isProfile(doc) {
		return d.openWithProfile(in.YAML, in.Profile, in.Name)
	}
	if !doc.Is("brief", "kind: brief") {
		return nil, doc.Err()
	}
	return d.opened(d.files, doc)
}

// opened is the job of a brief.
func (d *Desk) opened(files *segments.Files, doc *strict.Document) (*openedJob, error) {
	a, err := d.ask(files, job.ReadBrief(files, d.folder, doc))
	if err != nil {
		return nil, err
	}
	return &openedJob{d.asJSON(a)}, nil
}

type openedJob struct {
	Job json.RawMessage `json:"job"`
}

// isProfile reports whether a document is a segment of the user's own.
func isProfile(doc *strict.Document) bool {
	_, extends := doc.Peek("extends")
	return kindOf(doc) == "segment" || kindOf(doc) == "" && extends
}
