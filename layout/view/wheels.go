package view

import (
	"hubrule/internal/geom"
	"hubrule/segments"
)

// Wheel is one wheel as a cylinder whose axle runs across the vehicle. Lengths in wheels, plan space.
type Wheel struct {
	Name   string // front-left, rear-left, front-right or rear-right
	Centre Point3 // of the outer edge's circle, away from the centre line
	Inner  Point3 // of the inner edge's circle
	Radius geom.Wheels
	rim    geom.Wheels // radius of the rim, in the plane of the outer edge
}

// tyreClear is what stays between a tyre and the body's widest line, in wheels; the solve keeps it for the front tyres.
const tyreClear = .03

// Wheels returns the four wheels: left before right, front before rear.
func (s *Solid) Wheels() [4]Wheel {
	p := s.plan
	wheel := func(name string, x, radius geom.Wheels, rim float64, tyre segments.Tyre, side geom.Wheels) Wheel {
		section := s.TyreWidth(tyre)
		half := (s.Track(tyre) + section) / 2
		return Wheel{
			Name: name, Radius: radius, rim: geom.Wheels(rim * float64(radius)),
			Centre: Point3{X: x, Y: radius, Z: side * half}, Inner: Point3{X: x, Y: radius, Z: side * (half - section)},
		}
	}
	front, rear := p.Profile.Wheel, p.Profile.RearWheel
	return [4]Wheel{
		wheel("front-left", 0, .5, p.Rim(), front, 1), wheel("rear-left", p.Wheelbase(), p.RearRadius(), p.RearRim(), rear, 1),
		wheel("front-right", 0, .5, p.Rim(), front, -1), wheel("rear-right", p.Wheelbase(), p.RearRadius(), p.RearRim(), rear, -1),
	}
}

// TyreWidth returns a tyre's width in wheels. Where only a diameter is known it is a third of it: a common road tyre's share.
func (s *Solid) TyreWidth(t segments.Tyre) geom.Wheels {
	if t.SectionWidth > 0 {
		return geom.Wheels(t.SectionWidth / s.plan.Profile.Wheel.Diameter)
	}
	return geom.Wheels(t.Diameter / s.plan.Profile.Wheel.Diameter / 3)
}

// Track returns the distance between the centre lines of two tyres of one axle. It is the figure, less where a wider rear tyre
// would stand out of the body: the figure track is the front's, and the solve keeps only that one inside.
func (s *Solid) Track(t segments.Tyre) geom.Wheels {
	return min(geom.Wheels(s.plan.Value(segments.Track)), geom.Wheels(s.width)-s.TyreWidth(t)-tyreClear)
}

// WheelLines returns the lines of one wheel for hidden-line drawing: outer edge, inner edge, rim and the tread's outline. The edges
// seen whole are better drawn as WheelImage's ellipses.
func (sc *Scene) WheelLines(w Wheel) []Line {
	outwards, circle := w.Centre.Sub(w.Inner).Unit(), unitCircle(180)
	var out []Line
	for _, e := range []struct {
		name    string
		kind    LineKind
		centre  Point3
		radius  geom.Wheels
		normal  Point3
		leaning float64 // outwards from the axle
	}{
		{"wheel", TyreOuterLine, w.Centre, w.Radius, outwards, 1},
		{"wheel-inner", TyreInnerLine, w.Inner, w.Radius, outwards.Times(-1), 1},
		{"rim", RimLine, w.Centre, w.rim, outwards, 0},
	} {
		l := Line{Name: e.name + "-" + w.Name, Kind: e.kind, Closed: true}
		l.reserve(len(circle))
		for _, on := range circle {
			l.add(vertex{e.centre.Add(on.Times(float64(e.radius))), on.Times(e.leaning).Add(e.normal).Unit()})
		}
		out = append(out, l)
	}
	for _, on := range sc.Camera.treads(w) {
		l := Line{Name: "tread-" + w.Name, Kind: TreadLine}
		l.add(vertex{w.Centre.Add(on), on.Unit()}, vertex{w.Inner.Add(on), on.Unit()})
		out = append(out, l)
	}
	return out
}

// unitCircle returns the corners of a polygon round the z axis, the first one again at the end.
func unitCircle(sides int) []Point3 {
	out := make([]Point3, sides+1)
	for i := range sides {
		sin, cos := sincos(geom.Degrees(360 * float64(i) / float64(sides)))
		out[i] = point3(cos, sin, 0)
	}
	out[sides] = out[0]
	return out
}

// mesh returns the tyre as a prism inside its cylinder, a hair smaller than it.
func (w Wheel) mesh() mesh {
	m := mesh{rows: make([][]Point3, 4)}
	for _, on := range unitCircle(96) {
		on = on.Times(float64(w.Radius))
		for k, p := range [4]Point3{w.Centre, w.Centre.Add(on), w.Inner.Add(on), w.Inner} {
			m.rows[k] = append(m.rows[k], p)
		}
	}
	return m
}
