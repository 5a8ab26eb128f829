// Package render holds the drawing model, finished pages in millimetres, and its writers.
//
// A Page is plain data: the writers translate marks one by one and decide nothing.
package render

import (
	"iter"
	"slices"

	"hubrule/fonts"
	"hubrule/internal/geom"
)

// Point is a place in page space: millimetres, x right and y down from the top left corner.
type Point = geom.Point[geom.MM]

// Path is a path in page space.
type Path = geom.Path[geom.MM]

// Colour is an opaque sRGB colour.
type Colour struct{ R, G, B uint8 }

// Pen says how a line is drawn. The zero Dash is a continuous line.
type Pen struct {
	Width geom.MM
	Dash  []float64 // dash, gap, dash, gap … in line widths, at least two numbers
	Ink   Colour
}

// Weight is a weight of the one face the sheets use.
type Weight = fonts.Weight

// The three weights that are embedded.
const (
	Regular  = fonts.Regular
	Medium   = fonts.Medium
	SemiBold = fonts.SemiBold
)

// Anchor says which end of a text stands at its place.
type Anchor uint8

// The anchors of a text, by how many halves of its line lie before its place.
const (
	Start Anchor = iota
	Middle
	End
)

// Span is a run of text in one height, weight and ink. Letters that the face lacks are drawn as empty boxes.
type Span struct {
	Text       string
	ActualText string  // the whole words, where Text is cut; for whoever reads, copies or searches the file
	Key        string  // names the quantity whose value Text is, for a program that shows the page; no file has it
	IsName     bool    // Text is the quantity's name, not its value
	Height     geom.MM // of a capital letter
	Weight     Weight
	Ink        Colour
}

// Mark is one thing on a page: Stroke, Circle, Ellipse, Fill, Text or Picture.
type Mark interface{ Tag() *Tagged }

// Tagged is what every mark carries besides its shape.
type Tagged struct {
	Guide string // "belt": written as the layer guide-belt
	ID    string // stable and unique on its page, or empty
}

// Tag returns t itself, so that a writer can read guide and id of any mark.
func (t *Tagged) Tag() *Tagged { return t }

// Stroke is a line along Path. Caps are butt, joins round.
type Stroke struct {
	Tagged
	Path Path
	Pen  Pen
}

// Circle is a whole circle, drawn with Pen; Fill is nil for an empty one.
type Circle struct {
	Tagged
	Centre Point
	R      geom.MM
	Pen    Pen
	Fill   *Colour
}

// Outline returns the circle as cubics, for writers without circles.
func (c *Circle) Outline() Path {
	var path Path
	for i, piece := range geom.CircleCubics(c.Centre, c.R) {
		if i == 0 {
			path = path.Move(piece[0])
		}
		path = path.Curve(piece[1], piece[2], piece[3])
	}
	return path.Close()
}

// Fill is the area inside Path (even-odd), without a line round it.
type Fill struct {
	Tagged
	Path Path
	Ink  Colour
}

// Text is one line of spans. At is on the baseline, at the end that Anchor names.
// Angle turns it counter-clockwise about At, in degrees.
type Text struct {
	Tagged
	At     Point
	Anchor Anchor
	Spans  []Span
	Angle  geom.Degrees
}

// FullText returns what t says if that is more than is drawn, else nothing.
func (t *Text) FullText() string {
	drawn, whole := "", ""
	for _, s := range t.Spans {
		drawn, whole = drawn+s.Text, whole+s.FullText()
	}
	if drawn == whole {
		return ""
	}
	return whole
}

// FullText returns what s says, drawn or not.
func (s Span) FullText() string {
	if s.ActualText != "" {
		return s.ActualText
	}
	return s.Text
}

// Width returns the width of t's line on paper.
func (t *Text) Width() geom.MM {
	width := geom.MM(0)
	for _, s := range t.Spans {
		width += fonts.Width(s.Text, s.Height, s.Weight)
	}
	return width
}

// BeforeAnchor returns how much of t's line lies before At.
func (t *Text) BeforeAnchor() geom.MM {
	return t.Width() * geom.MM(t.Anchor) / 2
}

// Guide names one layer of a page in paint order. Its marks are clipped to the page's Clip unless it is Unclipped.
type Guide struct {
	Name, Title string
	Unclipped   bool
}

// Box is a rectangle in page space.
type Box = geom.Box[geom.MM]

// Page is one finished sheet. Guides lists the layers in paint order; marks of one guide are painted in their own order.
type Page struct {
	Width, Height geom.MM
	Title         string  // bookmark
	Chapter       string  // bookmark over those of the pages that follow one another with the same one, or empty
	Label         string  // what a viewer calls the page instead of its number, or empty
	Wheel         geom.MM // on paper; 0 where the page has no wheel of the size that other sheets share
	Clip          *Box    // what is seen of the marks; nil: all
	Guides        []Guide
	Marks         []Mark
	Base          *Page   // what lies under Marks and is shared with other pages, or nil; a PDF holds it once
	About         About   // for files of one page; a PDF has its document's
	Data          []Datum // what an SVG's root says besides, for programs that read it; other files leave it out
}

// Datum is a number or some numbers under a name: data-NAME="VALUE" on the root of an SVG.
type Datum struct{ Name, Value string }

// Flatten returns p with the marks of its base among its own: layer by layer, the base's first.
func (p Page) Flatten() Page {
	if p.Base == nil {
		return p
	}
	base := p.Base.Flatten()
	out := p
	out.Base, out.Guides, out.Marks = nil, slices.Clone(base.Guides), slices.Concat(base.Marks, p.Marks)
	for _, g := range p.Guides {
		if !slices.ContainsFunc(out.Guides, func(h Guide) bool { return h.Name == g.Name }) {
			out.Guides = append(out.Guides, g)
		}
	}
	return out
}

// Layers yields the layers that have marks in paint order, each with its marks in theirs.
func (p Page) Layers() iter.Seq2[Guide, []Mark] {
	marks := map[string][]Mark{}
	for _, m := range p.Marks {
		name := m.Tag().Guide
		marks[name] = append(marks[name], m)
	}
	return func(yield func(Guide, []Mark) bool) {
		for _, g := range p.Guides {
			if len(marks[g.Name]) > 0 && !yield(g, marks[g.Name]) {
				return
			}
		}
	}
}

// ClipID is the id of the clip in an SVG; no mark may have it.
const ClipID = "window"

// Clips reports whether the marks of g are cut to the page's clip.
func (p Page) Clips(g Guide) bool { return p.Clip != nil && !g.Unclipped }

// ClipCorners returns the corners of the clip, rounded as files spell them.
func (p Page) ClipCorners() (at, to Point) { return RoundPoint(p.Clip.Min), RoundPoint(p.Clip.Max) }

// Document is what one file holds.
type Document struct {
	Title string
	About About
	Pages []Page
}

// Each yields the pages in their order.
func (d Document) Each() iter.Seq2[Page, error] {
	return func(yield func(Page, error) bool) {
		for _, p := range d.Pages {
			if !yield(p, nil) {
				return
			}
		}
	}
}
