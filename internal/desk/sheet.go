package desk

import (
	"context"
	"encoding/json"
	"errors"

	"hubrule/internal/geom"
	"hubrule/internal/report"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/screen"
)

// sheetAnswer is a page for a screen; places are in CSS pixels from its top left corner.
type sheetAnswer struct {
	report.Figures
	Notes  []string    `json:"notes"`
	Page   int         `json:"page"`
	Pages  int         `json:"pages"`
	Kind   string      `json:"kind"`
	View   string      `json:"view"`
	Width  json.Number `json:"width"`
	Height json.Number `json:"height"`
	SVG    string      `json:"svg"`
	Words  []word      `json:"words"`
	Grips  []grip      `json:"grips"`
	Map    *ground     `json:"map,omitempty"`
	Camera *camera     `json:"camera,omitempty"`
	*onPaper
}

// onPaper is what only the real page says. It is absent while a figure is moved.
type onPaper struct {
	Title   caption     `json:"title"`
	Facts   [][2]string `json:"facts"`
	Paper   paper       `json:"paper"`
	Problem string      `json:"problem,omitempty"`
}

type word struct {
	Figure string      `json:"figure,omitempty"`
	X      json.Number `json:"x"`
	Y      json.Number `json:"y"`
	Anchor string      `json:"anchor"`
	Size   json.Number `json:"size"`
	Angle  float64     `json:"angle,omitempty"`
	Spans  []span      `json:"spans"`
}

type span struct {
	Text   string        `json:"text"`
	Weight render.Weight `json:"weight"`
	Value  bool          `json:"value,omitempty"`
}

type grip struct {
	Figure string        `json:"figure"`
	X      json.Number   `json:"x"`
	Y      json.Number   `json:"y"`
	Way    screen.Way    `json:"way"`
	Per    json.Number   `json:"per"`
	About  []json.Number `json:"about,omitempty"`
	IDs    []string      `json:"ids"`
}

type ground struct {
	X        json.Number    `json:"x"`
	Y        json.Number    `json:"y"`
	PerWheel json.Number    `json:"px-per-w"`
	Facing   request.Facing `json:"facing"`
}

type camera struct {
	Turn    json.Number     `json:"turn"`
	Eye     json.Number     `json:"eye-mm"`
	Lens    json.Number     `json:"lens"`
	Horizon json.Number     `json:"horizon"`
	PerMM   json.Number     `json:"per-mm"`
	Turns   [2]geom.Degrees `json:"turns"`
	Eyes    [2]geom.MM      `json:"eyes"`
	Lenses  [2]geom.MM      `json:"lenses"`
}

type caption struct {
	Heading string `json:"heading"`
	Sub     string `json:"sub"`
	Remark  string `json:"remark,omitempty"`
}

type paper struct {
	Width  json.Number   `json:"width"`
	Height json.Number   `json:"height"`
	Wheel  json.Number   `json:"wheel-mm"`
	Box    []json.Number `json:"box,omitempty"`
}

// n writes a number with three decimals.
func n[T ~float64](x T) json.Number { return report.Three(float64(x)) }

// sheet answers with a page of the job, drawn for the screen.
func (d *Desk) sheet(ctx context.Context, body []byte) (any, error) {
	var in struct {
		Job    json.RawMessage `json:"job"`
		Page   *int            `json:"page"`
		Screen struct {
			Width     float64 `json:"width"`
			Height    float64 `json:"height"`
			Lettering float64 `json:"lettering-px"`
			Wheel     float64 `json:"wheel-px"`
			Dark      bool    `json:"dark"`
			Moving    bool    `json:"moving"`
		} `json:"screen"`
	}
	if err := decode(body, &in); err != nil {
		return nil, err
	}
	a, err := d.readSolved(in.Job)
	if err != nil {
		return nil, err
	}
	on := screen.Screen{Width: in.Screen.Width, Height: in.Screen.Height, Lettering: in.Screen.Lettering,
		Wheel: in.Screen.Wheel, Dark: in.Screen.Dark, Moving: in.Screen.Moving}
	if err := on.Check(); err != nil {
		return nil, misplaced{"screen", err.Error()}
	}
	page := 1
	if in.Page != nil {
		page = *in.Page
	}
	sheet, messages, err := screen.Compose(ctx, a.Request, on, page)
	if errors.As(err, new(screen.PageError)) {
		return nil, misplaced{"page", err.Error()}
	}
	if err != nil {
		return nil, err
	}
	out := sheetOf(sheet)
	out.Figures = report.FiguresOf(a.Plans[0])
	out.Notes = append(append(a.remarks(), messages.Warnings...), messages.Notes...)
	return out, nil
}

var anchors = map[render.Anchor]string{render.Start: "start", render.Middle: "middle", render.End: "end"}

// wordsOf writes the words of a page.
func wordsOf(words []screen.Word) []word {
	out := []word{}
	for _, w := range words {
		spans := slice.Map(w.Spans, func(s screen.Span) span { return span{s.Text, s.Weight, s.IsValue} })
		out = append(out, word{w.Figure, n(w.At.X), n(w.At.Y), anchors[w.Anchor], n(w.Size), w.Angle, spans})
	}
	return out
}

// sheetOf writes what was composed.
func sheetOf(s screen.Sheet) sheetAnswer {
	out := sheetAnswer{Page: s.Page, Pages: s.Pages, Kind: string(s.Kind), View: s.Views.String(), Width: n(s.Width), Height: n(s.Height),
		SVG: string(s.SVG), Words: wordsOf(s.Words), Grips: []grip{}}
	for _, g := range s.Grips {
		one := grip{g.Figure.String(), n(g.At.X), n(g.At.Y), g.Way, report.Six(g.Per), nil, append([]string{}, g.IDs...)}
		if g.Way == screen.Turn {
			one.About = []json.Number{n(g.About.X), n(g.About.Y)}
		}
		out.Grips = append(out.Grips, one)
	}
	if m := s.Plan; m != nil {
		facing := request.Right
		if m.Left {
			facing = request.Left
		}
		out.Map = &ground{n(m.Axle.X), n(m.Axle.Y), n(m.PerWheel), facing}
	}
	if c := s.Camera; c != nil {
		out.Camera = &camera{n(c.Turn), n(c.Eye), n(c.Lens), n(c.Horizon), report.Six(c.PerMM), c.Turns, c.Eyes, c.Lenses}
	}
	if p := s.Paper; p != nil {
		out.onPaper = &onPaper{caption{s.Title.Heading, s.Title.Sub, s.Title.Remark}, [][2]string{},
			paper{Width: n(p.Width), Height: n(p.Height), Wheel: n(p.Wheel)}, s.Problem}
		for _, f := range s.Facts {
			out.Facts = append(out.Facts, [2]string{f.Name, f.Value})
		}
		if b := p.Vehicle; b != (draft.Box{}) {
			out.Paper.Box = []json.Number{n(b.Min.X), n(b.Min.Y), n(b.Width()), n(b.Height())}
		}
	}
	return out
}
