package draft

import (
	"cmp"
	"slices"
	"sort"
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
	Key    string // names the quantity whose value Text is, or empty
	IsName bool   // Text is the quantity's name
	whole  string // what text was before it was cut, or empty
}

// For returns w as the value of the quantity that key names.
func (w Word) For(key string) Word { w.Key = key; return w }

// Naming returns w as a name of the quantity of a key.
func (w Word) Naming(key string) Word { w.Key, w.IsName = key, true; return w }

// Width returns the width of w in mm.
func (w Word) Width() geom.MM { return fonts.Width(w.Text, w.Height, w.Weight) }

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
			width += w.Width()
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

// Values returns l with nothing but the values of named quantities; l itself where it has none.
func (l Label) Values() Label {
	var lines [][]Word
	for _, line := range l.Lines {
		var kept []Word
		for _, w := range line {
			if w.Key != "" && !w.IsName {
				kept = append(kept, w)
			}
		}
		lines = append(lines, kept)
	}
	if only := NewLabel(lines...); len(only.Lines) > 0 {
		return only
	}
	return l
}

// Short returns l without its notes, unless they give a value.
func (l Label) Short() Label {
	var lines [][]Word
	for _, line := range l.Lines {
		lines = append(lines, slices.DeleteFunc(slices.Clone(line), func(w Word) bool { return w.Role == notes && w.Key == "" }))
	}
	return NewLabel(lines...)
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
func Wrapped(sentence Word, room geom.MM) [][]Word {
	var out [][]Word
	line := sentence
	line.Text = ""
	for _, w := range strings.Fields(sentence.Text) {
		longer := line
		longer.Text = strings.TrimSpace(line.Text + " " + w)
		if line.Text != "" && longer.Width() > room {
			out = append(out, []Word{line})
			longer.Text = w
		}
		line = longer
	}
	return append(out, []Word{line})
}

// Lane is a row or column of labels: where it starts and ends on the page, and the least gap between neighbours, all in mm, and the strips
// that labels keep off where there is room beside them.
type Lane struct {
	Lo, Hi, Gap geom.MM
	off         []Zone
}

// Distribute sorts items by anchor and places them on a lane. measure returns an item's anchor and its size along the lane in mm.
// Distribute returns the anchors and the centres of the sorted items; the centres are nil when the lane is too short.
func Distribute[T any](items []T, lane Lane, measure func(T) (anchor, size geom.MM)) (anchors, centres []geom.MM) {
	slices.SortStableFunc(items, func(a, b T) int {
		p, _ := measure(a)
		q, _ := measure(b)
		return cmp.Compare(p, q)
	})
	var sizes []geom.MM
	for _, item := range items {
		anchor, size := measure(item)
		anchors, sizes = append(anchors, anchor), append(sizes, size)
	}
	return anchors, lane.Centres(anchors, sizes)
}

// Centres places items on the lane: in the order given (ascending anchors), nearest to their anchors in the least-squares sense,
// neighbours at least the gap apart. It returns nil when the lane is too short. The order is kept, so leaders cannot cross.
//
// Subtracting the sizes that stand before each item turns the distances into a rising order, which is
// isotonic regression: pool adjacent violators (Ayer et al. 1955), then clamp.
func (l Lane) Centres(anchors, sizes []geom.MM) []geom.MM {
	n := len(anchors)
	if n == 0 {
		return []geom.MM{}
	}
	if len(l.off) > 0 {
		if out := l.split(anchors, sizes); out != nil {
			return out
		}
	}
	before := make([]geom.MM, n)
	before[0] = sizes[0] / 2
	for i := 1; i < n; i++ {
		before[i] = before[i-1] + sizes[i-1]/2 + l.Gap + sizes[i]/2
	}
	long := before[n-1] + sizes[n-1]/2
	if long > l.Hi-l.Lo+1e-9 {
		return nil
	}
	type pool struct{ mean, n geom.MM }
	var pools []pool
	for i, a := range anchors {
		pools = append(pools, pool{a - before[i], 1})
		for len(pools) > 1 && pools[len(pools)-2].mean > pools[len(pools)-1].mean {
			a, b := pools[len(pools)-2], pools[len(pools)-1]
			pools = append(pools[:len(pools)-2], pool{(geom.MM(a.mean*a.n) + geom.MM(b.mean*b.n)) / (a.n + b.n), a.n + b.n})
		}
	}
	out := make([]geom.MM, 0, n)
	for _, p := range pools {
		for range int(p.n) {
			z := min(max(p.mean, l.Lo), l.Hi-long)
			out = append(out, z+before[len(out)])
		}
	}
	return out
}

// split places labels before and behind the first strip that they keep off, each where its anchor is nearer; nil where one side is too
// short.
func (l Lane) split(anchors, sizes []geom.MM) []geom.MM {
	z := l.off[0]
	n := sort.Search(len(anchors), func(i int) bool { return anchors[i] > (z.Lo+z.Hi)/2 })
	before := Lane{l.Lo, min(l.Hi, z.Lo), l.Gap, nil}.Centres(anchors[:n], sizes[:n])
	behind := Lane{max(l.Lo, z.Hi), l.Hi, l.Gap, l.off[1:]}.Centres(anchors[n:], sizes[n:])
	if before == nil || behind == nil {
		return nil
	}
	return append(before, behind...)
}
