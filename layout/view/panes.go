package view

import "hubrule/segments"

// Pane is the part of a window that is seen, as one closed loop on the picture, to be filled.
type Pane struct {
	Name   string // screen, glass-left, glass-right, quarter-light-left …, rear-screen
	Points []ImagePoint
}

// Panes returns the panes that are seen. Where a window runs out of sight its loop is closed straight.
func (sc *Scene) Panes() []Pane {
	var out []Pane
	for _, l := range sc.solid.glass() {
		p := Pane{Name: l.Name}
		for _, run := range sc.Visible(l) {
			p.Points = append(p.Points, run.Points...)
		}
		if len(p.Points) > 2 {
			out = append(out, p)
		}
	}
	return out
}

// glass returns the windows as closed lines: the screen between its edges and the cowl, the side glass and the rear screen.
func (s *Solid) glass() []Line {
	out := []Line{s.wholeScreen()}
	for _, l := range s.sideLines(1) {
		if l.Closed && (l.Kind == GlassLine || l.Name == "quarter-light-left") {
			right := Line{Name: sided(l.Name[:len(l.Name)-len("-left")], -1), Kind: l.Kind, Closed: true, surface: true}
			right.addMirrored(l)
			out = append(out, l, right)
		}
	}
	if s.form != segments.Open {
		for _, l := range s.rearLines() {
			if l.Name == "rear-screen" {
				out = append(out, l)
			}
		}
	}
	return out
}

// wholeScreen is the screen's own edge, round its surface: unlike the lines drawn there it is hidden where the screen turns away.
func (s *Solid) wholeScreen() Line {
	var edge Line
	for _, l := range s.screenEdges(1) {
		edge.add(l)
	}
	for i, p := range edge.Points {
		edge.outs[i] = s.screenNormal(place{float64(p.Y), 1})
	}
	out := Line{Name: "screen", Closed: true, surface: true}
	out.add(edge)
	out.addMirrored(edge)
	out.add(s.cowl())
	return out
}
