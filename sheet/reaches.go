package sheet

import (
	"slices"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/render"
)

// extent is where a mark lies: its line as straight pieces, its circle, or the area it covers.
type extent struct {
	box    box // all of it lies inside
	pieces []segment
	ring   *ring
	solid  bool    // what the pieces go round is covered too
	half   geom.MM // of the line's width
}

// extentOf measures m. A curve is taken for pieces that stray from it by less than slack.
func extentOf(m render.Mark) extent {
	switch m := m.(type) {
	case *render.Stroke:
		return outlined(m.Path, extent{half: m.Pen.Width / 2})
	case *render.Fill:
		return outlined(m.Path, extent{solid: true})
	case *render.Circle:
		round := box{Min: m.Centre, Max: m.Centre}.Grow(m.R)
		return extent{box: round, ring: &ring{m.Centre, m.R}, solid: m.Fill != nil, half: m.Pen.Width / 2}
	case *render.Ellipse:
		return outlined(m.Path(), extent{half: m.Pen.Width / 2, solid: m.Fill != nil})
	case *render.Text:
		return textExtent(m)
	}
	panic("sheet: cannot measure a mark of unknown kind")
}

// slack is more than a piece of a curve strays from it, on the largest sheets too.
const slack geom.MM = .2

func outlined(path render.Path, e extent) extent {
	chords := 64
	if !slices.ContainsFunc(path, func(s geom.Step[geom.MM]) bool { return s.Verb == geom.CurveTo || s.Verb == geom.ArcTo }) {
		chords = 1
	}
	for i, run := range path.Flatten(chords) {
		if i == 0 {
			e.box = box{Min: run[0], Max: run[0]}
		}
		for k, p := range run {
			e.box.Min = point{X: min(e.box.Min.X, p.X), Y: min(e.box.Min.Y, p.Y)}
			e.box.Max = point{X: max(e.box.Max.X, p.X), Y: max(e.box.Max.Y, p.Y)}
			if k > 0 {
				e.pieces = append(e.pieces, segment{run[k-1], p})
			}
		}
		if e.solid {
			e.pieces = append(e.pieces, segment{run[len(run)-1], run[0]})
		}
	}
	return e
}

// textExtent returns the box of a line of words; of a turned one, the box of the circle it turns in.
func textExtent(t *render.Text) extent {
	var l label
	for _, s := range t.Spans {
		l.width += fonts.Width(s.Text, s.Height, s.Weight)
		l.height = max(l.height, s.Height)
	}
	b := l.box(t.At.X, t.At.Y-l.height*ascent, t.Anchor)
	b.Max.Y += l.height * descent
	if t.Angle != 0 {
		b = box{Min: t.At, Max: t.At}.Grow(l.width + l.height)
	}
	return extent{box: b}
}

// reaches reports whether something of e lies in r.
func (e extent) reaches(r box) bool {
	r = r.Grow(e.half + slack)
	switch {
	case !overlap(e.box, r):
		return false
	case e.ring != nil && !e.solid:
		return e.ring.meets(r)
	case e.ring != nil:
		near := point{X: min(max(e.ring.centre.X, r.Min.X), r.Max.X), Y: min(max(e.ring.centre.Y, r.Min.Y), r.Max.Y)}
		return near.Sub(e.ring.centre).Len() <= e.ring.r
	case e.pieces == nil:
		return true
	}
	return touched(e.pieces, r) || e.solid && e.covers(r.Min)
}

// overlap reports whether a and b have a point in common; a line's box has no area.
func overlap(a, b box) bool {
	return a.Min.X <= b.Max.X && b.Min.X <= a.Max.X && a.Min.Y <= b.Max.Y && b.Min.Y <= a.Max.Y
}

// covers reports whether p lies inside the pieces: a ray from it crosses an odd number of them.
func (e extent) covers(p point) bool {
	odd := false
	for _, s := range e.pieces {
		if (s.a.Y > p.Y) != (s.b.Y > p.Y) {
			x := s.a.Lerp(s.b, float64((p.Y-s.a.Y)/(s.b.Y-s.a.Y))).X
			odd = odd != (x > p.X)
		}
	}
	return odd
}
