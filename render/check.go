package render

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"hubrule/fonts"
	"hubrule/internal/geom"
)

// maxCoordinate bounds every number of a page: anything larger is a mistake, and PDF readers have bounds of their own.
const maxCoordinate geom.MM = 1e6

// Check returns what keeps p from being written: a number that is not finite, a mark without a layer, a name
// given twice, words with a control character. Every writer checks first, so that no such thing reaches a file.
func (p Page) Check() error {
	if !inRange(p.Width, p.Height) || p.Width <= 0 || p.Height <= 0 {
		return fmt.Errorf("page %q: size %v x %v mm", p.Title, p.Width, p.Height)
	}
	if w := p.Clip; w != nil && (!inRange(w.Min.X, w.Min.Y, w.Max.X, w.Max.Y) ||
		thousandths(w.Width()) <= 0 || thousandths(w.Height()) <= 0) {
		return fmt.Errorf("page %q: window from %v, %v to %v, %v", p.Title, w.Min.X, w.Min.Y, w.Max.X, w.Max.Y)
	}
	layers := map[string]bool{}
	for _, g := range p.Guides {
		if layers[g.Name] {
			return fmt.Errorf("page %q: layer %q is listed twice", p.Title, g.Name)
		}
		layers[g.Name] = true
	}
	seen := make(map[string]bool, len(p.Marks))
	seen[ClipID] = p.Clip != nil
	for i, m := range p.Marks {
		tag := m.Tag()
		if err := checkMark(m); err != nil {
			return fmt.Errorf("page %q: mark %d %q of layer %q: %w", p.Title, i+1, tag.ID, tag.Guide, err)
		}
		if !layers[tag.Guide] {
			return fmt.Errorf("page %q: mark %d %q: layer %q is not among the page's", p.Title, i+1, tag.ID, tag.Guide)
		}
		if tag.ID != "" && seen[tag.ID] {
			return fmt.Errorf("page %q: two marks are called %q", p.Title, tag.ID)
		}
		seen[tag.ID] = true
	}
	return nil
}

// checkMark returns what is wrong with one mark's own numbers and words.
func checkMark(m Mark) error {
	switch m := m.(type) {
	case *Stroke:
		return cmp.Or(checkPath(m.Path), checkPen(m.Pen))
	case *Fill:
		return checkPath(m.Path)
	case *Circle:
		if !inRange(m.Centre.X, m.Centre.Y, m.R) || m.R <= 0 {
			return fmt.Errorf("circle round %v, %v of radius %v", m.Centre.X, m.Centre.Y, m.R)
		}
		return checkPen(m.Pen)
	case *Ellipse:
		return checkEllipse(m)
	case *Text:
		return checkText(m)
	case *Picture:
		return checkPicture(m)
	default:
		panic(fmt.Sprintf("render: no writer can draw %T", m))
	}
}

func checkPath(p Path) error {
	if len(p) < 2 || p[0].Verb != geom.MoveTo {
		return fmt.Errorf("a path of %d steps; want a move and at least one step more", len(p))
	}
	var start, from Point
	for i, s := range p {
		if !inRange(s.To.X, s.To.Y, s.C1.X, s.C1.Y, s.C2.X, s.C2.Y, s.R) {
			return fmt.Errorf("step %d of the path is not on any paper: %+v", i+1, s)
		}
		if s.Verb == geom.ArcTo && s.R <= 0 {
			return fmt.Errorf("step %d of the path is an arc of radius %v", i+1, s.R)
		}
		if chord := s.To.Sub(from).Len(); s.Verb == geom.ArcTo && thousandths(chord) > thousandths(2*s.R)+1 {
			return fmt.Errorf("step %d of the path is an arc of radius %v between places %v apart", i+1, s.R, chord)
		}
		switch from = s.To; s.Verb {
		case geom.MoveTo:
			start = s.To
		case geom.Close:
			from = start
		}
	}
	return nil
}

func checkPen(p Pen) error {
	if !inRange(p.Width) || p.Width < 0 {
		return fmt.Errorf("line width %v", p.Width)
	}
	if len(p.Dash) == 0 {
		return nil
	}
	whole := 0.
	for _, d := range p.Dash {
		if !inRange(geom.MM(d)) || d < 0 {
			return fmt.Errorf("dashes %v", p.Dash)
		}
		whole += d
	}
	if len(p.Dash)%2 != 0 || thousandths(whole*float64(p.Width)) == 0 {
		return fmt.Errorf("dashes %v of a line %v wide", p.Dash, p.Width)
	}
	return nil
}

func checkText(t *Text) error {
	if !inRange(t.At.X, t.At.Y, geom.MM(t.Angle)) {
		return fmt.Errorf("text at %v, %v, turned %v degrees", t.At.X, t.At.Y, t.Angle)
	}
	for _, s := range t.Spans {
		if !inRange(s.Height) || s.Height <= 0 {
			return fmt.Errorf("letters %v high", s.Height)
		}
		if letter, found := fonts.Control(s.Text + s.ActualText); found {
			return fmt.Errorf("%q: a line of words cannot hold %q", s.Text, letter)
		}
	}
	return nil
}

// inRange reports whether all lengths are finite and within bounds.
func inRange(lengths ...geom.MM) bool {
	return !slices.ContainsFunc(lengths, func(l geom.MM) bool { return !(math.Abs(float64(l)) <= float64(maxCoordinate)) })
}
