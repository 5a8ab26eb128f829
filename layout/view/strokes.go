package view

import "hubrule/internal/geom"

// Line is a named line of the vehicle or beside it, in plan space, fine enough to be drawn as chords.
type Line struct {
	Name   string
	Kind   LineKind
	Points []Point3
	Closed bool // the last point is the first again

	outs    []Point3 // outwards at each point, of length 1; nil for a line that stands free
	surface bool     // the line lies within a smooth surface: it is hidden wherever that turns away
	arched  bool     // it ends at the wheel arches
}

// LineKind says what a line of the vehicle is, so that a sheet can choose how to draw it.
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

// Stroke is a run of a line on the picture, all of it seen or all of it hidden.
type Stroke struct {
	Name   string
	Hidden bool
	Points []ImagePoint
}

const (
	lift  geom.Wheels = .003 // places are tested this far outside the surface, more than the mesh departs from it
	step  geom.Wheels = .02  // between the places that are tested
	stub  geom.Wheels = .15  // the longest piece of a contour that is cut off behind a cusp
	least geom.Wheels = .03  // shorter runs are not told apart from their neighbours
)

// Strokes splits a line into runs that are seen and runs that are hidden, in order. The break between two is found by halving.
func (sc *Scene) Strokes(l Line) []Stroke {
	path := sc.walk(l)
	if len(path) < 2 {
		return nil
	}
	flags := make([]bool, len(path))
	for i, at := range path {
		flags[i] = sc.isHidden(l, at)
	}
	settle(path, flags, l.Kind == ContourLine)
	var out []Stroke
	run := Stroke{Name: l.Name, Hidden: flags[0], Points: []ImagePoint{sc.Camera.Project(path[0].p)}}
	for i := 1; i < len(path); i++ {
		if flags[i] != flags[i-1] {
			turn := sc.Camera.Project(sc.turn(l, path[i-1], path[i], flags[i-1]).p)
			run.Points = append(run.Points, turn)
			out = append(out, run)
			run = Stroke{Name: l.Name, Hidden: flags[i], Points: []ImagePoint{turn}}
		}
		run.Points = append(run.Points, sc.Camera.Project(path[i].p))
	}
	out = append(out, run)
	if l.Kind == ContourLine {
		stub := ImageLength(stub)
		if !sc.Camera.isParallel {
			stub /= ImageLength(sc.Camera.Spec.Distance)
		}
		for i := range out {
			out[i].Points = unfolded(out[i].Points, stub)
		}
	}
	return out
}

// unfolded returns a contour without stubs behind a cusp: there it turns back on the picture and runs out of sight under itself,
// at first too close to tell.
func unfolded(points []ImagePoint, stub ImageLength) []ImagePoint {
	const back = -.85 // cosine of the turn
	for i := 1; i+1 < len(points); i++ {
		a, b := points[i].Sub(points[i-1]), points[i+1].Sub(points[i])
		if a.Unit().Dot(b.Unit()) >= back {
			continue
		}
		switch {
		case length(points[:i+1]) < stub:
			return unfolded(points[i:], stub)
		case length(points[i:]) < stub:
			return points[:i+1]
		}
	}
	return points
}

func length(points []ImagePoint) ImageLength {
	sum := ImageLength(0)
	for i := 1; i < len(points); i++ {
		sum += points[i].Sub(points[i-1]).Len()
	}
	return sum
}

// Visible returns the runs of a line that are seen.
func (sc *Scene) Visible(l Line) []Stroke {
	var out []Stroke
	for _, s := range sc.Strokes(l) {
		if !s.Hidden {
			out = append(out, s)
		}
	}
	return out
}

// walk returns the line's points with more between them where they lie far apart.
func (sc *Scene) walk(l Line) []joint {
	var out []joint
	for i, p := range l.Points {
		now := joint{p: p}
		if l.outs != nil {
			now.normal = l.outs[i]
		}
		if i > 0 {
			last := out[len(out)-1]
			n := int(p.Sub(last.p).Len()/step) + 1
			for k := 1; k < n; k++ {
				out = append(out, last.mix(now, float64(k)/float64(n)))
			}
		}
		out = append(out, now)
	}
	return out
}

func (j joint) mix(to joint, t float64) joint {
	return joint{p: j.p.Lerp(to.p, t), normal: j.normal.Lerp(to.normal, t)}
}

func (sc *Scene) isHidden(l Line, at joint) bool {
	if l.surface && at.normal.Dot(sc.Camera.sightLine(at.p)) > 0 {
		return true
	}
	if l.arched && sc.solid.inArch(place{float64(at.p.X), float64(at.p.Y)}) {
		return true
	}
	return sc.hides(at.p.Add(at.normal.Unit().Times(float64(lift))))
}

// turn finds where between two places a line comes into sight or goes out of it.
func (sc *Scene) turn(l Line, a, b joint, hidden bool) joint {
	for range 24 {
		if mid := a.mix(b, .5); sc.isHidden(l, mid) == hidden {
			a = mid
		} else {
			b = mid
		}
	}
	return a.mix(b, .5)
}

// settle makes runs that are too short to be meant follow their neighbours. At the ends of a contour there is only one.
func settle(path []joint, hidden []bool, ends bool) {
	for start := 0; start < len(hidden); {
		end, long := start, geom.Wheels(0)
		for end+1 < len(hidden) && hidden[end+1] == hidden[start] {
			long += path[end+1].p.Sub(path[end].p).Len()
			end++
		}
		before, after := start > 0, end+1 < len(hidden)
		if long < least && (before && after || ends && (before || after) && !hidden[start]) {
			for i := start; i <= end; i++ {
				hidden[i] = !hidden[i]
			}
		}
		start = end + 1
	}
}
