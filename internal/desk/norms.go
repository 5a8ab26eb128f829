package desk

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/draw"
	"hubrule/internal/job"
	"hubrule/internal/parallel"
	"hubrule/internal/report"
	"hubrule/internal/slice"
	"hubrule/render/format"
	"hubrule/segments"
	"hubrule/segments/reading"
	"hubrule/segments/strict"
)

// mostReadings is how many readings one call gathers: they are read within its time.
const mostReadings = 200

type normsCall struct {
	Readings []marked `json:"readings"`
	Like     string   `json:"like"`
	Plain    bool     `json:"plain"`
	Without  []string `json:"without"`
	Format   string   `json:"format"`
	Name     string   `json:"name"`
}

type normsAnswer struct {
	Figures  []normFigure `json:"figures"`
	Base     string       `json:"base"`
	LeftOut  []leftOut    `json:"left-out"`
	Outliers []outlier    `json:"outliers"`
	Messages []string     `json:"messages"`
	Profile  string       `json:"profile"`
}

type normFigure struct {
	Figure string         `json:"figure"`
	N      int            `json:"n"`
	P10    json.Number    `json:"p10"`
	Median json.Number    `json:"median"`
	P90    json.Number    `json:"p90"`
	Range  [2]json.Number `json:"range"`
	Unit   segments.Unit  `json:"unit"`
}

type leftOut struct {
	Name   string      `json:"name"`
	Figure string      `json:"figure"`
	PM     json.Number `json:"pm"`
	Most   json.Number `json:"most"`
}

type outlier struct {
	Name   string      `json:"name"`
	Figure string      `json:"figure"`
	Value  json.Number `json:"value"`
	By     json.Number `json:"by"`
}

// norms answers with what readings have in common, or with a file of it.
func (d *Desk) norms(ctx context.Context, body []byte) (any, error) {
	var in normsCall
	if err := decode(body, &in); err != nil {
		return nil, err
	}
	name, err := fileStem("name", in.Name, usualProfile)
	if err != nil {
		return nil, err
	}
	kind, known := format.Find(in.Format)
	if !known && in.Format != "" && in.Format != "yaml" {
		return nil, misplaced{"format", strict.Unknown("format", in.Format, append(format.Names("", format.Any), "yaml"))}
	}
	n, err := d.gather(ctx, in, name)
	if err != nil {
		return nil, err
	}
	text, err := draw.NormsProfile(n)
	switch {
	case err != nil:
		return nil, err
	case in.Format == "":
		return normsOf(n, text), nil
	case !known:
		return file{name + ".yaml", mimes["yaml"], []byte(text)}, nil
	}
	j := job.Default()
	doc, err := draw.NormsDocument(n, j.Setting)
	if err != nil {
		return nil, err
	}
	files, _, err := draw.Render(doc, until(ctx, doc.Each()), kind, j)
	if err != nil {
		return nil, err
	}
	return file{name + "." + in.Format, mimes[in.Format], files[0]}, nil
}

// gather reads the marks of a call and makes norms of them.
func (d *Desk) gather(ctx context.Context, in normsCall, name string) (*reading.Norms, error) {
	if n := len(in.Readings); n == 0 || n > mostReadings {
		return nil, misplaced{"readings", fmt.Sprintf("%d; want 1 to %d", n, mostReadings)}
	}
	like, err := d.like(in.Like)
	if err != nil {
		return nil, err
	}
	all, errs := make([]reading.Reading, len(in.Readings)), make([]error, len(in.Readings))
	parallel.Do(len(all), func(i int) {
		if errs[i] = ctx.Err(); errs[i] != nil {
			return
		}
		file, err := d.marks(in.Readings[i])
		if err == nil {
			all[i], err = file.Reading()
		}
		if err != nil {
			errs[i] = within{fmt.Sprintf("readings[%d]", i+1), err}
		}
		if all[i].Like == nil {
			all[i].Like = like
		}
	})
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	names := slice.Map(all, func(r reading.Reading) string { return r.Name })
	for _, name := range in.Without {
		if !slices.ContainsFunc(names, func(known string) bool { return strings.EqualFold(known, name) }) {
			return nil, misplaced{"without", strict.Unknown("reading", name, names)}
		}
	}
	return reading.Gather(all, reading.NormOptions{Name: name, Like: like, Plain: in.Plain, Without: in.Without})
}

// like finds the segment that norms lean on; nil for "".
func (d *Desk) like(word string) (*segments.Profile, error) {
	if word == "" {
		return nil, nil
	}
	p, err := segments.Library{Files: d.files}.Find(segments.PathFrom(d.folder, word))
	if err != nil {
		return nil, misplaced{"like", err.Error()}
	}
	return p, nil
}

func normsOf(n *reading.Norms, profile string) normsAnswer {
	return normsAnswer{Figures: slice.Map(n.Figures, func(f reading.Norm) normFigure {
		return normFigure{f.Figure.String(), f.N, report.Six(f.P10), report.Six(f.Median), report.Six(f.P90),
			[2]json.Number{report.Six(f.Range.Lo), report.Six(f.Range.Hi)}, f.Figure.Info().Unit}
	}), Base: n.Base.Name, LeftOut: append([]leftOut{}, slice.Map(n.LeftOut, func(l reading.LeftOut) leftOut {
		return leftOut{l.Name, l.Figure.String(), report.Six(l.PM), report.Six(l.Most)}
	})...), Outliers: append([]outlier{}, slice.Map(n.Outliers, func(o reading.Outlier) outlier {
		return outlier{o.Name, o.Figure.String(), report.Six(o.Value), report.Six(o.By)}
	})...), Messages: append([]string{}, n.Messages...), Profile: profile}
}
