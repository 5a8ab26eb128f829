package desk

import (
	"context"
	"encoding/json"

	"hubrule/internal/report"
	"hubrule/internal/slice"
	"hubrule/render/photo"
	"hubrule/render/screen"
	"hubrule/segments/reading"
)

type readAnswer struct {
	Reading     json.RawMessage     `json:"reading"`
	Head        string              `json:"head"`
	Skew        string              `json:"skew-words"`
	Ranking     string              `json:"ranking"`
	Differences []differenceWords   `json:"differences,omitempty"`
	Moves       *[]string           `json:"moves,omitempty"`
	Unsure      *[]string           `json:"unsure,omitempty"`
	Narrows     *[]report.Narrowing `json:"narrows,omitempty"`
	Sheet       *photoAnswer        `json:"sheet,omitempty"`
}

type differenceWords struct {
	Figure  string `json:"figure"`
	Words   string `json:"words"`
	Follows bool   `json:"follows,omitempty"`
}

// photoFrame is where a picture stands on a screen, in CSS pixels.
type photoFrame struct {
	Width  json.Number   `json:"width"`
	Height json.Number   `json:"height"`
	Box    []json.Number `json:"box"`
}

type photoAnswer struct {
	photoFrame
	SVG   string `json:"svg"`
	Words []word `json:"words"`
}

// photoScreen is a screen with part of a picture.
type photoScreen struct {
	Width     float64      `json:"width"`
	Height    float64      `json:"height"`
	Lettering float64      `json:"lettering-px"`
	Dark      bool         `json:"dark"`
	Shown     screen.Shown `json:"shown"`
}

func (p photoScreen) screen() screen.Screen {
	return screen.Screen{Width: p.Width, Height: p.Height, Lettering: p.Lettering, Dark: p.Dark}
}

func frameOf(p screen.Photo) photoFrame {
	return photoFrame{n(p.Width), n(p.Height), slice.Map(p.Box[:], n[float64])}
}

// frame places the picture.
func (p photoScreen) frame() (any, error) {
	placed, err := screen.FramePhoto(p.screen(), p.Shown)
	if err != nil {
		return nil, misplaced{"screen", err.Error()}
	}
	return frameOf(placed), nil
}

// draw draws a sheet over the picture.
func (p photoScreen) draw(s photo.Sheet) (*photoAnswer, error) {
	if _, err := p.frame(); err != nil {
		return nil, err
	}
	drawn, err := screen.ComposePhoto(s, p.screen(), p.Shown)
	if err != nil {
		return nil, err
	}
	return &photoAnswer{frameOf(drawn), string(drawn.SVG), wordsOf(drawn.Words)}, nil
}

// readMarks answers with the figures of marks.
func (d *Desk) readMarks(_ context.Context, body []byte) (any, error) {
	var in struct {
		marked
		Against json.RawMessage `json:"against"`
		Narrows bool            `json:"narrows"`
		Screen  *photoScreen    `json:"screen"`
	}
	if err := decode(body, &in); err != nil {
		return nil, err
	}
	file, err := d.marks(in.marked)
	if err != nil {
		return nil, err
	}
	held, err := d.against(in.Against)
	if err != nil {
		return nil, err
	}
	r, err := file.Reading()
	if err != nil {
		return nil, err
	}
	s := photo.Sheet{Reading: r, Against: held.plan, Name: held.name, Differences: held.differences(r)}
	out := readAnswer{Head: report.ReadingHead(r)}
	whole := report.ReadingOf(r, s.Differences)
	out.Ranking = whole.ReadsAs
	if out.Reading, err = json.Marshal(whole); err != nil {
		return nil, err
	}
	if r.Camera != nil {
		out.Skew = report.CameraWords(r)
	}
	if held.plan != nil {
		out.Differences = slice.Map(s.Differences, func(x reading.Difference) differenceWords {
			return differenceWords{x.Figure.String(), report.DifferenceWords(r, x), photo.Follows(x.Figure)}
		})
		sure, unsure := s.Moves()
		sure, unsure = append([]string{}, sure...), append([]string{}, unsure...)
		out.Moves, out.Unsure = &sure, &unsure
	}
	if in.Narrows {
		all := append([]report.Narrowing{}, slice.Map(r.Narrowings(), report.NarrowingOf)...)
		out.Narrows = &all
	}
	if in.Screen != nil {
		out.Sheet, err = in.Screen.draw(s)
	}
	return out, err
}
