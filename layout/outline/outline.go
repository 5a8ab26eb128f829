// Package outline draws the body's lines over a plan: the upper line, the arches, the side glass, the
// lamps and the shut lines. It works in plan space and knows no paper; docs/outline.md explains the construction.
package outline

import (
	"hubrule/internal/geom"
	"hubrule/layout"
)

type (
	point    = layout.Point
	quad     = geom.Quad[geom.Wheels]
	cubic    = geom.Cubic[geom.Wheels]
	parabola = geom.Parabola[geom.Wheels]
)

// LineKind says how a line of the outline is painted.
type LineKind uint8

// The kinds of lines: the first three are closed and may be filled.
const (
	Body     LineKind = iota // the body's own line
	Glass                    // side glass
	Lamp                     // a lamp's lens
	Hairline                 // a hint inside the body
	Dashed                   // not there now: the roof of an open car
)

// Line is one named line of the outline. A path may hold several runs.
type Line struct {
	Name string
	Kind LineKind
	Path layout.Path
}

// Outline is the body drawn over a plan: every line end comes from a figure, nothing is freehand.
// It lives in plan space and is rounded to 1e-6 w.
type Outline struct {
	Lines []Line // in paint order; "body" is first
	// Upper is the body's line from the lip of the front arch over nose, roof and tail to the lip of the rear arch.
	Upper []geom.Cubic[geom.Wheels]
}

// Line returns the path of the line called name, nil where this vehicle has none.
func (o Outline) Line(name string) layout.Path {
	for _, l := range o.Lines {
		if l.Name == name {
			return l.Path
		}
	}
	return nil
}

// Of draws the body over p.
func Of(p layout.Plan) Outline { return drawBody(p).draw().quantised() }

// draw returns the outline before rounding.
func (b *body) draw() Outline {
	o := Outline{Upper: b.upper}
	add := func(name string, kind LineKind, path layout.Path) {
		if len(path) > 0 {
			o.Lines = append(o.Lines, Line{name, kind, path})
		}
	}
	add("body", Body, b.closed())
	add("cladding", Hairline, b.cladding())
	glass := b.sideGlass()
	if b.isOpen() {
		add("seats", Hairline, b.seats())
		add("quarter-light", Glass, b.quarterLight())
		add("glass-up", Dashed, glass.path)
		add("roof-up", Dashed, openPath(b.roofUp))
	} else {
		add("glass", Glass, glass.path)
		add("pillars", Hairline, b.pillars(glass))
	}
	front, rear := b.frontLamp(), b.rearLamp()
	add("lamp-front", Lamp, front)
	add("lamp-rear", Lamp, rear)
	add("shoulder", Hairline, b.shoulder(rear))
	add("rocker", Hairline, b.rocker())
	add("doors", Hairline, b.doors())
	add("slide", Hairline, b.slide())
	add("intake", Hairline, b.intake())
	add("bed-gap", Hairline, b.bedGap())
	return o
}

// openPath returns a run of cubics as an open path.
func openPath(run []cubic) layout.Path {
	if len(run) == 0 {
		return nil
	}
	path := layout.Path{}.Move(run[0][0])
	for _, c := range run {
		path = path.Curve(c[1], c[2], c[3])
	}
	return path
}

// closedPath returns a run of cubics as a closed path.
func closedPath(run []cubic) layout.Path { return openPath(run).Close() }

// quantised returns o with every coordinate quantised like the plan's figures.
func (o Outline) quantised() Outline {
	out := Outline{Upper: make([]cubic, len(o.Upper)), Lines: make([]Line, len(o.Lines))}
	for i, c := range o.Upper {
		out.Upper[i] = cubic{quantise(c[0]), quantise(c[1]), quantise(c[2]), quantise(c[3])}
	}
	for i, l := range o.Lines {
		path := make(layout.Path, len(l.Path))
		for j, s := range l.Path {
			s.C1, s.C2, s.To, s.R = quantise(s.C1), quantise(s.C2), quantise(s.To), layout.Quantise(s.R)
			path[j] = s
		}
		out.Lines[i] = Line{l.Name, l.Kind, path}
	}
	return out
}

func quantise(p point) point { return point{X: layout.Quantise(p.X), Y: layout.Quantise(p.Y)} }
