package view

import (
	"slices"

	"hubrule/internal/geom"
)

// Line is a named line of the vehicle or beside it, in plan space, fine enough to be drawn as chords.
type Line struct {
	Name   string
	Kind   LineKind
	Points []Point3
	Closed bool // the last point is the first again

	normals   []Point3 // outwards at each point, of length 1; nil for a line that stands free
	onSurface bool     // the line lies within a smooth surface: it is hidden wherever that turns away
	arched    bool     // it ends at the wheel arches
	grazed    bool     // left out where the rear view sees its surface all but edge-on: it would fold into slivers
}

// LineKind is what a line of the vehicle is, so that a sheet can choose how to draw it.
type LineKind uint8

// The kinds of lines.
const (
	EdgeLine      LineKind = iota // where surfaces meet or the body ends
	DetailLine                    // shut lines and trim, within a surface
	GlassLine                     // the edges of screens and side glass; those of quarter lights are EdgeLine
	ArchLine                      // a wheel arch
	LampLine                      // the edge of a lamp
	PillarLine                    // an A-pillar
	SectionLine                   // a cut across the body
	CentreLine                    // the cut along the middle
	ContourLine                   // where the surface turns away: it may fold back on the picture, and short runs of it mean nothing
	TyreOuterLine                 // the outer edge of a tyre
	TyreInnerLine
	TreadLine // the outline of a tyre between its edges
	RimLine
)

// side is one side of the vehicle, and the sign of z there.
type side float64

const (
	left  side = 1
	right side = -1
)

// suffixed names a line of one side.
func (d side) suffixed(name string) string {
	if d == left {
		return name + "-left"
	}
	return name + "-right"
}

// vertex is a point of a surface with the outward normal there, of length 1.
type vertex struct{ p, normal Point3 }

// on returns v as it is on the left, or its mirror image on the right.
func (v vertex) on(d side) vertex {
	if d == right {
		return vertex{v.p.Mirror(), v.normal.Mirror()}
	}
	return v
}

// leaning returns v with its normal turned half way towards another one: v lies on the edge between two faces.
func (v vertex) leaning(to Point3) vertex { return vertex{v.p, v.normal.Add(to).Unit()} }

// leaning returns l with its normals turned half way towards another one.
func (l Line) leaning(to Point3) Line {
	normals := slices.Clone(l.normals)
	for i := range normals {
		normals[i] = l.vertex(i).leaning(to).normal
	}
	l.normals = normals
	return l
}

// Lerp returns the vertex a share t of the way from v to another.
func (v vertex) Lerp(to vertex, t float64) vertex {
	return vertex{v.p.Lerp(to.p, t), v.normal.Lerp(to.normal, t)}
}

// length returns the length of l as its chords have it.
func (l *Line) length() (sum geom.Wheels) {
	for i := 1; i < len(l.Points); i++ {
		sum += l.Points[i].Sub(l.Points[i-1]).Len()
	}
	return sum
}

// reserve makes room for n more vertices.
func (l *Line) reserve(n int) {
	l.Points, l.normals = slices.Grow(l.Points, n), slices.Grow(l.normals, n)
}

// add puts vertices at the end of l.
func (l *Line) add(vs ...vertex) {
	for _, v := range vs {
		l.Points, l.normals = append(l.Points, v.p), append(l.normals, v.normal)
	}
}

// vertex returns the point i of l with its normal, which is 0 for a line that stands free.
func (l *Line) vertex(i int) vertex {
	if l.normals == nil {
		return vertex{p: l.Points[i]}
	}
	return vertex{l.Points[i], l.normals[i]}
}

// addLine puts the vertices of m at the end of l.
func (l *Line) addLine(m Line) {
	l.Points, l.normals = append(l.Points, m.Points...), append(l.normals, m.normals...)
}

// onBothSides returns lines of the left half and then those of the right one, with the names of their sides.
func onBothSides(half []Line) []Line {
	out := slices.Grow([]Line(nil), 2*len(half))
	for _, l := range half {
		l.Name = left.suffixed(l.Name)
		out = append(out, l)
	}
	for _, l := range half {
		on := l
		on.Name, on.Points, on.normals = right.suffixed(l.Name), nil, nil
		on.reserve(len(l.Points))
		for i := range l.Points {
			on.add(l.vertex(i).on(right))
		}
		out = append(out, on)
	}
	return out
}

// mirrored returns the mirror image of l.
func (l Line) mirrored() Line {
	out := l
	out.Points, out.normals = nil, nil
	out.addMirrored(l)
	return out
}

// addMirrored puts the mirror images of m's vertices at the end of l, from the last to the first.
func (l *Line) addMirrored(m Line) {
	l.reserve(len(m.Points))
	for i := len(m.Points) - 1; i >= 0; i-- {
		l.add(m.vertex(i).on(right))
	}
}

// point3 is a place in plan space from numbers in wheels.
func point3(x, y, z float64) Point3 {
	return Point3{X: geom.Wheels(x), Y: geom.Wheels(y), Z: geom.Wheels(z)}
}
