package draft

import (
	"strings"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/render"
)

// Lettering heights on A3, capital height, from the series of ISO 3098.
const (
	Small  geom.MM = 2.5 // names, values, notes
	Medium geom.MM = 3.5 // counts
	Large  geom.MM = 5   // the sheet's name
)

// A line of words reaches this far above and below its baseline, in capital heights; lines stand
// 1.65 heights apart (ISO 3098: 1.4 to 1.9).
const (
	ascent  = 1.13
	descent = .33
	leading = 1.65
)

// Word is a run of text in one height, weight and role.
type Word struct {
	Text   string
	Height geom.MM
	Weight render.Weight
	Role   Role
	whole  string // what text was before it was cut, or empty
}

// Heading is a word of a heading, of a height in mm on A3.
func Heading(s string, height geom.MM) Word {
	return Word{Text: s, Height: height, Weight: render.SemiBold, Role: Words}
}

// Name, Value, Count and Note are the words of labels: what is measured, how much it is, a count of wheels, a remark.
func Name(s string) Word  { return Word{Text: s, Height: Small, Weight: render.Regular, Role: Words} }
func Value(s string) Word { return Word{Text: s, Height: Small, Weight: render.Medium, Role: Words} }
func Count(s string) Word { return Word{Text: s, Height: Medium, Weight: render.Medium, Role: Words} }
func Note(s string) Word  { return Word{Text: s, Height: Small, Weight: render.Regular, Role: notes} }

// Label is a block of lines that knows its own box.
type Label struct {
	Lines         [][]Word
	widths        []geom.MM
	Baselines     []geom.MM // below the top
	Caps          []geom.MM // tallest capital of each line
	Width, Height geom.MM
}

// NewLabel measures lines from the face's own widths; empty lines are left out.
func NewLabel(lines ...[]Word) Label {
	var l Label
	for _, ws := range lines {
		if len(ws) == 0 {
			continue
		}
		var width, tallest geom.MM
		for _, w := range ws {
			width += fonts.Width(w.Text, w.Height, w.Weight)
			tallest = max(tallest, w.Height)
		}
		base := tallest * ascent
		if n := len(l.Baselines); n > 0 {
			base = l.Baselines[n-1] + max(leading*tallest, geom.MM(tallest*ascent)+geom.MM(l.Caps[n-1]*descent)+.3)
		}
		l.Lines, l.widths = append(l.Lines, ws), append(l.widths, width)
		l.Baselines, l.Caps = append(l.Baselines, base), append(l.Caps, tallest)
		l.Width = max(l.Width, width)
	}
	if n := len(l.Baselines); n > 0 {
		l.Height = l.Baselines[n-1] + geom.MM(l.Caps[n-1]*descent)
	}
	return l
}

// OneLine returns a label of one line of words.
func OneLine(words ...Word) Label { return NewLabel(words) }

// CapMiddle is how far above a level the label's top must stand so that the level runs through the middle of
// its first line's capitals.
func (l Label) CapMiddle() geom.MM { return l.Baselines[0] - l.Caps[0]/2 }

// PlacedLabel is a label at a place on the page: its top, and the x of the end that the anchor names.
type PlacedLabel struct {
	Label
	X, Top geom.MM
	Anchor render.Anchor
}

// TopAt, BaselineAt and MiddleAt place l so that its top, the baseline of its first line, or the middle of that line's capitals is at y.
func (l Label) TopAt(x, y geom.MM, anchor render.Anchor) PlacedLabel {
	return PlacedLabel{l, x, y, anchor}
}
func (l Label) BaselineAt(x, y geom.MM, anchor render.Anchor) PlacedLabel {
	return l.TopAt(x, y-l.Baselines[0], anchor)
}
func (l Label) MiddleAt(x, y geom.MM, anchor render.Anchor) PlacedLabel {
	return l.TopAt(x, y-l.CapMiddle(), anchor)
}

// Box returns the box that l takes.
func (l PlacedLabel) Box() Box {
	left := l.X - l.Width*geom.MM(l.Anchor)/2
	return Box{Min: Pt(left, l.Top), Max: Pt(left+l.Width, l.Top+l.Height)}
}

// Wrapped breaks a sentence into lines no wider than room.
func Wrapped(sentence string, room geom.MM) [][]Word {
	var out [][]Word
	line := ""
	for _, w := range strings.Fields(sentence) {
		longer := strings.TrimSpace(line + " " + w)
		if line != "" && fonts.Width(longer, Small, render.Regular) > room {
			out = append(out, []Word{Name(line)})
			longer = w
		}
		line = longer
	}
	return append(out, []Word{Name(line)})
}
