package sheet

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/request"
)

type (
	point = render.Point
	box   = geom.Box[geom.MM]
)

// segment is a straight piece of something drawn, from a to b.
type segment struct{ a, b point }

// ring is a drawn circle.
type ring struct {
	centre point
	r      geom.MM
}

// board collects the marks of a page and remembers where they lie, so that words can look for a free
// place among them. The vehicle on a board always faces left.
type board struct {
	space   box // nothing leaves it
	inks    inkSet
	marks   []render.Mark
	strokes []segment
	rings   []ring
	labels  []box
	leaders []segment
	prefix  string                  // of every id, where a page draws a plan more than once
	weigh   func(lineKind) lineKind // how heavy lines are drawn; nil: as their kind says
}

// tag names a mark.
func (b *board) tag(guide request.Guide, id string) render.Tagged {
	if id != "" {
		id = b.prefix + id
	}
	return render.Tagged{Guide: string(guide), ID: id}
}

func (b *board) pen(k lineKind) render.Pen {
	if b.weigh != nil {
		k = b.weigh(k)
	}
	return render.Pen{Width: k.width, Dash: k.dash, Ink: b.inks.colours[k.role]}
}

// line draws a line that words keep clear of.
func (b *board) line(guide request.Guide, id string, k lineKind, from, to point) {
	b.hairline(guide, id, k, from, to)
	b.strokes = append(b.strokes, segment{from, to})
}

// hairline draws a line that words need not keep clear of.
func (b *board) hairline(guide request.Guide, id string, k lineKind, from, to point) {
	b.marks = append(b.marks, &render.Stroke{
		Tagged: b.tag(guide, id), Path: render.Path{}.Move(from).Line(to), Pen: b.pen(k)})
}

// leader draws the line that joins a label to what it names.
func (b *board) leader(pts ...point) {
	for i := 1; i < len(pts); i++ {
		b.hairline("labels", "", leaderLine(), pts[i-1], pts[i])
		b.leaders = append(b.leaders, segment{pts[i-1], pts[i]})
	}
}

func (b *board) circle(guide request.Guide, id string, k lineKind, c ring) {
	b.marks = append(b.marks, &render.Circle{Tagged: b.tag(guide, id), Centre: c.centre, R: c.r, Pen: b.pen(k)})
	b.rings = append(b.rings, c)
}

// ellipse draws an ellipse, or the part of it between two parameters, that words keep clear of; both 0 is the whole.
func (b *board) ellipse(guide request.Guide, id string, k lineKind, e geom.Ellipse[geom.MM], from, to float64) {
	m := &render.Ellipse{Tagged: b.tag(guide, id), Shape: e, From: from, To: to, Pen: b.pen(k)}
	b.marks = append(b.marks, m)
	for _, run := range m.Path().Flatten(6) {
		for i := 1; i < len(run); i++ {
			b.strokes = append(b.strokes, segment{run[i-1], run[i]})
		}
	}
}

// newBoard returns an empty board with room for an ordinary sheet.
func newBoard(space box, inks inkSet) *board {
	return &board{space: space, inks: inks, marks: make([]render.Mark, 0, 256), strokes: make([]segment, 0, 1024)}
}

// curve draws a path; chords is how many pieces a cubic of it is taken for when words look for room.
func (b *board) curve(guide request.Guide, id string, k lineKind, p render.Path, chords int) {
	b.marks = append(b.marks, &render.Stroke{Tagged: b.tag(guide, id), Path: p, Pen: b.pen(k)})
	for _, run := range p.Flatten(chords) {
		for i := 1; i < len(run); i++ {
			b.strokes = append(b.strokes, segment{run[i-1], run[i]})
		}
	}
}

// fill paints an area, unless the ink set has no colour for it.
func (b *board) fill(guide request.Guide, id string, c *render.Colour, p render.Path) {
	if c != nil {
		b.marks = append(b.marks, &render.Fill{Tagged: b.tag(guide, id), Path: p, Ink: *c})
	}
}

// write sets l with its top at y and the end that anchor names at x.
func (b *board) write(guide request.Guide, l label, x, y geom.MM, anchor render.Anchor) {
	for i, ws := range l.lines {
		t := &render.Text{Tagged: render.Tagged{Guide: string(guide)}, At: point{X: x, Y: y + l.baselines[i]}, Anchor: anchor}
		for _, w := range ws {
			t.Spans = append(t.Spans, render.Span{Text: w.text, ActualText: w.whole, Height: w.height, Weight: w.weight, Ink: b.inks.colours[w.role]})
		}
		b.marks = append(b.marks, t)
	}
	b.labels = append(b.labels, l.box(x, y, anchor))
}

// free reports whether nothing drawn comes nearer to r than gap.
func (b *board) free(r box, gap geom.MM) bool {
	r = r.Grow(gap)
	return !slices.ContainsFunc(b.labels, r.Overlaps) && !touched(b.leaders, r) && !touched(b.strokes, r) && !touched(b.rings, r)
}

// near returns a board with only those obstacles of b that touch r, for searches that stay within it.
func (b *board) near(r box) *board {
	out := &board{space: b.space, leaders: touching(b.leaders, r), strokes: touching(b.strokes, r), rings: touching(b.rings, r)}
	for _, o := range b.labels {
		if r.Overlaps(o) {
			out.labels = append(out.labels, o)
		}
	}
	return out
}

// touched reports whether one of the drawn things touches r.
func touched[T interface{ meets(box) bool }](things []T, r box) bool {
	for _, t := range things {
		if t.meets(r) {
			return true
		}
	}
	return false
}

// touching returns those of the drawn things that touch r.
func touching[T interface{ meets(box) bool }](things []T, r box) []T {
	var out []T
	for _, t := range things {
		if t.meets(r) {
			out = append(out, t)
		}
	}
	return out
}

// clears reports whether the leader s keeps off all words.
func (b *board) clears(s segment) bool {
	for _, o := range b.labels {
		if s.meets(o.Grow(.7)) {
			return false
		}
	}
	return true
}

// meets reports whether s touches r: Liang and Barsky's clipping (1984). A search asks it a thousand times a page, and nearly
// always s lies wholly on one side.
func (s segment) meets(r box) bool {
	if s.a.X < r.Min.X && s.b.X < r.Min.X || s.a.X > r.Max.X && s.b.X > r.Max.X ||
		s.a.Y < r.Min.Y && s.b.Y < r.Min.Y || s.a.Y > r.Max.Y && s.b.Y > r.Max.Y {
		return false
	}
	d := s.b.Sub(s.a)
	part := portion{0, 1}
	return part.cut(-d.X, s.a.X-r.Min.X) && part.cut(d.X, r.Max.X-s.a.X) && part.cut(-d.Y, s.a.Y-r.Min.Y) && part.cut(d.Y, r.Max.Y-s.a.Y)
}

// portion is the part of a segment, as shares of its length, that lies inside the edges tried so far.
type portion struct{ from, to float64 }

// cut takes off what lies outside of one edge, from which the segment's start is q away on the inside, coming nearer by p; it reports
// whether anything is left.
func (s *portion) cut(p, q geom.MM) bool {
	if p == 0 {
		return q >= 0
	}
	t := float64(q / p)
	if p < 0 && t > s.from {
		s.from = t
	}
	if p > 0 && t < s.to {
		s.to = t
	}
	return s.from <= s.to
}

// meets reports whether the circle's line touches r.
func (c ring) meets(r box) bool {
	near := point{X: min(max(c.centre.X, r.Min.X), r.Max.X), Y: min(max(c.centre.Y, r.Min.Y), r.Max.Y)}
	if near.Sub(c.centre).Len() > c.r {
		return false
	}
	far := point{X: max(r.Max.X-c.centre.X, c.centre.X-r.Min.X), Y: max(r.Max.Y-c.centre.Y, c.centre.Y-r.Min.Y)}
	return far.Len() >= c.r
}
