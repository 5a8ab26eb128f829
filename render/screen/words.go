package screen

import (
	"math"

	"hubrule/fonts"
	"hubrule/render"
)

// Word is a line of words. One with a Figure gives its value, which a page may let people edit, or its name.
type Word struct {
	Figure string // or another quantity's name; empty for words that say something else
	At     render.Point
	Anchor render.Anchor
	Size   float64 // of the font
	Angle  float64 // counter-clockwise, in degrees
	Spans  []Span
}

// Span is a run of a word's letters.
type Span struct {
	Text    string
	Weight  render.Weight
	IsValue bool
}

// split separates lines from words.
func split(marks []render.Mark) (lines []render.Mark, words []Word) {
	for _, m := range marks {
		t, ok := m.(*render.Text)
		if !ok {
			lines = append(lines, m)
			continue
		}
		if len(t.Spans) == 1 && t.Spans[0].Text == " " {
			continue
		}
		w := Word{At: t.At, Anchor: t.Anchor, Angle: float64(t.Angle)}
		for _, s := range t.Spans {
			w.Size = max(w.Size, float64(fonts.Size(s.Height)))
			if s.Key != "" {
				w.Figure = s.Key
			}
			w.Spans = append(w.Spans, Span{s.FullText(), s.Weight, s.Key != "" && !s.IsName})
		}
		words = append(words, w)
	}
	return lines, words
}

// darkened returns m in the ink of a dark board: as light as it was dark, in the same hue.
func darkened(m render.Mark) render.Mark {
	switch m := m.(type) {
	case *render.Stroke:
		n := *m
		n.Pen.Ink = chalk(m.Pen.Ink)
		return &n
	case *render.Fill:
		n := *m
		n.Ink = chalk(m.Ink)
		return &n
	case *render.Circle:
		n := *m
		if n.Pen.Ink = chalk(m.Pen.Ink); m.Fill != nil {
			fill := chalk(*m.Fill)
			n.Fill = &fill
		}
		return &n
	case *render.Ellipse:
		n := *m
		n.Pen.Ink = chalk(m.Pen.Ink)
		return &n
	}
	return m
}

// A dark board keeps this much of the light: white paper becomes board, black ink chalk (judged by eye).
const board, white = 27, 236

// chalk turns a colour's lightness round and keeps its hue: the mean of its largest and smallest part is mirrored.
func chalk(c render.Colour) render.Colour {
	lo, hi := min(c.R, c.G, c.B), max(c.R, c.G, c.B)
	light := (float64(lo) + float64(hi)) / 2
	turned := board + (255-light)/255*(white-board)
	part := func(v uint8) uint8 { return uint8(math.Round(min(255, max(0, turned+float64(v)-light)))) }
	return render.Colour{R: part(c.R), G: part(c.G), B: part(c.B)}
}
