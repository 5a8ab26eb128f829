package view

import (
	"slices"
	"strings"
	"sync"

	"hubrule/internal/geom"
	"hubrule/segments"
)

// Stroke is a run of a line on the picture, all of it seen or all of it hidden.
type Stroke struct {
	Hidden bool
	Points []ImagePoint
}

const (
	lift  geom.Wheels = .003 // places are tested this far outside the surface, more than the mesh departs from it
	step  geom.Wheels = .02  // between the places that are tested
	stub  geom.Wheels = .15  // the longest piece of a contour that is cut off behind a cusp
	least geom.Wheels = .03  // shorter runs follow their neighbours
)

// paths is room for lines that are looked at. It belongs to no scene: a pool keeps what holds it for two rounds of garbage.
var paths = sync.Pool{New: func() any { return new([]vertex) }}

// Strokes splits a line into runs that are seen and runs that are hidden, in order. The break between two is found by halving.
func (sc *Scene) Strokes(l Line) []Stroke {
	room := paths.Get().(*[]vertex)
	defer paths.Put(room)
	path := subdivided((*room)[:0], l)
	if *room = path; len(path) < 2 {
		return nil
	}
	hidden := make([]bool, len(path))
	look := look{scene: sc, line: &l, by: nothing}
	for i, v := range path {
		hidden[i] = look.isHidden(v)
	}
	settle(path, hidden, l.Kind == ContourLine)
	var out []Stroke
	points := make([]ImagePoint, 0, len(path)+len(path)/4)
	start := 0
	add := func(p Point3) { points = append(points, sc.Camera.Project(p)) }
	end := func(isHidden bool) {
		out = append(out, Stroke{isHidden, points[start:len(points):len(points)]})
		start = len(points)
	}
	add(path[0].p)
	for i := 1; i < len(path); i++ {
		if hidden[i] != hidden[i-1] {
			a, b := path[i-1], path[i]
			from, to := geom.Bisect(0, 1, 24, func(t float64) bool { return look.isHidden(a.Lerp(b, t)) == hidden[i-1] })
			turn := a.Lerp(b, (from+to)/2).p
			add(turn)
			end(hidden[i-1])
			add(turn)
		}
		add(path[i].p)
	}
	end(hidden[len(path)-1])
	if last := len(out) - 1; last > 1 && out[0].Hidden == out[last].Hidden && path[0].p == path[len(path)-1].p {
		out[0].Points = append(out[last].Points, out[0].Points[1:]...) // a closed line begins anywhere
		out = out[:last]
	}
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

// unfolded returns a contour without stubs behind a cusp: there it doubles back in the image and is soon
// hidden behind itself.
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
	return slices.DeleteFunc(sc.Strokes(l), func(s Stroke) bool { return s.Hidden })
}

// subdivided returns out with the line's vertices, and more between them where they lie far apart.
func subdivided(out []vertex, l Line) []vertex {
	out = slices.Grow(out, len(l.Points)+int(l.length()/step)+1)
	for i := range l.Points {
		v := l.vertex(i)
		if i > 0 {
			last := out[len(out)-1]
			n := int(v.p.Sub(last.p).Len()/step) + 1
			for k := 1; k < n; k++ {
				out = append(out, last.Lerp(v, float64(k)/float64(n)))
			}
		}
		out = append(out, v)
	}
	return out
}

// look looks along a line. What hides one of its places mostly hides the next one too.
type look struct {
	scene *Scene
	line  *Line
	by    int32 // the quad that hid the last place that was hidden, or nothing
}

func (k *look) isHidden(v vertex) bool {
	l, sc := k.line, k.scene
	return l.onSurface && sc.facing(v) > sc.flattest(l) ||
		l.arched && sc.solid.inArch(place{float64(v.p.X), float64(v.p.Y)}) ||
		k.hides(v.p.Add(v.normal.Unit().Times(float64(lift))))
}

// bias is how much nearer than a place something has to be to hide it, in wheels.
const bias geom.Wheels = .003

// hides reports whether anything stands between the eye and p.
func (k *look) hides(p Point3) bool {
	sc := k.scene
	d := sc.Camera.Depth(p) - bias
	if !sc.Camera.isParallel && d <= 0 {
		return false
	}
	at, limit := sc.Camera.Project(p), sc.Camera.nearness(d)
	if k.by != nothing && sc.lies(k.by, at, limit) {
		return true
	}
	by := sc.coveredBy(at, limit)
	if by != nothing {
		k.by = by
	}
	return by != nothing
}

// flattest returns the cosine of the flattest angle at which a line within the surface is seen.
func (sc *Scene) flattest(l *Line) float64 {
	const edgeOn = -.35
	if isRear := sc.Camera.isParallel && sc.Camera.forward.X < 0; isRear && l.grazed {
		return edgeOn
	}
	return 0
}

// facing returns how far the surface at v turns away from the eye: negative where it faces it.
func (sc *Scene) facing(v vertex) float64 { return v.normal.Dot(sc.Camera.sightLine(v.p)) }

// settle makes runs that are too short to be meant follow their neighbours. At the ends of a contour there is only one.
func settle(path []vertex, hidden []bool, isContour bool) {
	for start := 0; start < len(hidden); {
		end, long := start, geom.Wheels(0)
		for end+1 < len(hidden) && hidden[end+1] == hidden[start] {
			long += path[end+1].p.Sub(path[end].p).Len()
			end++
		}
		before, after := start > 0, end+1 < len(hidden)
		if long < least && (before && after || isContour && (before || after) && !hidden[start]) {
			for i := start; i <= end; i++ {
				hidden[i] = !hidden[i]
			}
		}
		start = end + 1
	}
}

// Panes returns the parts of the windows that are seen, each as a closed loop on the picture, to be filled. Where a window runs out of
// sight its loop is closed straight.
func (sc *Scene) Panes() [][]ImagePoint {
	var out [][]ImagePoint
	for _, l := range sc.solid.glass() {
		if loop := sc.pane(l); len(loop) > 2 {
			out = append(out, loop)
		}
	}
	return out
}

// pane returns what is seen of a window's edge.
func (sc *Scene) pane(l Line) (loop []ImagePoint) {
	for _, run := range sc.Visible(l) {
		loop = append(loop, run.Points...)
	}
	return loop
}

// windows returns the windows as closed lines: the screen between its edges and the cowl, the side glass and the rear screen.
func (s *Solid) windows() []Line {
	out := []Line{s.wholeScreen()}
	if s.form == segments.Open { // it is seen from behind too
		behind := s.wholeScreen()
		for i, n := range behind.normals {
			behind.normals[i] = n.Times(-1)
		}
		out = append(out, behind)
	}
	for _, l := range s.named(left.suffixed("glass")) {
		mirrored := Line{Name: right.suffixed("glass"), Kind: GlassLine, Closed: true, onSurface: true, grazed: true}
		mirrored.addMirrored(l)
		out = append(out, l, mirrored)
	}
	for _, l := range s.lines() {
		if l.Closed && strings.HasPrefix(l.Name, "rear-screen") {
			out = append(out, l)
		}
	}
	return out
}

// wholeScreen is the screen's own edge, round its surface: unlike the lines drawn there it is hidden where the screen turns away.
func (s *Solid) wholeScreen() Line {
	var edge Line
	for _, p := range s.named(left.suffixed("pillar"))[0].Points {
		edge.add(s.screenVertex(place{float64(p.Y), 1}))
	}
	edge.addLine(s.named(left.suffixed("header"))[0])
	out := Line{Name: "screen", Kind: GlassLine, Closed: true, onSurface: true}
	out.addLine(edge)
	out.addMirrored(edge)
	out.addLine(s.cowl())
	return out
}
