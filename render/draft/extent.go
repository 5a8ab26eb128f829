package draft

import (
	"slices"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/render"
)

// Extent is where a mark lies: its line as straight pieces, its circle, or the area it covers.
type Extent struct {
	box       Box // all of it lies inside
	pieces    []Segment
	ring      *Circle
	solid     bool    // what the pieces go round is covered too
	halfWidth geom.MM // of the line's width
}

// ExtentOf measures m. A curve is taken for pieces that stray from it by less than slack.
func ExtentOf(m render.Mark) Extent {
	switch m := m.(type) {
	case *render.Stroke:
		return pathExtent(m.Path, Extent{halfWidth: m.Pen.Width / 2})
	case *render.Fill:
		return pathExtent(m.Path, Extent{solid: true})
	case *render.Circle:
		round := Box{Min: m.Centre, Max: m.Centre}.Grow(m.R)
		return Extent{box: round, ring: &Circle{m.Centre, m.R}, solid: m.Fill != nil, halfWidth: m.Pen.Width / 2}
	case *render.Ellipse:
		return pathExtent(m.Path(), Extent{halfWidth: m.Pen.Width / 2})
	case *render.Text:
		return textExtent(m)
	case *render.Picture:
		return Extent{box: m.Box}
	}
	panic("draft: cannot measure a mark of unknown kind")
}

// slack is more than a piece of a curve strays from it, on the largest sheets too.
const slack geom.MM = .2

func pathExtent(path render.Path, e Extent) Extent {
	chords := 64
	if !slices.ContainsFunc(path, func(s geom.Step[geom.MM]) bool { return s.Verb == geom.CurveTo || s.Verb == geom.ArcTo }) {
		chords = 1
	}
	e.pieces = Chords(path, chords)
	runs := path.Flatten(chords)
	if e.solid {
		for _, run := range runs {
			e.pieces = append(e.pieces, Segment{run[len(run)-1], run[0]})
		}
	}
	if len(runs) > 0 {
		e.box = geom.BoxOf(runs[0][0], slices.Concat(runs...)...)
	}
	return e
}

// textExtent returns the box of a line of words; of a turned one, the box of the circle it turns in.
func textExtent(t *render.Text) Extent {
	var l Label
	for _, s := range t.Spans {
		l.Width += fonts.Width(s.Text, s.Height, s.Weight)
		l.Height = max(l.Height, s.Height)
	}
	b := l.TopAt(t.At.X, t.At.Y-l.Height*ascent, t.Anchor).Box()
	b.Max.Y += l.Height * descent
	if t.Angle != 0 {
		b = Box{Min: t.At, Max: t.At}.Grow(l.Width + l.Height)
	}
	return Extent{box: b}
}

// Box returns a box that holds all of the mark but for the width of its line.
func (e Extent) Box() Box { return e.box }

// Intersects reports whether something of e lies in r.
func (e Extent) Intersects(r Box) bool {
	r = r.Grow(e.halfWidth + slack)
	switch {
	case !boxesMeet(e.box, r):
		return false
	case e.ring != nil && !e.solid:
		return e.ring.Intersects(r)
	case e.ring != nil:
		return e.ring.covers(r)
	case e.pieces == nil:
		return true
	}
	return anyIntersects(e.pieces, r) || e.solid && e.covers(r.Min)
}

// boxesMeet reports whether a and b have a point in common; a line's box has no area.
func boxesMeet(a, b Box) bool {
	return a.Min.X <= b.Max.X && b.Min.X <= a.Max.X && a.Min.Y <= b.Max.Y && b.Min.Y <= a.Max.Y
}

// covers reports whether p lies inside the pieces: a ray from it crosses an odd number of them.
func (e Extent) covers(p Point) bool {
	odd := false
	for _, s := range e.pieces {
		if (s.A.Y > p.Y) != (s.B.Y > p.Y) {
			x := s.A.Lerp(s.B, float64((p.Y-s.A.Y)/(s.B.Y-s.A.Y))).X
			odd = odd != (x > p.X)
		}
	}
	return odd
}
