package view

import (
	"slices"

	"hubrule/internal/geom"
)

// Silhouette returns the edge of what the vehicle covers of the picture, wheels included, as closed loops to be filled by the even-odd
// rule. The edge is found along the lines of a grid by halving, so that it lies where the vehicle ends, not where a raster does;
// its corners are cut by less than a cell.
func (sc *Scene) Silhouette() [][]ImagePoint {
	const across = 320
	size := max(sc.box.Width(), sc.box.Height()) / across
	corner := func(i, j int) ImagePoint {
		return ImagePoint{X: sc.box.Min.X + ImageLength((ImageLength(i)-.5)*size), Y: sc.box.Min.Y + ImageLength((ImageLength(j)-.5)*size)}
	}
	free := make([][]float64, int(sc.box.Width()/size)+3) // positive where nothing covers the picture
	for i := range free {
		free[i] = make([]float64, int(sc.box.Height()/size)+3)
		for j := range free[i] {
			free[i][j] = 1
			if sc.Covers(corner(i, j)) {
				free[i][j] = -1
			}
		}
	}
	return zeroRuns(free, func(e edge) ImagePoint {
		from, to := corner(e.i, e.j), corner(e.toI, e.toJ)
		if free[e.i][e.j] > 0 {
			from, to = to, from
		}
		t, _ := geom.Bisect(0, 1, 20, func(t float64) bool { return sc.Covers(from.Lerp(to, t)) })
		return from.Lerp(to, t)
	})
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

// glass returns the windows as closed lines: the screen between its edges and the cowl, the side glass and the rear screen.
func (s *Solid) glass() []Line {
	out := []Line{s.wholeScreen()}
	for _, name := range []string{"glass", "quarter-light"} {
		for _, l := range s.lifted(name, GlassLine) {
			l.Name = left.suffixed(name)
			mirrored := Line{Name: right.suffixed(name), Kind: GlassLine, Closed: true, onSurface: true}
			mirrored.addMirrored(l)
			out = append(out, l, mirrored)
		}
	}
	return append(out, slices.DeleteFunc(s.rearLines(), func(l Line) bool { return l.Name != "rear-screen" })...)
}

// wholeScreen is the screen's own edge, round its surface: unlike the lines drawn there it is hidden where the screen turns away.
func (s *Solid) wholeScreen() Line {
	var edge Line
	for _, l := range s.screenEdges() {
		edge.addLine(l)
	}
	for i, p := range edge.Points {
		edge.normals[i] = s.screenNormal(place{float64(p.Y), 1})
	}
	out := Line{Name: "screen", Kind: GlassLine, Closed: true, onSurface: true}
	out.addLine(edge)
	out.addMirrored(edge)
	out.addLine(s.cowl())
	return out
}
