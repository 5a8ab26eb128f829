// Package draft is the drafting kit of all sheets: surfaces that remember what is drawn, labels measured in the typeface and distributed
// over lanes, inks, line styles, papers with their margins, title block, frame and tables. It knows no vehicle.
package draft

import (
	"slices"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/request"
)

// Point and Box are places and boxes on a page in mm; y points down.
type (
	Point = render.Point
	Box   = geom.Box[geom.MM]
)

// Pt returns the point (x, y), in millimetres of the page.
func Pt(x, y geom.MM) Point { return Point{X: x, Y: y} }

// Segment is a straight piece of something drawn, from a to b.
type Segment struct{ A, B Point }

// Circle is a drawn circle.
type Circle struct {
	Centre Point
	R      geom.MM
}

// Surface collects the marks of a page and remembers where they lie, so that words can look for a free
// place among them. The vehicle on a surface always faces left.
type Surface struct {
	Space   Box // nothing leaves it
	Inks    Inks
	Marks   []render.Mark
	strokes []Segment
	rings   []Circle
	labels  []Box
	Seams   Seams                     // of a sheet that will be cut into tiles
	Prefix  string                    // of every id, where a page draws a plan more than once
	Restyle func(LineStyle) LineStyle // changes the style of every line; nil: no change
}

// tag names a mark.
func (b *Surface) tag(guide request.Guide, id string) render.Tagged {
	if id != "" {
		id = b.Prefix + id
	}
	return render.Tagged{Guide: string(guide), ID: id}
}

// Pen returns the pen for a style of line: its width in mm, its dashes and the colour of its role.
func (b *Surface) Pen(k LineStyle) render.Pen {
	if b.Restyle != nil {
		k = b.Restyle(k)
	}
	return render.Pen{Width: k.Width, Dash: k.Dash, Ink: b.Inks.Colours[k.Role]}
}

// Line draws a line that words keep clear of.
func (b *Surface) Line(l Line, from, to Point) {
	b.Stroke(l, from, to)
	b.strokes = append(b.strokes, Segment{from, to})
}

// Stroke draws a line that words need not keep clear of.
func (b *Surface) Stroke(l Line, from, to Point) {
	path := render.Path{}.Move(from).Line(to)
	b.Marks = append(b.Marks, &render.Stroke{Tagged: b.tag(l.Guide, l.ID), Path: path, Pen: b.Pen(l.LineStyle)})
}

// Tick draws a line about a point, from half before it to half behind.
func (b *Surface) Tick(l Line, middle, half Point) { b.Line(l, middle.Sub(half), middle.Add(half)) }

// Leader draws the line that joins a label to what it names.
func (b *Surface) Leader(pts ...Point) {
	for i := 1; i < len(pts); i++ {
		b.Line(LeaderLine().For("labels", ""), pts[i-1], pts[i])
	}
}

// Circle draws a circle that words keep clear of.
func (b *Surface) Circle(l Line, c Circle) {
	b.Marks = append(b.Marks, &render.Circle{Tagged: b.tag(l.Guide, l.ID), Centre: c.Centre, R: c.R, Pen: b.Pen(l.LineStyle)})
	b.rings = append(b.rings, c)
}

// Ellipse draws an ellipse, or the part of it between two parameters, that words keep clear of; both 0 is the whole.
func (b *Surface) Ellipse(l Line, e geom.Ellipse[geom.MM], from, to float64) {
	m := &render.Ellipse{Tagged: b.tag(l.Guide, l.ID), Shape: e, From: from, To: to, Pen: b.Pen(l.LineStyle)}
	b.Marks, b.strokes = append(b.Marks, m), appendChords(b.strokes, m.Path(), 6)
}

// NewSurface returns an empty surface with room for an ordinary sheet.
func NewSurface(space Box, inks Inks) *Surface {
	return &Surface{Space: space, Inks: inks, Marks: make([]render.Mark, 0, 256), strokes: make([]Segment, 0, 1024)}
}

// Curve draws a path; its cubics are flattened to that many chords when words look for room.
func (b *Surface) Curve(l Line, p render.Path, chords int) {
	b.Marks = append(b.Marks, &render.Stroke{Tagged: b.tag(l.Guide, l.ID), Path: p, Pen: b.Pen(l.LineStyle)})
	b.strokes = appendChords(b.strokes, p, chords)
}

// Chords returns a path as straight segments, n for each cubic.
func Chords(p render.Path, n int) []Segment { return appendChords(nil, p, n) }

func appendChords(out []Segment, p render.Path, n int) []Segment {
	out = slices.Grow(out, n*len(p))
	for _, run := range p.Flatten(n) {
		for i := 1; i < len(run); i++ {
			out = append(out, Segment{run[i-1], run[i]})
		}
	}
	return out
}

// Fill paints an area, unless the ink set has no colour for it.
func (b *Surface) Fill(guide request.Guide, id string, c *render.Colour, p render.Path) {
	if c != nil {
		b.Marks = append(b.Marks, &render.Fill{Tagged: b.tag(guide, id), Path: p, Ink: *c})
	}
}

// Write writes a label.
func (b *Surface) Write(guide request.Guide, l PlacedLabel) {
	for i, ws := range l.Lines {
		t := &render.Text{Tagged: render.Tagged{Guide: string(guide)}, At: Pt(l.X, l.Top+l.Baselines[i]), Anchor: l.Anchor}
		for _, w := range ws {
			t.Spans = append(t.Spans, render.Span{Text: w.Text, ActualText: w.whole, Key: w.Key, IsName: w.IsName,
				Height: w.Height, Weight: w.Weight, Ink: b.Inks.Colours[w.Role]})
		}
		b.Marks = append(b.Marks, t)
	}
	b.labels = append(b.labels, l.Box())
}

// PlaceLabel writes l with a leader to its end, and reports whether there was room: gap round l, and no words under the leader's last line.
func (b *Surface) PlaceLabel(l PlacedLabel, gap geom.MM, leader ...Point) bool {
	box, n := l.Box(), len(leader)
	if !b.Space.Contains(box) || !b.Free(box, gap) || n > 1 && !b.ClearsLabels(Segment{leader[n-2], leader[n-1]}) {
		return false
	}
	b.Leader(leader...)
	b.Write("labels", l)
	return true
}

// Free reports whether nothing drawn comes nearer to r than gap.
func (b *Surface) Free(r Box, gap geom.MM) bool {
	if !b.Seams.Clear(r) {
		return false
	}
	r = r.Grow(gap)
	return !slices.ContainsFunc(b.labels, r.Overlaps) && !anyIntersects(b.strokes, r) && !anyIntersects(b.rings, r)
}

// Within returns a surface with only those obstacles of b that touch r, for searches that stay within it.
func (b *Surface) Within(r Box) *Surface {
	return &Surface{Space: b.Space, Seams: b.Seams, strokes: filter(b.strokes, func(s Segment) bool { return s.Intersects(r) }),
		rings: filter(b.rings, func(c Circle) bool { return c.Intersects(r) }), labels: filter(b.labels, r.Overlaps)}
}

// Mirrored returns a surface with the obstacles of b mirrored about the upright x = axis, for searches.
func (b *Surface) Mirrored(axis geom.MM) Surface {
	at := func(p Point) Point { return Pt(2*axis-p.X, p.Y) }
	out := Surface{Space: b.Space, Seams: b.Seams.mirrored(axis)}
	for _, s := range b.strokes {
		out.strokes = append(out.strokes, Segment{at(s.A), at(s.B)})
	}
	for _, c := range b.rings {
		out.rings = append(out.rings, Circle{at(c.Centre), c.R})
	}
	for _, l := range b.labels {
		out.labels = append(out.labels, geom.BoxOf(at(l.Min), at(l.Max)))
	}
	return out
}

// filter returns the things for which touches holds.
func filter[T any](things []T, touches func(T) bool) []T {
	var out []T
	for _, t := range things {
		if touches(t) {
			out = append(out, t)
		}
	}
	return out
}

// anyIntersects reports whether one of the drawn things touches r.
func anyIntersects[T interface{ Intersects(Box) bool }](things []T, r Box) bool {
	for _, t := range things {
		if t.Intersects(r) {
			return true
		}
	}
	return false
}

// ClearsLabels reports whether the leader s keeps off all words.
func (b *Surface) ClearsLabels(s Segment) bool {
	return !slices.ContainsFunc(b.labels, func(o Box) bool { return s.Intersects(o.Grow(.7)) })
}

// Intersects reports whether s touches r. Searches call it a thousand times a page; nearly always s lies wholly on one side.
func (s Segment) Intersects(r Box) bool {
	if s.A.X < r.Min.X && s.B.X < r.Min.X || s.A.X > r.Max.X && s.B.X > r.Max.X ||
		s.A.Y < r.Min.Y && s.B.Y < r.Min.Y || s.A.Y > r.Max.Y && s.B.Y > r.Max.Y {
		return false
	}
	_, _, inside := s.Clip(r)
	return inside
}

// Clip returns the part of s that lies in r, as shares of its length, and whether there is any: Liang and Barsky (1984).
func (s Segment) Clip(r Box) (from, to float64, inside bool) {
	d, part := s.B.Sub(s.A), interval{0, 1}
	inside = part.cut(-d.X, s.A.X-r.Min.X) && part.cut(d.X, r.Max.X-s.A.X) && part.cut(-d.Y, s.A.Y-r.Min.Y) && part.cut(d.Y, r.Max.Y-s.A.Y)
	return part.from, part.to, inside
}

// interval is the part of a segment, as shares of its length, that lies inside the edges tried so far.
type interval struct{ from, to float64 }

// cut takes off what lies outside of one edge, from which the segment's start is q away on the inside, coming nearer by p; it reports
// whether anything is left.
func (s *interval) cut(p, q geom.MM) bool {
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

// Intersects reports whether the circle's line touches r.
func (c Circle) Intersects(r Box) bool {
	far := Pt(max(r.Max.X-c.Centre.X, c.Centre.X-r.Min.X), max(r.Max.Y-c.Centre.Y, c.Centre.Y-r.Min.Y))
	return c.covers(r) && far.Len() >= c.R
}

// covers reports whether some of r lies inside the circle.
func (c Circle) covers(r Box) bool {
	near := Pt(min(max(c.Centre.X, r.Min.X), r.Max.X), min(max(c.Centre.Y, r.Min.Y), r.Max.Y))
	return near.Sub(c.Centre).Len() <= c.R
}

// Outline returns the edge of a box, clockwise from the upper left.
func Outline(r Box) render.Path {
	return render.Path{}.Lines(r.Min, Pt(r.Max.X, r.Min.Y), r.Max, Pt(r.Min.X, r.Max.Y)).Close()
}
