package desk

import (
	"context"
	"encoding/json"
	"strings"

	"hubrule/internal/draw"
	"hubrule/internal/job"
	"hubrule/internal/slice"
	"hubrule/render/format"
	"hubrule/segments/strict"
)

// command answers with a line that draws the job.
func (d *Desk) command(_ context.Context, body []byte) (any, error) {
	if has(body, "marks") {
		return d.markCommand(body)
	}
	var in struct {
		Job    json.RawMessage `json:"job"`
		Class  json.RawMessage `json:"class"`
		Duplex bool            `json:"duplex"` // of a class
	}
	if err := decode(body, &in); err != nil {
		return nil, err
	}
	if in.Class != nil {
		return d.commandOfClass(in.Class, in.Duplex)
	}
	a, err := d.readSolved(in.Job)
	if err != nil {
		return nil, err
	}
	return map[string]string{"line": a.line()}, nil
}

// line writes the job as a command for a shell: in flags, or as a brief on standard input where flags cannot say it all.
func (a *asked) line() string {
	formats := formatsOf(a.Job)
	words, ok := job.Flags(a.Job, formats...)
	if !ok {
		words = []string{"-"}
	}
	words = append([]string{"hubrule", "draw"}, words...)
	for _, f := range formats {
		words = append(words, "-o", a.stem()+"."+f.Name)
	}
	line := strings.Join(slice.Map(words, shellWord), " ")
	if !ok {
		const end = "END" // no line of a brief is that
		line += " <<'" + end + "'\n" + draw.Saved(a.Job, ".") + end
	}
	return line
}

// formatsOf lists the formats that a job has settings for, or else the usual one.
func formatsOf(j job.Job) (out []format.Format) {
	var usual format.Format
	for _, f := range format.All() {
		if f.Default {
			usual = f
		}
		if job.WrittenOptions(j, f) != "" {
			out = append(out, f)
		}
	}
	if out == nil {
		return []format.Format{usual}
	}
	return out
}

var plainWords = strict.Pattern(`^[A-Za-z0-9_@%+=:,./-]+$`)

// shellWord quotes a word for a POSIX shell where it has to be (XCU 2.2.2, MEM).
func shellWord(word string) string {
	if plainWords().MatchString(word) {
		return word
	}
	return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
}
