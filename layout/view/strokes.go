package view

import "hubrule/geom"

// Line is a named line of the vehicle or beside it, in plan space, fine enough to be drawn as chords.
type Line struct {
	Name   string
	Points []Point3
	Closed bool // the last point is the first again

	outs    []Point3 // outwards at each point, of length 1; nil for a line that stands free
	surface bool     // the line lies within a smooth surface: it is hidden wherever that turns away
	arched  bool     // it ends at the wheel arches
}

// Stroke is a run of a line on the picture, all of it seen or all of it hidden.
type Stroke struct {
	Name   string
	Hidden bool
	Points []Spot
}

const (
	lift  geom.Wheels = .003 // places are tested this far outside the surface, more than the mesh departs from it
	step  geom.Wheels = .02  // between the places that are tested
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
	settle(path, flags)
	var out []Stroke
	run := Stroke{Name: l.Name, Hidden: flags[0], Points: []Spot{sc.Camera.Project(path[0].p)}}
	for i := 1; i < len(path); i++ {
		if flags[i] != flags[i-1] {
			turn := sc.Camera.Project(sc.turn(l, path[i-1], path[i], flags[i-1]).p)
			run.Points = append(run.Points, turn)
			out = append(out, run)
			run = Stroke{Name: l.Name, Hidden: flags[i], Points: []Spot{turn}}
		}
		run.Points = append(run.Points, sc.Camera.Project(path[i].p))
	}
	return append(out, run)
}

// Seen returns the runs of a line that are seen.
func (sc *Scene) Seen(l Line) []Stroke {
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
	return joint{p: j.p.Mix(to.p, t), normal: j.normal.Mix(to.normal, t)}
}

func (sc *Scene) isHidden(l Line, at joint) bool {
	if l.surface && at.normal.Dot(sc.Camera.Look(at.p)) > 0 {
		return true
	}
	if l.arched && sc.Solid.inArch(place{float64(at.p.X), float64(at.p.Y)}) {
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

// settle makes runs that are too short to be meant follow their neighbours.
func settle(path []joint, hidden []bool) {
	for start := 0; start < len(hidden); {
		end, long := start, geom.Wheels(0)
		for end+1 < len(hidden) && hidden[end+1] == hidden[start] {
			long += path[end+1].p.Sub(path[end].p).Len()
			end++
		}
		if long < least && start > 0 && end+1 < len(hidden) {
			for i := start; i <= end; i++ {
				hidden[i] = hidden[start-1]
			}
		}
		start = end + 1
	}
}
