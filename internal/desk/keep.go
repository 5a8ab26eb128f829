package desk

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"iter"
	"slices"
	"strconv"
	"strings"

	"hubrule/internal/draw"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/format"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// file is an answer that is a file.
type file struct {
	name, mime string
	data       []byte
}

var mimes = map[string]string{"svg": "image/svg+xml", "pdf": "application/pdf", "png": "image/png",
	"yaml": "application/yaml"} // RFC 9512 (MEM)

// remarks are what the user should know of a job before it is drawn.
func (a *asked) remarks() []string {
	notes, warnings := draw.PlanNotes(a.Plans)
	words := []string{a.Setting.Title}
	for _, p := range a.Plans {
		words = append(words, p.Profile.Title, p.Brief.Title)
	}
	out := []string{}
	for _, list := range [][]string{notes, warnings, {draw.MissingLetters(words...)}, a.notes} {
		for _, line := range list {
			if line != "" {
				out = append(out, line)
			}
		}
	}
	return out
}

// stem is what files of the job are called without their ending.
func (a *asked) stem() string {
	return segments.FileName(strings.Join(slice.Map(a.brief.Briefs, func(b segments.Brief) string { return b.Profile.Name }), "-"))
}

// briefFile is what a brief of the job is called; not as the profile beside it that it names.
func (a *asked) briefFile() string {
	if slices.ContainsFunc(a.brief.Briefs, func(b segments.Brief) bool { return !segments.IsName(b.Source) }) {
		return a.stem() + "-brief.yaml"
	}
	return a.stem() + ".yaml"
}

// keep answers with a file.
func (d *Desk) keep(ctx context.Context, body []byte) (any, error) {
	if has(body, "marks") {
		return d.keepMarks(ctx, body)
	}
	if len(body) > mostClass || len(body) > mostBody && !has(body, "class") {
		return nil, errTooLarge
	}
	var in keepCall
	if err := decode(body, &in); err != nil {
		return nil, err
	}
	if in.Class != nil {
		return d.keepClass(in.Class, in.Format)
	}
	return d.keepJob(ctx, in)
}

// keepCall asks for a file of a job or a class.
type keepCall struct {
	Job    json.RawMessage `json:"job"`
	Class  json.RawMessage `json:"class"`
	Format string          `json:"format"`
	Page   *int            `json:"page"`
}

// keepJob answers with a file of a job.
func (d *Desk) keepJob(ctx context.Context, in keepCall) (any, error) {
	kind, known := format.Find(in.Format)
	if !known && in.Format != "yaml" {
		return nil, misplaced{"format", strict.Unknown("format", in.Format, append(format.Names("", format.Any), "yaml"))}
	}
	a, err := d.readSolved(in.Job)
	if err != nil {
		return nil, err
	}
	out := file{a.stem() + "." + in.Format, mimes[in.Format], nil}
	if !known {
		out.name = a.briefFile()
		out.data = []byte(draw.Saved(a.Job, d.folder))
		return out, nil
	}
	doc, _, err := draw.Compose(ctx, a.Request, draw.MostPages)
	if err != nil {
		return nil, err
	}
	pages := doc.Each()
	if n := len(doc.Pages); !kind.ManyPages() && n > 1 {
		at, err := pageOf(in.Page, n)
		if err != nil {
			return nil, err
		}
		pages = only(doc, at)
		out.name = fmt.Sprintf("%s-%0*d.%s", a.stem(), len(strconv.Itoa(n)), at+1, in.Format)
	}
	files, _, err := draw.Render(doc, until(ctx, pages), kind, a.Job)
	if err != nil {
		return nil, err
	}
	out.data = files[0]
	return out, nil
}

// pageOf returns the index of the page that is asked for.
func pageOf(asked *int, pages int) (int, error) {
	switch {
	case asked == nil:
		return 0, nil
	case *asked < 1 || *asked > pages:
		return 0, misplaced{"page", fmt.Sprintf("%d; want 1 to %d", *asked, pages)}
	}
	return *asked - 1, nil
}

// only walks over one page of a document.
func only(doc render.Document, at int) iter.Seq2[render.Page, error] {
	return render.Document{Pages: doc.Pages[at : at+1]}.Each()
}

// until walks over pages until ctx ends.
func until(ctx context.Context, pages iter.Seq2[render.Page, error]) iter.Seq2[render.Page, error] {
	return func(yield func(render.Page, error) bool) {
		for p, err := range pages {
			if !yield(p, errors.Join(err, ctx.Err())) {
				return
			}
		}
	}
}
