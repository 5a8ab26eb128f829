package sheet

import (
	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/render"
)

// Lettering heights on A3, capital height, from the series of ISO 3098.
const (
	small  geom.MM = 2.5 // names, values, notes
	medium geom.MM = 3.5 // counts
	large  geom.MM = 5   // the sheet's name
)

// A line of words reaches this far above and below its baseline, in capital heights; lines stand
// 1.65 heights apart (ISO 3098: 1.4 to 1.9).
const (
	ascent  = 1.13
	descent = .33
	leading = 1.65
)

// word is a run of text in one height, weight and role.
type word struct {
	text   string
	height geom.MM
	weight render.Weight
	role   role
	whole  string // what text was before it was cut, or empty
}

func name(s string) word  { return word{text: s, height: small, weight: render.Regular, role: words} }
func value(s string) word { return word{text: s, height: small, weight: render.Medium, role: words} }
func count(s string) word { return word{text: s, height: medium, weight: render.Medium, role: words} }
func note(s string) word  { return word{text: s, height: small, weight: render.Regular, role: notes} }

// label is a block of lines that knows its own box.
type label struct {
	lines         [][]word
	widths        []geom.MM
	baselines     []geom.MM // below the top
	caps          []geom.MM // tallest capital of each line
	width, height geom.MM
}

// newLabel measures lines from the face's own widths; empty lines are left out.
func newLabel(lines ...[]word) label {
	var l label
	for _, ws := range lines {
		if len(ws) == 0 {
			continue
		}
		var width, tallest geom.MM
		for _, w := range ws {
			width += fonts.Width(w.text, w.height, w.weight)
			tallest = max(tallest, w.height)
		}
		base := tallest * ascent
		if n := len(l.baselines); n > 0 {
			base = l.baselines[n-1] + max(leading*tallest, geom.MM(tallest*ascent)+geom.MM(l.caps[n-1]*descent)+.3)
		}
		l.lines, l.widths = append(l.lines, ws), append(l.widths, width)
		l.baselines, l.caps = append(l.baselines, base), append(l.caps, tallest)
		l.width = max(l.width, width)
	}
	if n := len(l.baselines); n > 0 {
		l.height = l.baselines[n-1] + geom.MM(l.caps[n-1]*descent)
	}
	return l
}

// lift is how far above a level the label's top must stand so that the level runs through the middle of
// its first line's capitals.
func (l label) lift() geom.MM { return l.baselines[0] - l.caps[0]/2 }

// box returns where l lies when its top is at y and the end that anchor names at x.
func (l label) box(x, y geom.MM, anchor render.Anchor) box {
	switch anchor {
	case render.Middle:
		x -= l.width / 2
	case render.End:
		x -= l.width
	}
	return box{Min: point{X: x, Y: y}, Max: point{X: x + l.width, Y: y + l.height}}
}
