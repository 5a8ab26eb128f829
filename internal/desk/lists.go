package desk

import (
	"bytes"
	"strconv"
	"strings"

	"hubrule/internal/job"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/render/compare"
	"hubrule/render/request"
	"hubrule/render/svg"
	"hubrule/segments"
)

type segmentItem struct {
	Name  string        `json:"name"`
	Title string        `json:"title"`
	Line  string        `json:"line"`
	Form  segments.Form `json:"form"`
	SVG   string        `json:"svg"`
}

// miniatureWheel is the wheel of a segment's picture, in mm.
const miniatureWheel = 12

func listSegments() any {
	items := slice.Map(segments.All(), func(p *segments.Profile) segmentItem {
		plan, err := layout.Solve(segments.Brief{Profile: p})
		var picture bytes.Buffer
		if err == nil {
			err = svg.Write(&picture, compare.Miniature(plan, miniatureWheel))
		}
		if err != nil {
			panic("desk: " + err.Error()) // every segment is drawn in tests
		}
		return segmentItem{p.Name, p.Title, p.Summary, p.Form, picture.String()}
	})
	return map[string]any{"segments": items}
}

type tweakItem struct {
	Name    string            `json:"name"`
	Title   string            `json:"title"`
	Line    string            `json:"line"`
	Refused map[string]string `json:"refused"`
}

func listTweaks() any {
	items := slice.Map(segments.Tweaks(), func(t *segments.Tweak) tweakItem {
		out := tweakItem{t.Name, t.Title, t.Summary, map[string]string{}}
		for _, p := range segments.All() {
			if why := t.Refusal(p); why != "" {
				out.Refused[p.Name] = why
			}
		}
		return out
	})
	return map[string]any{"tweaks": items}
}

type settingItem struct {
	Key     string      `json:"key"`
	Flag    string      `json:"flag"`
	Group   job.Group   `json:"group"`
	Help    string      `json:"help"`
	Default string      `json:"default"`
	Choices []string    `json:"choices"`
	List    bool        `json:"list"`
	Bool    bool        `json:"bool"`
	Bounds  []bounds    `json:"bounds"`
	Goes    [][2]string `json:"goes"`

	ByKind  map[request.Kind]string `json:"by-kind,omitempty"`
	Options []optionItem            `json:"options,omitempty"`
}

// optionItem is a guide: where it can be drawn, and where it is drawn by itself.
type optionItem struct {
	Name  request.Guide `json:"name"`
	Title string        `json:"title"`
	Goes  [][2]string   `json:"goes"`
	Usual [][2]string   `json:"usual"`
}

type bounds struct {
	Lo   float64 `json:"lo"`
	Hi   float64 `json:"hi"`
	Unit string  `json:"unit"`
}

func listSettings() any {
	items := slice.Map(job.Settings(), func(s job.Setting) settingItem {
		out := settingItem{Key: s.Key, Flag: s.Name, Group: s.Group, Help: strings.ReplaceAll(s.Help, "`", ""), Default: s.Default,
			Choices: append([]string{}, s.Words...), List: s.List, Bool: s.Bool, Bounds: []bounds{}}
		for _, b := range s.Bounds {
			out.Bounds = append(out.Bounds, bounds{b.Lo, b.Hi, b.Unit})
		}
		out.Goes = pairs(func(k request.Kind, v request.View) bool {
			return s.UsedBy(request.Request{Kinds: []request.Kind{k}, Setting: request.Setting{Views: []request.View{v}}})
		})
		switch s.Key {
		case "guides":
			out.Options = slice.Map(request.Guides(), func(g request.Guide) optionItem {
				return optionItem{g, g.Title(), pairs(g.On), pairs(g.UsuallyOn)}
			})
		case "ink":
			out.ByKind = map[request.Kind]string{}
			for _, k := range request.AllKinds() {
				out.ByKind[k] = string(k.Ink())
			}
		case "count": // a desk has one vehicle
			one := request.Request{Plans: make([]layout.Plan, 1)}
			out.ByKind = map[request.Kind]string{request.Thumbnails: strconv.Itoa(one.Thumbnails())}
		}
		return out
	})
	return map[string]any{"settings": items}
}

// pairs lists the kinds and views for which a report is true.
func pairs(is func(request.Kind, request.View) bool) [][2]string {
	out := [][2]string{}
	for _, k := range request.AllKinds() {
		for _, v := range request.Views() {
			if is(k, v) {
				out = append(out, [2]string{string(k), string(v)})
			}
		}
	}
	return out
}

type figureItem struct {
	Name    string        `json:"name"`
	Role    string        `json:"role"`
	Unit    segments.Unit `json:"unit"`
	Lo      float64       `json:"lo"`
	Hi      float64       `json:"hi"`
	Meaning string        `json:"meaning"`
}

var roles = map[segments.Role]string{segments.Given: "given", segments.Declared: "declared", segments.Derived: "derived"}

func listFigures() any {
	var items []figureItem
	for f := range segments.FigureCount {
		i := f.Info()
		items = append(items, figureItem{i.Name, roles[i.Role], i.Unit, i.Lo, i.Hi, i.Meaning})
	}
	return map[string]any{"figures": items}
}
